// One date in words: what may stand wherever a phrase has a D. The phrases themselves are in words.cpp.
#include <algorithm>

#include "base/text.h"
#include "dates/edtf.h"
#include "dates/vocabulary.h"
#include "dates/words.h"

namespace saggar::dates {
namespace {

// A year in front of whose part no power of ten is written any more: June Y7E1.
Date partOf(Date year) {
  year.exponent = 0;
  return year;
}

}  // namespace

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
      (isOneOf(range.begin, {"ad", "year"}) || isOneOf(range.begin + 1, {"bc", "bce", "ad", "ce"}))) {
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
  const bool trailing = !after && isOneOf(range.begin + 1, {"ad", "ce"});
  if (!after && !beforeChrist && !trailing) return fail(Mistake::ExtraText, {range.begin + 1, range.end});
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
  date = partOf(year);
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
  date = partOf(year);
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
    const bool era = range.size() == 2 && isOneOf(range.end - 1, {"bc", "bce", "ad", "ce"});
    const bool wordHere =
        day != 0 && !era && at < range.end && base::isLower(lower(tokens_[at].text.front()));
    return !wordHere || fail(Mistake::NotAMonthName, {at, at + 1});
  }
  ++at;
  // May 5 BC is the month of a year.
  const bool era = at + 2 == range.end && isOneOf(at + 1, {"bc", "bce", "ad", "ce"});
  if (day == 0 && !era && (day = dayHere()) != 0) dayAt = at++;
  if (at < range.end && is(at, "of")) ++at;
  if (at == range.end) return fail(Mistake::NoYear, range);
  Date year;
  if (!readYear({at, range.end}, year)) return false;
  matched = true;
  date = partOf(year);
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
