#include <array>

#include "base/text.h"
#include "dates/print.h"

namespace saggar::dates {
namespace {

constexpr std::array<std::string_view, 12> kMonths = {"January",   "February", "March",    "April",
                                                      "May",       "June",     "July",     "August",
                                                      "September", "October",  "November", "December"};
constexpr std::array<std::string_view, 4> kSeasons = {"spring", "summer", "autumn", "winter"};

std::string_view monthName(int month) {
  return kMonths[static_cast<std::size_t>(month - 1)];
}

// A date as a noun phrase, and what goes before it.
struct Phrase {
  std::string text;
  std::string_view preposition = "in ";
  std::string_view article = "";  // in a sentence
  bool wholeDay = false;          // no later part of it is left after its name
};

std::string yearText(Int128 year) {
  std::string out;
  if (year <= 0) {
    if (year < -9998) {
      out = "year ";
      appendNumber(out, year);
    } else {
      appendNumber(out, 1 - year);
      out += " BC";
    }
    return out;
  }
  if (year < 1000) out = "AD ";
  if (year > 9999) out = "year ";
  appendNumber(out, year);
  return out;
}

// The digits of a year with X in them, as typed.
std::string maskedYear(const Date& date) {
  Date year = date;
  year.precision = Precision::Year;
  year.yearQualifier = kCertain;
  return canonical(year);
}

std::string range(std::string_view from, std::string_view to) {
  return std::string(from) + " to " + std::string(to);
}

Phrase yearPhrase(const Date& date, bool sentence) {
  Phrase phrase;
  if (date.significant != 0) {
    const YearRange years = yearsOf(date);
    phrase.text =
        yearText(date.year()) + " (estimated; " + range(yearText(years.first), yearText(years.last)) + ")";
  } else if (date.yearMask == 0) {
    phrase.text = yearText(date.year());
  } else if (date.yearMask == 15 && !date.negative) {
    phrase.text = sentence ? "a year not known" : "XXXX";
  } else if (date.yearMask == 1 && !date.negative && date.magnitude() >= 1000 &&
             date.magnitude() % 100 != 0) {
    appendNumber(phrase.text, date.magnitude());
    phrase.text += 's';
    phrase.article = "the ";
  } else if ((date.yearMask & (date.yearMask + 1)) == 0 && sentence && !date.negative &&
             date.magnitude() >= 1000) {
    const YearRange years = yearsOf(date);
    phrase.text = "one of the years " + range(yearText(years.first), yearText(years.last));
  } else {
    phrase.text = maskedYear(date);
  }
  return phrase;
}

Phrase seasonPhrase(const Date& date, bool sentence) {
  Phrase phrase;
  const Date year = [&date] {
    Date only = date;
    only.precision = Precision::Year;
    return only;
  }();
  const std::string yearName = date.yearMask == 0 ? yearText(date.year()) : maskedYear(year);
  const int code = date.month;
  if (code <= 32) {
    if (code > 28)
      phrase.text = "southern ";
    else if (code > 24)
      phrase.text = "northern ";
    phrase.text += kSeasons[static_cast<std::size_t>((code - 21) % 4)];
    phrase.text += ' ' + yearName;
    return phrase;
  }
  constexpr std::array<std::string_view, 4> kLong = {"first", "second", "third", "fourth"};
  constexpr std::array<std::string_view, 4> kShort = {"1st", "2nd", "3rd", "4th"};
  const int before = code >= 40 ? 40 : code >= 37 ? 37 : 33;
  const auto ordinal = static_cast<std::size_t>(code - before);
  phrase.text = sentence ? (code == 39 ? "last" : kLong[ordinal]) : kShort[ordinal];
  phrase.text += code >= 40 ? " half" : code >= 37 ? " third" : " quarter";
  phrase.text += (sentence ? " of " : " ") + yearName;
  phrase.article = "the ";
  return phrase;
}

// The date without its qualifiers.
Phrase barePhrase(const Date& date, bool sentence) {
  if (date.precision == Precision::Year) return yearPhrase(date, sentence);
  if (date.precision == Precision::Season) return seasonPhrase(date, sentence);
  Phrase phrase;
  const std::string year = date.yearMask == 0 ? yearText(date.year()) : maskedYear(date);
  const bool noMonth = date.monthMask == 3;
  const bool noDay = date.precision == Precision::Month || date.dayMask == 3;
  if ((date.monthMask != 0 && !noMonth) || (date.dayMask != 0 && !noDay) || (noMonth && !noDay)) {
    Date bare = date;
    bare.yearQualifier = bare.monthQualifier = bare.dayQualifier = kCertain;
    phrase.text = canonical(bare);
    return phrase;
  }
  if (noMonth) {
    phrase.text = year;
    if (sentence)
      phrase.text += date.precision == Precision::Month ? " (month not known)" : " (day not known)";
    return phrase;
  }
  if (!noDay) {
    appendNumber(phrase.text, date.day);
    phrase.text += ' ';
    phrase.preposition = "on ";
    phrase.wholeDay = true;
  }
  phrase.text += std::string(monthName(date.month)) + ' ' + year;
  if (sentence && date.dayMask == 3) phrase.text += " (day not known)";
  if (sentence && date.hasTime) {
    const std::string full = canonical(date);
    phrase.text += ", " + full.substr(full.find('T') + 1);
  }
  return phrase;
}

// What is unsure of which part: `year uncertain, month and day approximate`.
std::string partsInWords(const Date& date) {
  constexpr std::array<std::string_view, 4> kWords = {"", "uncertain", "approximate",
                                                      "uncertain and approximate"};
  std::vector<std::string> clauses;
  for (const std::uint8_t sign :
       {kUncertain, kApproximate, static_cast<Qualifier>(kUncertain | kApproximate)}) {
    std::vector<std::string> parts;
    if (date.yearQualifier == sign) parts.emplace_back("year");
    if (date.precision != Precision::Year && date.monthQualifier == sign) {
      parts.emplace_back(date.precision == Precision::Season ? "part of the year" : "month");
    }
    if (date.precision == Precision::Day && date.dayQualifier == sign) parts.emplace_back("day");
    if (!parts.empty()) clauses.push_back(base::listedInWords(parts) + ' ' + std::string(kWords[sign]));
  }
  return base::joined(clauses, ", ");
}

enum class With { Nothing, Preposition };

std::string dateText(const Date& date, bool sentence, With with = With::Nothing) {
  const Phrase phrase = barePhrase(date, sentence);
  const bool even = date.isEvenlyQualified();
  const std::uint8_t sign = even ? date.yearQualifier : 0;
  std::string out;
  if ((sign & kUncertain) != 0) out += "perhaps ";
  if ((sign & kApproximate) != 0) out += "about ";
  if (with == With::Preposition && (sign & kApproximate) == 0) out += phrase.preposition;
  if (sentence) out += phrase.article;
  out += phrase.text;
  if (!even) out += " (" + partsInWords(date) + ")";
  return out;
}

bool isWholeDay(const Date& date) {
  return barePhrase(date, true).wholeDay;
}

std::string upToText(const Date& date, bool sentence) {
  return (sentence && !isWholeDay(date) ? "by the end of " : "by ") + dateText(date, sentence);
}

std::string startingText(const Date& date, bool sentence, With with) {
  return sentence ? dateText(date, true, with) + " or later" : "from " + dateText(date, false);
}

// A range of two dates; what they share stands once: `March to May 1932`, `5 to 9 May 1932`.
std::string joinedDates(const Date& from, const Date& to, bool sentence, std::string_view before,
                        std::string_view joint) {
  std::string start = dateText(from, sentence);
  const auto isPlain = [](const Date& date) {
    return !date.isMasked() && date.isEvenlyQualified() && date.yearQualifier == kCertain && !date.hasTime;
  };
  const bool dated = from.precision == Precision::Month || from.precision == Precision::Day;
  if (dated && from.precision == to.precision && isPlain(from) && isPlain(to) && from.year() == to.year()) {
    if (from.precision == Precision::Day && from.month == to.month) {
      start.clear();
      appendNumber(start, from.day);
    } else {
      start.erase(start.size() - yearText(from.year()).size() - 1);
    }
  }
  return std::string(before) + start + std::string(joint) + dateText(to, sentence);
}

enum class Use { Table, Words, Happened, Lasted };

std::string pieceText(const Piece& piece, Use use, bool aloneInSet) {
  const bool sentence = use != Use::Table;
  const With with = use == Use::Happened || use == Use::Lasted ? With::Preposition : With::Nothing;
  if (!piece.isRange) return dateText(piece.from, sentence, with);
  const Date* from = piece.dateAt(End::Earliest);
  const Date* to = piece.dateAt(End::Latest);
  if (from == nullptr) return upToText(*to, sentence);
  if (to == nullptr) return startingText(*from, sentence, with);
  return aloneInSet ? joinedDates(*from, *to, sentence, "between ", " and ")
                    : joinedDates(*from, *to, sentence, "", " to ");
}

std::string intervalText(const Piece& piece, Use use) {
  if (use == Use::Happened) return pieceText(piece, use, true);
  const bool sentence = use != Use::Table;
  const Date* from = piece.dateAt(End::Earliest);
  const Date* to = piece.dateAt(End::Latest);
  if (from != nullptr && to != nullptr) {
    return joinedDates(*from, *to, sentence, use == Use::Lasted ? "from " : "", " to ");
  }
  const std::string_view notKnown = sentence ? "a date not known" : "?";
  if (from == nullptr) {
    const std::string end = dateText(*to, sentence);
    if (piece.fromEdge == Edge::Open) return "until " + end;
    return (use == Use::Lasted ? "from " : "") + range(notKnown, end);
  }
  const std::string start = dateText(*from, sentence);
  if (piece.toEdge == Edge::Open) return "since " + start;
  return (use == Use::Lasted ? "from " : "") + range(start, notKnown);
}

std::string setText(const Expression& expression, Use use) {
  const bool all = expression.isAllOf();
  if (expression.size() == 1) return pieceText(expression.piece(0), use, !all);
  std::vector<std::string> members;
  for (std::size_t i = 0; i < expression.size(); ++i) {
    // One preposition is enough, and only if the first member takes it.
    const Use memberUse = i == 0 || use == Use::Table ? use : Use::Words;
    members.push_back(pieceText(expression.piece(i), memberUse, false));
  }
  return base::listedInWords(members, all ? "and" : "or");
}

std::string expressionText(const Expression& expression, Use use) {
  if (expression.isSet()) return setText(expression, use);
  if (expression.shape() == Shape::Interval) return intervalText(expression.piece(0), use);
  return pieceText(expression.piece(0), use, false);
}

}  // namespace

std::string inTable(const Expression& expression) {
  return expressionText(expression, Use::Table);
}
std::string inWords(const Expression& expression) {
  return expressionText(expression, Use::Words);
}
std::string happened(const Expression& expression) {
  return expressionText(expression, Use::Happened);
}
std::string lasted(const Expression& expression) {
  return expressionText(expression, Use::Lasted);
}

std::string describeDay(Day day) {
  if (day.isUnknown()) return "not known";
  if (!day.isFinite()) return "no limit";
  const Civil civil = day.civil();
  std::string out;
  appendNumber(out, civil.day);
  return out + ' ' + std::string(monthName(civil.month)) + ' ' + yearText(civil.year);
}

namespace {

// The shortest name of a bound: `1932` for 1 January 1932 as a beginning and 31 December as an end.
std::string boundName(Day day, End end) {
  const Civil civil = day.civil();
  const int lastDay = daysInMonth(civil.year, civil.month);
  const bool monthEdge = civil.day == (end == End::Earliest ? 1 : lastDay);
  if (!monthEdge) return describeDay(day);
  if (civil.month == (end == End::Earliest ? 1 : 12)) return yearText(civil.year);
  return std::string(monthName(civil.month)) + ' ' + yearText(civil.year);
}

Date dateOf(Day day) {
  const Civil civil = day.civil();
  return Date::ofDay(civil.year, civil.month, civil.day);
}

}  // namespace

std::string describeBounds(const Bounds& bounds) {
  if (bounds.earliest.isUnknown() && bounds.latest.isUnknown()) return "not known";
  const bool hasEarliest = bounds.earliest.isFinite(), hasLatest = bounds.latest.isFinite();
  if (!hasEarliest && !hasLatest) return "any time";
  if (!hasEarliest) {
    const std::string name = boundName(bounds.latest, End::Latest);
    return (name == describeDay(bounds.latest) ? "by " : "by the end of ") + name;
  }
  if (!hasLatest) return boundName(bounds.earliest, End::Earliest) + " or later";
  if (bounds.earliest == bounds.latest) return describeDay(bounds.earliest);
  // The widest unit that names both ends exactly.
  const Date from = dateOf(bounds.earliest), to = dateOf(bounds.latest);
  const Date year = Date::ofYear(from.year()), month = Date::ofMonth(from.year(), from.month);
  const Date lastYear = Date::ofYear(to.year()), lastMonth = Date::ofMonth(to.year(), to.month);
  if (from.month == 1 && from.day == 1 && to.month == 12 && to.day == 31) {
    return from.year() == to.year() ? dateText(year, true) : joinedDates(year, lastYear, true, "", " to ");
  }
  if (from.day == 1 && to.day == daysInMonth(to.year(), to.month)) {
    const bool one = from.year() == to.year() && from.month == to.month;
    return one ? dateText(month, true) : joinedDates(month, lastMonth, true, "", " to ");
  }
  return joinedDates(from, to, true, "", " to ");
}

}  // namespace saggar::dates
