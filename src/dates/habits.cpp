// Habits of writing dates that mean something to a reader and nothing, or something else, to EDTF. Each is
// answered with what to type; where the habit can mean two things, with both.
#include <algorithm>
#include <array>

#include "base/text.h"
#include "dates/advice.h"
#include "dates/print.h"
#include "dates/vocabulary.h"

namespace saggar::dates {
namespace {

using base::isDigit;

constexpr std::string_view kEnDash = "\xE2\x80\x93";
constexpr std::string_view kEmDash = "\xE2\x80\x94";

bool allDigits(std::string_view text) {
  return !text.empty() && std::all_of(text.begin(), text.end(), isDigit);
}

int number(std::string_view digits) {
  int value = 0;
  for (const char c : digits) value = value * 10 + (c - '0');
  return value;
}

std::string quoted(std::string_view text) {
  return "\"" + std::string(text) + "\"";
}

std::string twoDigits(int value) {
  std::string out;
  appendNumber(out, value, 2);
  return out;
}

// `1932-06-05` as `5 June 1932`.
std::string describeDayOf(std::string_view day) {
  return inTable(*tryRead(day));
}

// Two parts around a dash of any width, blanks round it or not.
bool splitAtDash(std::string_view text, std::string_view& left, std::string_view& right) {
  for (const std::string_view dash : {kEnDash, kEmDash, std::string_view("-")}) {
    const std::size_t at = text.find(dash);
    if (at == std::string_view::npos || at == 0) continue;
    left = base::trimmed(text.substr(0, at));
    right = base::trimmed(text.substr(at + dash.size()));
    return !left.empty() && !right.empty();
  }
  return false;
}

// 193-, 193?, 193_, 19--, 19??, 193x: a year whose last digits were left out.
bool missingDigits(std::string_view text, Habit& habit) {
  std::size_t digits = 0;
  while (digits < text.size() && isDigit(text[digits])) ++digits;
  if (digits != 2 && digits != 3) return false;
  std::string_view rest = text.substr(digits);
  const std::size_t missing = 4 - digits;
  std::size_t fillers = 0;
  while (fillers < rest.size() && fillers < missing &&
         std::string_view("-_.*xuX?").find(rest[fillers]) != std::string_view::npos) {
    ++fillers;
  }
  rest.remove_prefix(fillers);
  if (!(rest.empty() || rest == "?" || rest == "~" || rest == "%")) return false;
  if (digits == 2 && fillers < missing && fillers != 0) return false;
  const std::string year = std::string(text.substr(0, digits)) + std::string(missing, 'X');
  habit.message = quoted(text) + (digits == 3 ? " has three digits of a year" : " has two digits of a year");
  habit.hint = "for some year from " + std::string(text.substr(0, digits)) + std::string(missing, '0') +
               " to " + std::string(text.substr(0, digits)) + std::string(missing, '9') + " type " + year;
  if (fillers > 0) habit.suggestion = year + std::string(rest);
  return true;
}

// 1932-5, 1932-35, 1932–35, 1926-1935, 1932/5, 1932/35.
bool yearsWithDash(std::string_view text, Habit& habit) {
  std::string_view left, right;
  const std::size_t slash = text.find('/');
  if (slash != std::string_view::npos) {
    left = base::trimmed(text.substr(0, slash));
    right = base::trimmed(text.substr(slash + 1));
  } else if (!splitAtDash(text, left, right)) {
    return false;
  }
  if (!allDigits(left) || left.size() != 4 || !allDigits(right) || right.size() > 4 || right.size() == 3)
    return false;
  std::string end(right);
  if (right.size() < 4) end = std::string(left.substr(0, 4 - right.size())) + end;
  const std::string years = std::string(left) + "/" + end;
  const int tail = number(right);
  const bool mayBeMonth = right.size() < 3 && tail >= 1 && tail <= 12 && slash == std::string_view::npos;
  const bool ordered = number(end) > number(left);
  if (mayBeMonth) {
    const std::string month = std::string(left) + "-" + twoDigits(tail);
    habit.message = quoted(text) + " may be a month or a range of years";
    habit.hint = "type " + month + " for the month" + (ordered ? ", " + years + " for the years" : "");
    if (!ordered) habit.suggestion = month;
    return true;
  }
  if (!ordered) return false;
  habit.message = quoted(text) + " is not how two years are written";
  habit.hint = "type " + years + " or " + std::string(left) + " to " + end;
  habit.suggestion = years;
  return true;
}

// Any two dates around a dash: `May 1932 – June 1933`, `1932?-1935`.
bool datesWithDash(std::string_view text, Habit& habit) {
  for (const std::string_view dash : {kEnDash, kEmDash, std::string_view(" - "), std::string_view("-")}) {
    const std::size_t at = text.find(dash);
    if (at == std::string_view::npos || at == 0) continue;
    const std::string_view left = base::trimmed(text.substr(0, at));
    const std::string_view right = base::trimmed(text.substr(at + dash.size()));
    const std::string joined =
        right.empty() ? std::string(left) + "/.." : std::string(left) + " to " + std::string(right);
    if (left.empty() || left.size() + right.size() > 60 || !tryRead(joined)) continue;
    habit.message = quoted(text) + " has a dash between two dates";
    if (right.empty()) {
      habit.message = quoted(text) + " has a dash and nothing after it";
      habit.hint = "type " + std::string(left) + "/.. if it has not ended, " + std::string(left) +
                   "/ if its end is not known";
    } else {
      habit.hint = "type " + joined;
      habit.suggestion = joined;
    }
    return true;
  }
  return false;
}

// 5.6.1932, 06/01/1936, 1936/06/01, 19360601.
bool numbersOnly(std::string_view text, Habit& habit) {
  std::array<std::string_view, 3> parts;
  std::size_t count = 0;
  std::size_t start = 0;
  if (allDigits(text) && text.size() == 8) {
    parts = {text.substr(0, 4), text.substr(4, 2), text.substr(6, 2)};
    count = 3;
  } else {
    for (std::size_t at = 0; at <= text.size(); ++at) {
      if (at < text.size() && text[at] != '.' && text[at] != '/' && text[at] != '-') continue;
      if (count == 3) return false;
      parts[count++] = text.substr(start, at - start);
      start = at + 1;
    }
  }
  if (count != 3 || !std::all_of(parts.begin(), parts.end(), allDigits)) return false;
  std::string_view year, first, second;
  const bool yearFirst = parts[0].size() == 4;
  if (yearFirst) {
    year = parts[0], first = parts[1], second = parts[2];
  } else {
    year = parts[2], first = parts[0], second = parts[1];
  }
  if (year.size() != 4 || first.size() > 2 || second.size() > 2) return false;
  const auto date = [&year](std::string_view month, std::string_view day) {
    const std::string written =
        std::string(year) + "-" + twoDigits(number(month)) + "-" + twoDigits(number(day));
    return tryRead(written) ? written : std::string();
  };
  if (yearFirst) {
    habit.suggestion = date(first, second);
    if (habit.suggestion.empty()) return false;
    habit.message = quoted(text) + " is not how a day is written";
    habit.hint = "type " + habit.suggestion;
    return true;
  }
  const std::string dayFirst = date(second, first), monthFirst = date(first, second);
  if (dayFirst.empty() && monthFirst.empty()) return false;
  habit.message = quoted(text) + " does not say which number is the month";
  if (dayFirst.empty() || monthFirst.empty() || dayFirst == monthFirst) {
    habit.message = quoted(text) + " is not how a day is written";
    habit.suggestion = dayFirst.empty() ? monthFirst : dayFirst;
    habit.hint = "type " + habit.suggestion + " or " + describeDayOf(habit.suggestion);
  } else {
    habit.hint = "type " + dayFirst + " or " + describeDayOf(dayFirst) + ", or " + monthFirst + " or " +
                 describeDayOf(monthFirst);
  }
  return true;
}

// unknown/1936, 1936/open, 1936/present: ends of a range in words.
bool wordAtEnd(std::string_view text, Habit& habit) {
  const std::size_t slash = text.find('/');
  const std::size_t to = text.find(" to ");
  const std::size_t at = slash != std::string_view::npos ? slash : to;
  if (at == std::string_view::npos) return false;
  const std::size_t length = slash != std::string_view::npos ? 1 : 4;
  const std::string_view left = base::trimmed(text.substr(0, at));
  const std::string_view right = base::trimmed(text.substr(at + length));
  const auto isWord = [](std::string_view word, std::initializer_list<std::string_view> list) {
    return std::any_of(list.begin(), list.end(),
                       [&](std::string_view known) { return equalIgnoringCase(word, known); });
  };
  if (isWord(right, {"present", "today", "now", "date", "open", "this day", "onwards"})) {
    habit.message = quoted(right) + " is not a date";
    habit.suggestion = std::string(left) + "/..";
    habit.hint = "type " + habit.suggestion + " for what has not ended";
  } else if (isWord(right, {"unknown", "none", "?", "not known"})) {
    habit.message = quoted(right) + " is not a date";
    habit.suggestion = std::string(left) + "/";
    habit.hint = "type " + habit.suggestion + " for an end that is not known";
  } else if (isWord(left, {"unknown", "none", "?", "not known", "open"})) {
    habit.message = quoted(left) + " is not a date";
    habit.suggestion = "/" + std::string(right);
    habit.hint = "type " + habit.suggestion + " for a beginning that is not known";
  } else {
    return false;
  }
  return true;
}

// early 1930s, mid-1932, late 1932: which years are meant is for the author to say.
bool partOfTime(std::string_view text, Habit& habit) {
  for (const std::string_view word : {"early", "mid", "late"}) {
    if (text.size() < word.size() + 2 || !equalIgnoringCase(text.substr(0, word.size()), word)) continue;
    const char next = text[word.size()];
    if (next != ' ' && next != '-') continue;
    habit.message = quoted(text) + " leaves open which years or months are meant";
    const std::string_view rest = text.substr(word.size() + 1);
    const bool decade = rest.size() >= 5 && allDigits(rest.substr(0, 4)) && rest[3] == '0';
    const std::string start(decade ? rest.substr(0, 3) : std::string_view("193"));
    const char* from = word == "early" ? "0" : word == "mid" ? "4" : "7";
    const char* to = word == "early" ? "3" : word == "mid" ? "6" : "9";
    habit.hint = "say which, such as between " + start + from + " and " + start + to;
    if (!decade) habit.hint = "say which, such as first half of 1932, or between May 1932 and August 1932";
    return true;
  }
  return false;
}

// winter 1937/38: a season is named by the year it begins in.
bool seasonOfTwoYears(std::string_view text, Habit& habit) {
  const std::size_t blank = text.find(' ');
  if (blank == std::string_view::npos || seasonNamed(text.substr(0, blank)) == 0) return false;
  const std::string_view years = text.substr(blank + 1);
  if (years.size() < 6 || !allDigits(years.substr(0, 4)) || isDigit(years[4])) return false;
  const std::string fixed(text.substr(0, blank + 5));
  const std::optional<Expression> season = tryRead(fixed);
  if (!season) return false;
  habit.message = quoted(text) + " has two years";
  habit.hint = "type " + fixed + " for the season that begins in that year";
  habit.suggestion = fixed;
  return true;
}

// Q3 1934, 1934 Q3, 1934Q3.
bool quarterLetter(std::string_view text, Habit& habit) {
  const std::size_t letter = text.find_first_of("Qq");
  if (letter == std::string_view::npos || letter + 1 >= text.size()) return false;
  const char digit = text[letter + 1];
  if (digit < '1' || digit > '4') return false;
  std::string year(base::trimmed(text.substr(0, letter)));
  if (year.empty()) year = base::trimmed(text.substr(letter + 2));
  while (!year.empty() && (year.front() == '-' || year.front() == '/')) year.erase(year.begin());
  while (!year.empty() && (year.back() == '-' || year.back() == '/')) year.pop_back();
  constexpr std::array<std::string_view, 4> kOrdinals = {"1st", "2nd", "3rd", "4th"};
  const std::string fixed =
      std::string(kOrdinals[static_cast<std::size_t>(digit - '1')]) + " quarter " + year;
  if (!allDigits(year) || !tryRead(fixed)) return false;
  habit.message = quoted(text) + " is not how a quarter is written";
  habit.hint = "type " + fixed;
  habit.suggestion = fixed;
  return true;
}

// 19th century, '30s, 30s, n.d.
bool otherWords(std::string_view text, Habit& habit) {
  if (text.find("century") != std::string_view::npos || text.find("Century") != std::string_view::npos) {
    habit.message = quoted(text) + " leaves open whether the hundred years begin with 00 or 01";
    habit.hint = "type 18XX for 1800 to 1899, 19XX for 1900 to 1999";
    return true;
  }
  std::string_view digits = text;
  for (const std::string_view mark :
       {std::string_view("'"), std::string_view("\xE2\x80\x99"), std::string_view("\xE2\x80\x98")}) {
    if (digits.substr(0, mark.size()) == mark) digits.remove_prefix(mark.size());
  }
  if (digits.size() == 3 && allDigits(digits.substr(0, 2)) && digits[2] == 's') {
    habit.message = quoted(text) + " does not say in which century";
    habit.hint = "type 19" + std::string(digits) + " for 19" + std::string(digits.substr(0, 1)) + "0 to 19" +
                 std::string(digits.substr(0, 1)) + "9";
    return digits[1] == '0';
  }
  for (const std::string_view none :
       {"n.d.", "nd", "undated", "no date", "unknown", "not known", "?", "none"}) {
    if (!equalIgnoringCase(text, none)) continue;
    habit.message = quoted(text) + " is not a date";
    habit.hint = "leave the field out if the date is not recorded";
    return true;
  }
  return false;
}

// Signs that an older draft of EDTF had, or that stand in the wrong place.
bool oldSigns(std::string_view text, Habit& habit) {
  std::string fixed(text);
  const auto replaceAll = [&fixed](std::string_view from, std::string_view to) {
    for (std::size_t at = fixed.find(from); at != std::string::npos; at = fixed.find(from, at + to.size())) {
      fixed.replace(at, from.size(), to);
    }
  };
  replaceAll("?~", "%");
  replaceAll("~?", "%");
  replaceAll("u", "X");
  replaceAll("x", "X");
  replaceAll("(?)", "?");
  replaceAll(" ?", "?");
  if (fixed.size() > 2 && fixed.front() == '(' && fixed.find(')') == fixed.size() - 1)
    fixed = fixed.substr(1, fixed.size() - 2);
  replaceAll("\\", "/");
  replaceAll("//", "/");
  if (!fixed.empty() && fixed.front() == 'y') fixed.front() = 'Y';
  if (fixed.size() > 2 && fixed.substr(0, 2) == "-Y") fixed.replace(0, 2, "Y-");
  if (!fixed.empty() && fixed.back() == 'z') fixed.back() = 'Z';
  if ((fixed.front() == '[' || fixed.front() == '{') && fixed.find(' ') != std::string::npos) {
    fixed.erase(std::remove(fixed.begin(), fixed.end(), ' '), fixed.end());
  }
  if (fixed == text || !tryRead(fixed)) return false;
  habit.message = quoted(text) + " is nearly a date";
  habit.hint = "type " + fixed;
  habit.suggestion = fixed;
  return true;
}

// 1936.. and ..1936 without brackets, 1932,1934 likewise.
bool missingBrackets(std::string_view text, Habit& habit) {
  if (text.find("..") == std::string_view::npos && text.find(',') == std::string_view::npos) return false;
  const std::string bracketed = "[" + std::string(text) + "]";
  if (text.front() == '[' || text.front() == '{' || !tryRead(bracketed)) return false;
  const Expression read = *tryRead(bracketed);
  habit.message = quoted(text) + " has no brackets round it";
  habit.hint = "type " + bracketed + " for one of these";
  const Piece& piece = read.piece(0);
  if (read.size() > 1) {
    habit.hint += ", {" + std::string(text) + "} for all of them";
  } else if (piece.isRange) {
    habit.hint = "type " + bracketed +
                 (piece.fromEdge == Edge::Open ? " for a day then or earlier, "
                  : piece.toEdge == Edge::Open ? " for a day then or later, "
                                               : " for a day between them, ") +
                 std::string(text.substr(0, text.find(".."))) +
                 (piece.fromEdge == Edge::Open ? "../"
                  : piece.toEdge == Edge::Open ? "/.."
                                               : "/") +
                 std::string(text.substr(text.find("..") + 2)) + " for what lasted";
  }
  return true;
}

}  // namespace

bool recognizeHabit(std::string_view text, Habit& habit) {
  if (text.empty() || text.size() > 80) return false;
  using Check = bool (*)(std::string_view, Habit&);
  constexpr std::array<Check, 11> kChecks = {missingDigits, numbersOnly,   yearsWithDash,    wordAtEnd,
                                             partOfTime,    otherWords,    seasonOfTwoYears, quarterLetter,
                                             oldSigns,      datesWithDash, missingBrackets};
  for (const Check check : kChecks) {
    habit = {};
    if (check(text, habit)) return true;
  }
  return false;
}

}  // namespace saggar::dates
