#include "dates/words.h"

#include <algorithm>

#include "base/text.h"
#include "dates/edtf.h"

namespace saggar::dates {
namespace {

constexpr std::array<std::string_view, 12> kMonths = {"january",   "february", "march",    "april",
                                                      "may",       "june",     "july",     "august",
                                                      "september", "october",  "november", "december"};

char lower(char c) {
  return base::isUpper(c) ? static_cast<char>(c + ('a' - 'A')) : c;
}

// 5, 5th, 1st: the number, else 0. `ordinal` says that it must have its ending.
int dayNumber(std::string_view token, bool ordinal) {
  std::size_t digits = 0;
  int value = 0;
  for (; digits < token.size() && digits < 2 && base::isDigit(token[digits]); ++digits) {
    value = value * 10 + (token[digits] - '0');
  }
  if (digits == 0) return 0;
  const std::string_view rest = token.substr(digits);
  if (rest.empty()) return ordinal ? 0 : value;
  for (const std::string_view ending : {"st", "nd", "rd", "th"}) {
    if (equalIgnoringCase(rest, ending)) return value;
  }
  return 0;
}

int ordinalNamed(std::string_view token) {
  constexpr std::array<std::string_view, 4> kWords = {"first", "second", "third", "fourth"};
  for (std::size_t i = 0; i < kWords.size(); ++i) {
    if (equalIgnoringCase(token, kWords[i])) return static_cast<int>(i) + 1;
  }
  return dayNumber(token, true);
}

bool hasDigits(std::string_view token, std::size_t least) {
  return static_cast<std::size_t>(std::count_if(token.begin(), token.end(), base::isDigit)) >= least;
}

// The shortest date that begins or ends on that day.
Date dateThatEnds(Day day) {
  const Civil on = day.civil();
  if (on.month == 12 && on.day == 31) return Date::ofYear(on.year);
  if (on.day == daysInMonth(on.year, on.month)) return Date::ofMonth(on.year, on.month);
  return Date::ofDay(on.year, on.month, on.day);
}
Date dateThatBegins(Day day) {
  const Civil on = day.civil();
  if (on.month == 1 && on.day == 1) return Date::ofYear(on.year);
  if (on.day == 1) return Date::ofMonth(on.year, on.month);
  return Date::ofDay(on.year, on.month, on.day);
}

}  // namespace

bool equalIgnoringCase(std::string_view text, std::string_view lowerText) {
  return text.size() == lowerText.size() && std::equal(text.begin(), text.end(), lowerText.begin(),
                                                       [](char a, char b) { return lower(a) == b; });
}

int monthNamed(std::string_view word) {
  if (!word.empty() && word.back() == '.') word.remove_suffix(1);
  if (word.size() < 3) return 0;
  for (std::size_t i = 0; i < kMonths.size(); ++i) {
    const std::string_view name = kMonths[i];
    const bool shortened = word.size() == 3 || (i == 8 && word.size() == 4);
    if (equalIgnoringCase(word, shortened ? name.substr(0, word.size()) : name))
      return static_cast<int>(i) + 1;
  }
  return 0;
}

int seasonNamed(std::string_view word) {
  constexpr std::array<std::string_view, 5> kSeasons = {"spring", "summer", "autumn", "winter", "fall"};
  for (std::size_t i = 0; i < kSeasons.size(); ++i) {
    if (equalIgnoringCase(word, kSeasons[i])) return i == 4 ? 23 : 21 + static_cast<int>(i);
  }
  return 0;
}

WordsReader::WordsReader(std::string_view text, const Options& options) : text_(text), options_(options) {
  const auto add = [this](std::string_view token) {
    const bool comma = token.size() > 1 && token.back() == ',';
    if (comma) token.remove_suffix(1);
    if (count_ < kMostTokens) tokens_[count_] = {token, comma};
    ++count_;
  };
  std::size_t at = 0;
  while (at < text.size() && count_ <= kMostTokens) {
    if (text[at] == ' ') {
      ++at;
      continue;
    }
    const std::size_t stop = std::min(text.find(' ', at), text.size());
    std::string_view token = text.substr(at, stop - at);
    // c.1932, ca.1932, c1932
    for (const std::string_view circa : {"ca.", "c.", "ca", "c"}) {
      if (lower(token.front()) != 'c') break;
      if (token.size() > circa.size() && equalIgnoringCase(token.substr(0, circa.size()), circa) &&
          base::isDigit(token[circa.size()])) {
        add(token.substr(0, circa.size()));
        token.remove_prefix(circa.size());
        break;
      }
    }
    add(token);
    at = stop;
  }
}

bool WordsReader::is(std::size_t index, std::string_view word) const {
  return index < count_ && equalIgnoringCase(tokens_[index].text, word);
}

bool WordsReader::isOneOf(std::size_t index, std::initializer_list<std::string_view> words) const {
  return std::any_of(words.begin(), words.end(), [&](std::string_view word) { return is(index, word); });
}

std::size_t WordsReader::wordsOf(std::string_view phrase, Range range) const {
  if (lower(tokens_[range.begin].text.front()) != phrase.front()) return 0;
  std::size_t words = 0;
  while (!phrase.empty()) {
    const std::size_t length = std::min(phrase.find(' '), phrase.size());
    if (words == range.size() || !is(range.begin + words, phrase.substr(0, length))) return 0;
    ++words;
    phrase.remove_prefix(std::min(length + 1, phrase.size()));
  }
  return words;
}

std::size_t WordsReader::find(Range range, std::string_view word) const {
  std::size_t index = range.begin;
  while (index < range.end && !is(index, word)) ++index;
  return index;
}

std::size_t WordsReader::begin(std::size_t index) const {
  return static_cast<std::size_t>(tokens_[index].text.data() - text_.data());
}
std::size_t WordsReader::end(std::size_t index) const {
  return begin(index) + tokens_[index].text.size();
}

bool WordsReader::fail(Mistake mistake, Range range) {
  if (range.size() == 0) {
    fault_ = {mistake, text_.size(), text_.size()};
  } else {
    fault_ = {mistake, begin(range.begin), end(range.end - 1)};
  }
  return false;
}

bool WordsReader::read(Expression& out) {
  if (count_ > kMostTokens) {
    fault_ = {Mistake::TooLong, 0, text_.size()};
    return false;
  }
  return count_ > 0 && readAll({0, count_}, out);
}

bool WordsReader::readAll(Range all, Expression& out) {
  if (is(all.begin, "between")) {
    const std::size_t joint = find(all, "and");
    Piece piece;
    if (joint == all.end) return fail(Mistake::PhraseUnfinished, all);
    if (!readInterval({all.begin + 1, joint}, {joint + 1, all.end}, piece)) return false;
    if (piece.fromEdge != Edge::Dated || piece.toEdge != Edge::Dated)
      return fail(Mistake::PhraseUnfinished, all);
    out = Expression(Shape::OneOf, Level::Words, piece);
    return true;
  }
  const std::size_t orAt = find(all, "or");
  if (orAt != all.end) {
    const bool later = orAt + 2 == all.end && isOneOf(orAt + 1, {"later", "after"});
    const bool earlier = orAt + 2 == all.end && isOneOf(orAt + 1, {"earlier", "before"});
    if (!later && !earlier) return readList(all, Shape::OneOf, "or", out);
    Date date;
    if (!readDate({all.begin, orAt}, date)) return false;
    out = Expression(Shape::OneOf, Level::Words, later ? Piece::startingAt(date) : Piece::upTo(date));
    return true;
  }
  if (find(all, "and") != all.end) return readList(all, Shape::AllOf, "and", out);
  Piece piece;
  Kind kind = Kind::Date;
  if (!readPhrase(all, piece, kind)) return false;
  const Shape shape = kind == Kind::Date       ? Shape::Date
                      : kind == Kind::Interval ? Shape::Interval
                                               : Shape::OneOf;
  out = Expression(shape, Level::Words, piece);
  return true;
}

// A comma after a year parts two members of a list; in `May 5, 1932` it does not.
bool WordsReader::endsYear(std::size_t index) const {
  return hasDigits(tokens_[index].text, 3) || isOneOf(index, {"bc", "bce"}) ||
         (index > 0 && isOneOf(index - 1, {"ad", "year"}));
}

bool WordsReader::readList(Range all, Shape shape, std::string_view joint, Expression& out) {
  std::vector<Piece> members;
  std::size_t start = all.begin;
  for (std::size_t i = all.begin; i <= all.end; ++i) {
    const bool last = i == all.end;
    const bool comma = !last && tokens_[i].comma && endsYear(i);
    if (!last && !comma && !is(i, joint)) continue;
    const Range part{start, comma ? i + 1 : i};
    start = i + 1;
    if (part.size() == 0) {
      if (!last && is(i, joint) && i > all.begin && tokens_[i - 1].comma) continue;  // `1932, or 1934`
      return fail(Mistake::PhraseUnfinished, all);
    }
    Piece piece;
    Kind kind = Kind::Date;
    if (!readPhrase(part, piece, kind)) return false;
    const bool first = members.empty();
    if ((kind == Kind::UpTo && !first) || (kind == Kind::Starting && !last) ||
        (kind == Kind::Interval && (piece.fromEdge != Edge::Dated || piece.toEdge != Edge::Dated))) {
      return fail(Mistake::OpenDatePlace, part);
    }
    members.push_back(piece);
  }
  out = Expression(shape, Level::Words, std::move(members));
  return true;
}

bool WordsReader::readPhrase(Range range, Piece& piece, Kind& kind) {
  if (range.size() == 0) return fail(Mistake::PhraseUnfinished, range);
  const std::size_t to = find(range, "to");
  if (to != range.end && wordsOf("up to", range) == 0) {
    const std::size_t left = is(range.begin, "from") ? range.begin + 1 : range.begin;
    kind = Kind::Interval;
    return readInterval({left, to}, {to + 1, range.end}, piece);
  }
  bool matched = false;
  if (!readOpenPhrase(range, piece, kind, matched)) return false;
  if (matched) return true;
  kind = Kind::Date;
  return readDate(range, piece.from);
}

bool WordsReader::readInterval(Range left, Range right, Piece& piece) {
  if (left.size() == 0 || right.size() == 0) return fail(Mistake::PhraseUnfinished, {0, count_});
  const auto edgeAt = [this](Range range) {
    if (range.size() != 1) return Edge::Dated;
    return isOneOf(range.begin, {"?", "unknown"}) ? Edge::Unknown
           : is(range.begin, "..")                ? Edge::Open
                                                  : Edge::Dated;
  };
  piece.isRange = true;
  piece.fromEdge = edgeAt(left);
  piece.toEdge = edgeAt(right);
  if (piece.fromEdge != Edge::Dated && piece.toEdge != Edge::Dated) {
    return fail(Mistake::NoEnds, {left.begin, right.end});
  }
  if (piece.toEdge == Edge::Dated && !readDate(right, piece.to)) return false;
  if (piece.fromEdge == Edge::Dated && !readDate(left, piece.from)) {
    // `March to May 1932`, `5 to 9 May 1932`: what the left side lacks stands on the right.
    const Fault asWritten = fault_;
    bool completed = false;
    const std::array<Token, kMostTokens> tokens = tokens_;
    const std::size_t count = count_;
    for (std::size_t borrowed = 1; borrowed <= 2 && borrowed < right.size() + 1 && !completed; ++borrowed) {
      if (left.size() + borrowed > kMostTokens) break;
      std::copy_n(tokens.begin() + static_cast<std::ptrdiff_t>(left.begin), left.size(), tokens_.begin());
      std::copy_n(tokens.begin() + static_cast<std::ptrdiff_t>(right.end - borrowed), borrowed,
                  tokens_.begin() + static_cast<std::ptrdiff_t>(left.size()));
      count_ = left.size() + borrowed;
      piece.from = Date();
      completed = readDate({0, count_}, piece.from);
    }
    tokens_ = tokens;
    count_ = count;
    if (!completed) {
      fault_ = asWritten;
      return false;
    }
  }
  return checkOrder(piece, {left.begin, right.end});
}

bool WordsReader::checkOrder(const Piece& piece, Range range) {
  if (piece.fromEdge != Edge::Dated || piece.toEdge != Edge::Dated) return true;
  const Bounds bounds = piece.plain(options_);
  return bounds.latest >= bounds.earliest || fail(Mistake::EndBeforeStart, range);
}

// Phrases with one date and an open side. `matched` says that it was one.
bool WordsReader::readOpenPhrase(Range range, Piece& piece, Kind& kind, bool& matched) {
  struct Phrase {
    std::string_view words;
    Kind kind;
    bool strict;  // the date itself is not meant
  };
  static constexpr std::array<Phrase, 17> kPhrases = {{
      {"by the end of", Kind::UpTo, false},
      {"by end of", Kind::UpTo, false},
      {"by", Kind::UpTo, false},
      {"no later than", Kind::UpTo, false},
      {"not later than", Kind::UpTo, false},
      {"not after", Kind::UpTo, false},
      {"no earlier than", Kind::Starting, false},
      {"not earlier than", Kind::Starting, false},
      {"not before", Kind::Starting, false},
      {"from", Kind::Starting, false},
      {"before", Kind::UpTo, true},
      {"earlier than", Kind::UpTo, true},
      {"after", Kind::Starting, true},
      {"later than", Kind::Starting, true},
      {"until", Kind::Interval, false},
      {"up to", Kind::Interval, false},
      {"since", Kind::Interval, true},
  }};
  for (const Phrase& phrase : kPhrases) {
    const std::size_t words = wordsOf(phrase.words, range);
    if (words == 0) continue;
    matched = true;
    kind = phrase.kind;
    const Range rest{range.begin + words, range.end};
    if (rest.size() == 0) return fail(Mistake::PhraseUnfinished, range);
    Date date;
    const bool since = kind == Kind::Interval && phrase.strict;
    if (phrase.strict && !since) {
      if (!readBoundary(rest, kind == Kind::UpTo, date)) return false;
    } else if (!readDate(rest, date)) {
      return false;
    }
    piece = kind == Kind::Starting || since ? Piece::startingAt(date) : Piece::upTo(date);
    return true;
  }
  return true;
}

bool WordsReader::readBoundary(Range range, bool before, Date& date) {
  Date given;
  if (!readDate(range, given)) return false;
  const bool holes = given.isMasked() &&
                     (given.precision != Precision::Year || (given.yearMask & (given.yearMask + 1)) != 0);
  if (given.yearQualifier != 0 || given.monthQualifier != 0 || given.dayQualifier != 0 || holes ||
      given.significant != 0) {
    return fail(Mistake::BeforeVague, range);
  }
  const Bounds bounds = given.plain(options_.hemisphere);
  date = before ? dateThatEnds(bounds.earliest.plusDays(-1)) : dateThatBegins(bounds.latest.plusDays(1));
  const bool writable = date.precision == Precision::Year || date.magnitude() <= 9999;
  return writable || fail(Mistake::BeforeVague, range);
}

bool WordsReader::readDate(Range range, Date& date) {
  std::uint8_t qualifier = kCertain;
  const Range whole = range;
  for (bool more = true; more && range.size() > 0;) {
    more = true;
    if (isOneOf(range.begin,
                {"about", "around", "circa", "c.", "c", "ca", "ca.", "approximately", "approx.", "approx"})) {
      qualifier |= kApproximate;
    } else if (isOneOf(range.begin, {"perhaps", "possibly", "probably", "maybe"})) {
      qualifier |= kUncertain;
    } else if (!isOneOf(range.begin, {"in", "on", "the"})) {
      more = false;
    }
    if (more) ++range.begin;
  }
  if (range.size() == 0) return fail(Mistake::PhraseUnfinished, whole);
  if (!readCore(range, date)) return false;
  date.qualify(qualifier);
  return true;
}

bool WordsReader::readCore(Range range, Date& date) {
  if (range.size() == 1) return readOneToken(range.begin, date);
  using Form = bool (WordsReader::*)(Range, Date&, bool&);
  constexpr std::array<Form, 3> kForms = {&WordsReader::readSeason, &WordsReader::readQuarter,
                                          &WordsReader::readMonthDate};
  for (const Form form : kForms) {
    bool matched = false;
    if (!(this->*form)(range, date, matched)) return false;
    if (matched) return true;
  }
  if (range.size() == 2 &&
      (isOneOf(range.begin, {"ad", "year"}) || isOneOf(range.begin + 1, {"bc", "bce"}))) {
    return readEra(range, date);
  }
  for (std::size_t i = range.begin; i < range.end; ++i) {
    if (hasDigits(tokens_[i].text, 1)) continue;
    return fail(Mistake::UnknownWord, {i, i + 1});
  }
  return fail(Mistake::ExtraText, range);
}

bool WordsReader::readOneToken(std::size_t index, Date& date) {
  const std::string_view token = tokens_[index].text;
  const Range here{index, index + 1};
  if (monthNamed(token) != 0 || seasonNamed(token) != 0) return fail(Mistake::NoYear, here);
  // 1930s, 1930's
  std::size_t digits = 0;
  while (digits < token.size() && base::isDigit(token[digits])) ++digits;
  std::string_view ending = token.substr(digits);
  std::uint8_t qualifier = kCertain;
  if (ending.size() > 1 && (ending.back() == '?' || ending.back() == '~' || ending.back() == '%')) {
    qualifier = ending.back() == '?'   ? kUncertain
                : ending.back() == '~' ? kApproximate
                                       : kUncertain | kApproximate;
    ending.remove_suffix(1);
  }
  if (digits == 4 && (ending == "s" || ending == "'s" || ending == "S" || ending == "\xE2\x80\x99s")) {
    if (ending != "S") {
      if (token[3] != '0') return fail(Mistake::NotADecade, here);
      if (token[2] == '0') return fail(Mistake::CenturyOrDecade, here);
      date = Date::ofYear((token[0] - '0') * 1000 + (token[1] - '0') * 100 + (token[2] - '0') * 10);
      date.yearMask = 1;
      date.qualify(qualifier);
      return true;
    }
  }
  EdtfReader reader(token, options_);
  date = Date();
  if (reader.readDate(date)) return true;
  if (!hasDigits(token, 1) && token.find('X') == std::string_view::npos)
    return fail(Mistake::UnknownWord, here);
  fault_ = reader.fault();
  fault_.from += begin(index);
  fault_.to += begin(index);
  return false;
}

// 1932, 193X, 1932?; 45 BC, AD 409, year 170000002: years that four digits cannot write, or seldom do.
bool WordsReader::readYear(Range range, Date& date) {
  if (range.size() == 2) return readEra(range, date);
  if (range.size() > 2) return fail(Mistake::ExtraText, {range.begin + 1, range.end});
  const Token& token = tokens_[range.begin];
  EdtfReader reader(token.text, options_);
  date = Date();
  if (reader.readDate(date)) {
    return (date.precision == Precision::Year && date.significant == 0) ||
           fail(Mistake::OneYearMissing, range);
  }
  if (!hasDigits(token.text, 1)) return fail(Mistake::OneYearMissing, range);
  fault_ = reader.fault();
  fault_.from += begin(range.begin);
  fault_.to += begin(range.begin);
  return false;
}

bool WordsReader::readEra(Range range, Date& date) {
  const bool named = is(range.begin, "year");
  const bool after = named || is(range.begin, "ad");
  const bool beforeChrist = !after && isOneOf(range.begin + 1, {"bc", "bce"});
  if (!after && !beforeChrist) return fail(Mistake::ExtraText, {range.begin + 1, range.end});
  const std::size_t at = after ? range.begin + 1 : range.begin;
  std::string_view digits = tokens_[at].text;
  const bool negative = named && digits.size() > 1 && digits.front() == '-';
  if (negative) digits.remove_prefix(1);
  const bool isNumber =
      !digits.empty() && digits.size() <= 20 && std::all_of(digits.begin(), digits.end(), base::isDigit);
  if (!isNumber) return fail(Mistake::OneYearMissing, {at, at + 1});
  Int128 value = 0;
  for (const char c : digits) value = value * 10 + (c - '0');
  if (value == 0 && !named) return fail(Mistake::OneYearMissing, {at, at + 1});
  date = Date::ofYear(beforeChrist ? 1 - value : negative ? -value : value);
  return true;
}

bool WordsReader::readSeason(Range range, Date& date, bool& matched) {
  std::size_t at = range.begin;
  const bool northern = is(at, "northern"), southern = is(at, "southern");
  if (northern || southern) ++at;
  const int season = at < range.end ? seasonNamed(tokens_[at].text) : 0;
  if (season == 0) return true;
  ++at;
  if (at < range.end && is(at, "of")) ++at;
  if (at == range.end) return fail(Mistake::NoYear, range);
  Date year;
  if (!readYear({at, range.end}, year)) return false;
  matched = true;
  date = year;
  date.precision = Precision::Season;
  date.month = static_cast<std::uint8_t>(season + (northern ? 4 : southern ? 8 : 0));
  date.monthQualifier = year.yearQualifier;
  return true;
}

bool WordsReader::readQuarter(Range range, Date& date, bool& matched) {
  if (range.size() < 2 || !isOneOf(range.begin + 1, {"quarter", "third", "half"})) return true;
  const int count = is(range.begin + 1, "half") ? 2 : is(range.begin + 1, "third") ? 3 : 4;
  const int ordinal = is(range.begin, "last") ? count : ordinalNamed(tokens_[range.begin].text);
  if (ordinal < 1 || ordinal > count) return fail(Mistake::OrdinalRange, {range.begin, range.begin + 1});
  std::size_t at = range.begin + 2;
  if (at < range.end && is(at, "of")) ++at;
  if (at == range.end) return fail(Mistake::NoYear, range);
  Date year;
  if (!readYear({at, range.end}, year)) return false;
  matched = true;
  date = year;
  date.precision = Precision::Season;
  date.month = static_cast<std::uint8_t>((count == 2 ? 39 : count == 3 ? 36 : 32) + ordinal);
  date.monthQualifier = year.yearQualifier;
  return true;
}

// May 1932; 5 May 1932; 5th of May 1932; May 5, 1932.
bool WordsReader::readMonthDate(Range range, Date& date, bool& matched) {
  std::size_t at = range.begin;
  std::size_t dayAt = range.end;
  const auto dayHere = [&] { return at < range.end ? dayNumber(tokens_[at].text, false) : 0; };
  int day = dayHere();
  if (day != 0) {
    dayAt = at++;
    if (at < range.end && is(at, "of")) ++at;
  }
  const int month = at < range.end ? monthNamed(tokens_[at].text) : 0;
  if (month == 0) {
    const bool era = range.size() == 2 && isOneOf(range.end - 1, {"bc", "bce"});
    const bool wordHere =
        day != 0 && !era && at < range.end && base::isLower(lower(tokens_[at].text.front()));
    return !wordHere || fail(Mistake::NotAMonthName, {at, at + 1});
  }
  ++at;
  if (day == 0 && (day = dayHere()) != 0) dayAt = at++;
  if (at < range.end && is(at, "of")) ++at;
  if (at == range.end) return fail(Mistake::NoYear, range);
  Date year;
  if (!readYear({at, range.end}, year)) return false;
  matched = true;
  date = year;
  date.month = static_cast<std::uint8_t>(month);
  date.monthQualifier = year.yearQualifier;
  date.precision = Precision::Month;
  if (date.magnitude() > 9999) return fail(Mistake::LongYearWithMonth, range);
  if (day == 0) return true;
  date.precision = Precision::Day;
  date.day = static_cast<std::uint8_t>(day);
  date.dayQualifier = year.yearQualifier;
  if (day > 31) return fail(Mistake::DayRange, {dayAt, dayAt + 1});
  const bool exists = date.yearMask == 0 ? day <= daysInMonth(date.year(), month)
                                         : !date.plain(options_.hemisphere).earliest.isUnknown();
  return exists || fail(Mistake::DayNotInMonth, {dayAt, dayAt + 1});
}

}  // namespace saggar::dates
