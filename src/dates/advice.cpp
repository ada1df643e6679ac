#include "dates/advice.h"

#include <algorithm>
#include <array>
#include <vector>

#include "base/edit_distance.h"
#include "base/text.h"
#include "base/utf8.h"
#include "dates/vocabulary.h"

namespace saggar::dates {
namespace {

struct Sentences {
  std::string message, hint;
};

std::string excerpt(std::string_view text) {
  return base::shortened(base::sanitizedUtf8(text.substr(0, 200)), 40);
}

constexpr std::array<std::string_view, 55> kVocabulary = {
    "January",   "February", "March",    "April",    "May",      "June",    "July",  "August",
    "September", "October",  "November", "December", "Jan",      "Feb",     "Mar",   "Apr",
    "Jun",       "Jul",      "Aug",      "Sep",      "Sept",     "Oct",     "Nov",   "Dec",
    "spring",    "summer",   "autumn",   "winter",   "fall",     "quarter", "half",  "first",
    "second",    "third",    "fourth",   "last",     "by",       "from",    "about", "perhaps",
    "to",        "before",   "after",    "until",    "since",    "between", "and",   "or",
    "circa",     "later",    "earlier",  "probably", "possibly", "around",  "not"};

Sentences sentencesFor(Mistake mistake, std::string_view part) {
  const std::string seen = "\"" + excerpt(part) + "\"";
  switch (mistake) {
    case Mistake::None: break;
    case Mistake::Empty:
      return {"there is no date", "type one such as 1932, May 1932 or by 1935, or leave the field out"};
    case Mistake::BadUtf8: return {"the text is not UTF-8 here", "save the file as UTF-8"};
    case Mistake::ControlCharacter:
      return {"a tab or another sign that does not print stands in the date",
              "type a blank or nothing in its place"};
    case Mistake::NotAscii:
      return {seen + " is no sign that a date is written with",
              "type letters, figures and - / [ ] , . ? ~ % only"};
    case Mistake::BlankAround: return {"a blank stands before or after the date", "take it out"};
    case Mistake::BlankInside:
      return {"a blank stands between the dates of a set", "take it out: [1932,1934]"};
    case Mistake::NotADate:
      return {seen + " is not a date", "type one such as 1932, 1932-05, 5 May 1932, 1926/1935 or by 1935"};
    case Mistake::YearTooShort:
      return {seen + " is not a year of four digits", "type 1932, or 193X where the last digit is not known"};
    case Mistake::YearTooLong:
      return {seen + " has more than four digits for a year",
              "type Y before a longer year; between year, month and day stands -"};
    case Mistake::MinusZero: return {"the year 0000 takes no minus", "type 0000 for 1 BC, -0001 for 2 BC"};
    case Mistake::LowercaseX:
      return {seen + " has a small letter for an unknown digit", "type a capital X: 193X"};
    case Mistake::MonthWidth:
      return {seen + " is not a month of two digits",
              "type 01 to 12, or the month's name before the year: May 1932"};
    case Mistake::MonthRange:
      return {
          "there is no month " + seen,
          "months are 01 to 12, seasons 21 to 24, quarters 33 to 36; for a range of years type 1926/1935"};
    case Mistake::NoSuchMonth:
      return {"no month can be " + seen, "with X a month stands for 01 to 12: 0X, 1X or XX"};
    case Mistake::DayWidth: return {seen + " is not a day of two digits", "type 01 to 31"};
    case Mistake::DayRange: return {"there is no day " + seen, "days are 01 to 31"};
    case Mistake::DayNotInMonth:
      return {"that month has no day " + seen, "look at the day, the month and, in February, the year"};
    case Mistake::NoRealDay:
      return {"no day fits " + seen + ", whatever its X stand for", "look at the month and the day"};
    case Mistake::SeasonWithDay:
      return {"a season or quarter has no day", "type the season alone, or the month and the day"};
    case Mistake::QualifierTwice:
      return {seen + " are two signs of doubt in one place",
              "type ? for uncertain, ~ for approximate, % for both"};
    case Mistake::QualifierWithTime:
      return {"a date with a time of day takes no ? ~ or %", "leave the time out"};
    case Mistake::TimeForm:
      return {seen + " is not a time of day",
              "type hours, minutes and seconds, T10:30:00, or leave the time out"};
    case Mistake::TimeRange:
      return {"there is no time " + seen, "hours are 00 to 23, minutes and seconds 00 to 59"};
    case Mistake::ZoneForm:
      return {seen + " is not a time zone", "type Z, +01 or +01:00, up to fourteen hours, or leave it out"};
    case Mistake::TimeNotAlone:
      return {"a time of day stands in a range, a set or among words",
              "leave the time out: the day is enough"};
    case Mistake::TimeOnPart:
      return {"a time of day needs a whole day before it", "type the day, or leave the time out"};
    case Mistake::LongYearShort:
      return {seen + " has a Y before a year of four digits or fewer", "type the four digits alone"};
    case Mistake::LongYearZero:
      return {seen + " begins with a zero, or has none after E", "type the year without zeros in front"};
    case Mistake::LongYearWithMonth:
      return {"a year with Y or S takes no month or day", "type the year alone"};
    case Mistake::LongYearDigits:
      return {seen + " has more than twenty digits", "years of up to twenty digits can be reckoned with"};
    case Mistake::SignificantNone:
      return {"S is not followed by a number from 1", "type how many digits of the year count: 1950S2"};
    case Mistake::SignificantTooMany:
      return {seen + " asks for more digits than the year has", "type a smaller number after S"};
    case Mistake::SecondSlash: return {"a range has one slash", "type 1926/1935"};
    case Mistake::NoEnds:
      return {"neither end of the range has a date", "type one, as in 1937/.. or ../1935"};
    case Mistake::DotsAlone: return {"two dots alone are not a date", "type ../1935 or 1937/.. with a date"};
    case Mistake::ExtraText:
      return {seen + " stands where the date should have ended", "take it out, or type a range as 1926/1935"};
    case Mistake::EndBeforeStart: return {seen + " ends before it begins", "type the earlier date first"};
    case Mistake::SetNotClosed: return {"the bracket is not closed", "type ] or } at the end"};
    case Mistake::SetMismatch:
      return {"the brackets do not match", "one of several dates stands in [ ], all of several in { }"};
    case Mistake::SetEmpty:
      return {"there is no date between the brackets", "type one or more, with commas: [1932,1934]"};
    case Mistake::SetEmptyMember:
      return {"a date is missing beside the comma", "take the comma out, or type the date"};
    case Mistake::SetSlash:
      return {"a range with a slash stands in a set", "type two dots: [1932,1934..1936]"};
    case Mistake::SetDots:
      return {seen + " has two dots out of place",
              "type 1937/.. for what lasted, [1937..] for a day then or later"};
    case Mistake::SetTooLong:
      return {"the set has more than ten thousand dates", "type ranges: [1932..1936]"};
    case Mistake::SetInInterval: return {"a set stands at the end of a range", "type a date in its place"};
    case Mistake::UnknownWord:
      return {seen + " is not a word that dates are written with",
              "type a date such as 1932, May 1932, spring 1937, by 1935, 1926 to 1935"};
    case Mistake::NoYear: return {seen + " has no year after it", "type the year too: May 1932"};
    case Mistake::OneYearMissing:
      return {seen + " stands where a year is wanted", "type a year of four digits: May 1932"};
    case Mistake::CenturyOrDecade:
      return {seen + " may be ten years or a hundred", "type " + excerpt(part.substr(0, 3)) +
                                                           "X for the ten, " + excerpt(part.substr(0, 2)) +
                                                           "XX for the hundred"};
    case Mistake::NotADecade:
      return {seen + " is not ten years", "type " + excerpt(part.substr(0, 4)) + " for the year, " +
                                              excerpt(part.substr(0, 3)) + "0s for the ten"};
    case Mistake::NotAMonthName:
      return {seen + " is not the name of a month", "type 5 May 1932 or 1932-05-05"};
    case Mistake::OrdinalRange:
      return {"there is no part of a year called " + seen,
              "type 1st to 4th quarter, 1st to 3rd third, 1st or 2nd half"};
    case Mistake::BeforeVague:
      return {"what comes before or after " + seen + " cannot be told to the day",
              "type by or from with the last or first day that is meant"};
    case Mistake::PhraseUnfinished:
      return {seen + " lacks a date", "type the date that belongs there, as in by 1935, 1926 to 1935"};
    case Mistake::OpenDatePlace:
      return {seen + " is open in the middle of a list",
              "type what has no beginning first, what has no end last"};
    case Mistake::TooLong:
      return {"the text is too long for a date", "type a date such as 1932, and the rest as a note"};
  }
  return {"this is not a date", "type one such as 1932"};
}

// The place in code points of a byte.
std::size_t codePointsBefore(std::string_view text, std::size_t byte) {
  return base::countCodePoints(text.substr(0, std::min(byte, text.size())));
}

// `Febuary` may be a slip: the word meant, and the whole text with it.
void suggestWord(std::string_view text, const Fault& fault, const Options& options, Error& error) {
  const std::string_view word = text.substr(fault.from, fault.to - fault.from);
  if (word.size() > 20) return;
  const std::string folded = base::folded(word);
  std::array<std::string, kVocabulary.size()> foldedWords;
  std::vector<std::string_view> candidates;
  for (std::size_t i = 0; i < kVocabulary.size(); ++i) {
    foldedWords[i] = base::folded(kVocabulary[i]);
    candidates.emplace_back(foldedWords[i]);
  }
  const auto near = base::nearest(folded, candidates);
  if (!near) return;
  for (std::size_t i = 0; i < kVocabulary.size(); ++i) {
    if (foldedWords[i] != *near) continue;
    std::string fixed(text);
    fixed.replace(fault.from, word.size(), kVocabulary[i]);
    if (!tryRead(fixed, options)) return;
    error.hint = "type " + fixed;
    error.suggestion = fixed;
    return;
  }
}

// The two ends of a range the other way round.
void suggestOrder(std::string_view text, const Fault& fault, const Options& options, Error& error) {
  const std::string_view part = text.substr(fault.from, fault.to - fault.from);
  for (const std::string_view joint : {"/", "..", " to ", " and "}) {
    const std::size_t at = part.find(joint);
    if (at == std::string_view::npos) continue;
    std::string fixed(text.substr(0, fault.from));
    fixed.append(part.substr(at + joint.size())).append(joint).append(part.substr(0, at));
    fixed.append(text.substr(fault.to));
    if (!tryRead(fixed, options)) return;
    error.hint = "if the ends are the wrong way round type " + fixed;
    error.suggestion = fixed;
    return;
  }
}

}  // namespace

Error explain(std::string_view text, const Fault& given, const Options& options) {
  Fault fault = given;
  fault.to = std::clamp(fault.to, std::min(fault.from, text.size()), text.size());
  fault.from = std::min(fault.from, text.size());
  // A sign that is not ASCII is the trouble whatever the grammar stumbled over.
  if (fault.mistake != Mistake::BadUtf8 && fault.from < text.size() &&
      static_cast<unsigned char>(text[fault.from]) >= 0x80) {
    fault.mistake = Mistake::NotAscii;
    fault.to = fault.from;
    base::nextCodePoint(text, fault.to);
  }
  Error error;
  const std::string_view part = text.substr(fault.from, fault.to - fault.from);
  error.seen = excerpt(part);
  error.byte = fault.from;
  error.bytes = part.size();
  error.codePoint = codePointsBefore(text, fault.from);
  const Sentences sentences = sentencesFor(fault.mistake, part);
  error.message = sentences.message;
  error.hint = sentences.hint;
  const bool fitForAdvice = fault.mistake != Mistake::BadUtf8 && fault.mistake != Mistake::ControlCharacter &&
                            fault.mistake != Mistake::Empty && text.size() <= 80;
  if (!fitForAdvice) return error;
  Habit habit;
  if (fault.mistake == Mistake::BlankAround) {
    const std::string_view inner = base::trimmed(text);
    if (tryRead(inner, options)) error.suggestion = inner;
  } else if (fault.mistake == Mistake::EndBeforeStart) {
    suggestOrder(text, fault, options, error);
  } else if (recognizeHabit(text, habit)) {
    error.message = habit.message;
    error.hint = habit.hint;
    error.suggestion = habit.suggestion;
    if (!error.suggestion.empty() && !tryRead(error.suggestion, options)) error.suggestion.clear();
  } else if (fault.mistake == Mistake::UnknownWord || fault.mistake == Mistake::NotAMonthName) {
    suggestWord(text, fault, options, error);
  }
  return error;
}

}  // namespace saggar::dates
