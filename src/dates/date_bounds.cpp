// From what is written to days: the plain and wide bounds of dates, pieces, expressions and spans.
//
// A date with X is bounded by trying its completions in order from either end until one is a real day. That
// takes one or two tries, for nearly every completion is real; only `-02-29` in a year with X walks on,
// through at most ten thousand years.
#include <algorithm>
#include <cassert>
#include <optional>

#include "dates/expression.h"

namespace saggar::dates {
namespace {

constexpr std::array<int, 4> kPowers = {1, 10, 100, 1000};

// The values that the digits of `fixed` can take where `mask` has X, in order: value(0) is the smallest.
struct Completions {
  int fixed;
  std::uint8_t mask;
  int count = 1;

  Completions(int fixedDigits, std::uint8_t xMask) : fixed(fixedDigits), mask(xMask) {
    for (int place = 0; place < 4; ++place) {
      if ((mask >> place & 1) != 0) count *= 10;
    }
  }

  int value(int index) const {
    int result = fixed;
    for (std::size_t place = 0; place < 4; ++place) {
      if ((mask >> place & 1) == 0) continue;
      result += index % 10 * kPowers[place];
      index /= 10;
    }
    return result;
  }
};

// The first (or, backwards, last) completion in the list that is at least `low`, at most `high`; 0 if none
// is.
int firstWithin(const Completions& list, int low, int high, bool backwards) {
  for (int i = 0; i < list.count; ++i) {
    const int value = list.value(backwards ? list.count - 1 - i : i);
    if (value >= low && value <= high) return value;
  }
  return 0;
}

// The first (or last) day of a year that fits the month and day as written, if any does.
std::optional<Day> extremeDay(const Date& date, Int128 year, bool last) {
  if (date.precision == Precision::Year) return Day::fromCivil(year, last ? 12 : 1, last ? 31 : 1);
  const Completions months(date.month, date.monthMask);
  const Completions days(date.day, date.dayMask);
  for (int i = 0; i < months.count; ++i) {
    const int month = months.value(last ? months.count - 1 - i : i);
    if (month < 1 || month > 12) continue;
    const int length = daysInMonth(year, month);
    const int day =
        date.precision == Precision::Month ? (last ? length : 1) : firstWithin(days, 1, length, last);
    if (day != 0) return Day::fromCivil(year, month, day);
  }
  return std::nullopt;
}

std::optional<Day> extremeDay(const Date& date, bool last) {
  if (date.yearMask == 0) return extremeDay(date, date.year(), last);
  const Completions years(static_cast<int>(date.magnitude()), date.yearMask);
  const bool fromLargest = last != date.negative;
  for (int i = 0; i < years.count; ++i) {
    const int magnitude = years.value(fromLargest ? years.count - 1 - i : i);
    if (date.negative && magnitude == 0) continue;  // there is no year -0000
    if (const auto day = extremeDay(date, date.negative ? -magnitude : magnitude, last)) return day;
  }
  return std::nullopt;
}

int digitsOf(Int128 value) {
  int digits = 1;
  for (; value >= 10; value /= 10) ++digits;
  return digits;
}

Day shifted(Day day, const Date& date, const Options& options, bool later) {
  const int sign = later ? 1 : -1;
  // A year or month ends with the last day of a month, whatever that month's length.
  const auto rule = later && date.precision != Precision::Day ? MonthRule::ToMonthEnd : MonthRule::KeepDay;
  if (options.circa.months != 0) day = day.plusMonths(sign * options.circa.months, rule);
  return day.plusDays(sign * options.circa.days);
}

Bounds boundsOf(const Date& date, Reading reading, const Options& options) {
  return reading == Reading::Wide ? date.wide(options) : date.plain(options.hemisphere);
}

Day undated(Edge edge, End end) {
  if (edge == Edge::Unknown) return Day::unknown();
  return end == End::Earliest ? Day::minusInfinity() : Day::plusInfinity();
}

Bounds boundsOf(const Piece& piece, Reading reading, const Options& options) {
  if (!piece.isRange) return boundsOf(piece.from, reading, options);
  Bounds bounds;
  bounds.earliest = piece.fromEdge == Edge::Dated ? boundsOf(piece.from, reading, options).earliest
                                                  : undated(piece.fromEdge, End::Earliest);
  bounds.latest = piece.toEdge == Edge::Dated ? boundsOf(piece.to, reading, options).latest
                                              : undated(piece.toEdge, End::Latest);
  return bounds;
}

// The day an event at one end of a range fell within.
Bounds edgeBounds(const Piece& piece, End end, Reading reading, const Options& options) {
  if (const Date* date = piece.dateAt(end)) return boundsOf(*date, reading, options);
  if (piece.edge(end) == Edge::Unknown) return {Day::unknown(), Day::unknown()};
  return {Day::minusInfinity(), Day::plusInfinity()};
}

}  // namespace

YearRange yearsOf(const Date& date) {
  const Int128 magnitude = date.magnitude();
  Int128 low = magnitude, high = magnitude;
  if (date.significant != 0) {
    Int128 unit = 1;
    for (int i = digitsOf(magnitude) - date.significant; i > 0; --i) unit *= 10;
    low = magnitude / unit * unit;
    high = low + unit - 1;
  } else if (date.yearMask != 0) {
    const Completions years(static_cast<int>(magnitude), date.yearMask);
    low = years.value(0);
    high = years.value(years.count - 1);
    if (date.negative && low == 0) low = 1;
  }
  return date.negative ? YearRange{-high, -low} : YearRange{low, high};
}

SeasonMonths monthsOfSeason(int code, Hemisphere hemisphere) {
  assert(code >= 21 && code <= 41);
  if (code >= 40) return {(code - 40) * 6 + 1, 6};
  if (code >= 37) return {(code - 37) * 4 + 1, 4};
  if (code >= 33) return {(code - 33) * 3 + 1, 3};
  constexpr std::array<int, 4> kNorth = {3, 6, 9, 12};
  constexpr std::array<int, 4> kSouth = {9, 12, 3, 6};
  const bool south = code >= 29 || (code <= 24 && hemisphere == Hemisphere::South);
  const auto season = static_cast<std::size_t>((code - 21) % 4);
  return {south ? kSouth[season] : kNorth[season], 3};
}

Bounds Date::plain(Hemisphere hemisphere) const {
  if (precision == Precision::Season) {
    const SeasonMonths months = monthsOfSeason(month, hemisphere);
    const YearRange years = yearsOf(*this);
    return {Day::fromCivil(years.first, months.first, 1),
            Day::fromCivil(years.last, months.first, 1).plusMonths(months.count - 1, MonthRule::ToMonthEnd)};
  }
  if (significant != 0) {
    const YearRange years = yearsOf(*this);
    return {Day::fromCivil(years.first, 1, 1), Day::fromCivil(years.last, 12, 31)};
  }
  if (!isMasked()) {
    if (precision == Precision::Year) return {Day::fromCivil(year(), 1, 1), Day::fromCivil(year(), 12, 31)};
    if (precision == Precision::Month) {
      const Day first = Day::fromCivil(year(), month, 1);
      return {first, first.plusDays(daysInMonth(year(), month) - 1)};
    }
    const Day only = Day::fromCivil(year(), month, day);
    return {only, only};
  }
  const auto first = extremeDay(*this, false), last = extremeDay(*this, true);
  return first && last ? Bounds{*first, *last} : Bounds{};
}

Bounds Date::wide(const Options& options) const {
  const Bounds bounds = plain(options.hemisphere);
  if (isMasked() || significant != 0 || precision == Precision::Season) return bounds;
  if ((yearQualifier & kApproximate) != 0) {
    return {shifted(bounds.earliest, *this, options, false), shifted(bounds.latest, *this, options, true)};
  }
  if ((monthQualifier & kApproximate) != 0) {
    return {Day::fromCivil(year(), 1, 1), Day::fromCivil(year(), 12, 31)};
  }
  if ((dayQualifier & kApproximate) != 0) {
    return {Day::fromCivil(year(), month, 1), Day::fromCivil(year(), month, daysInMonth(year(), month))};
  }
  return bounds;
}

Bounds Piece::plain(const Options& options) const {
  return boundsOf(*this, Reading::Plain, options);
}
Bounds Piece::wide(const Options& options) const {
  return boundsOf(*this, Reading::Wide, options);
}

Bounds Expression::bounds(Reading reading, const Options& options) const {
  Bounds hull = boundsOf(piece(0), reading, options);
  for (std::size_t i = 1; i < size(); ++i) {
    const Bounds member = boundsOf(piece(i), reading, options);
    hull.earliest = std::min(hull.earliest, member.earliest);
    hull.latest = std::max(hull.latest, member.latest);
  }
  return hull;
}

std::vector<Bounds> Expression::memberBounds(Reading reading, const Options& options) const {
  std::vector<Bounds> all;
  all.reserve(size());
  for (std::size_t i = 0; i < size(); ++i) all.push_back(boundsOf(piece(i), reading, options));
  return all;
}

SpanBounds spanOf(const Expression& expression, Reading reading, const Options& options) {
  SpanBounds span;
  if (expression.shape() == Shape::Date || expression.shape() == Shape::OneOf) {
    const Bounds all = expression.bounds(reading, options);
    span.begin = span.end = all;
    span.beginDoubted = span.endDoubted =
        expression.isDoubted(End::Earliest) || expression.isDoubted(End::Latest);
    return span;
  }
  const Piece* first = &expression.piece(0);
  const Piece* last = first;
  for (std::size_t i = 1; i < expression.size(); ++i) {
    const Piece& piece = expression.piece(i);
    const Bounds bounds = piece.plain(options);
    if (bounds.earliest < first->plain(options).earliest) first = &piece;
    if (bounds.latest > last->plain(options).latest) last = &piece;
  }
  span.begin = edgeBounds(*first, End::Earliest, reading, options);
  span.end = edgeBounds(*last, End::Latest, reading, options);
  span.beginDoubted = first->isDoubted(End::Earliest);
  span.endDoubted = last->isDoubted(End::Latest);
  span.beginOpen = first->fromEdge == Edge::Open;
  span.endOpen = last->toEdge == Edge::Open;
  return span;
}

}  // namespace saggar::dates
