#include "dates/day.h"

#include <array>
#include <cassert>

namespace saggar::dates {
namespace {

constexpr int kYearsOfCycle = 400;
constexpr int kDaysOfCycle = 146097;
constexpr int kEpoch = 719528;  // days from 0000-01-01 to 1970-01-01
constexpr Int128 kSmall = 1'000'000'000'000'000;

constexpr std::array<int, 13> kBeforeMonth = {0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334, 365};

template <class Number>
constexpr Number floorDivide(Number value, Number by) {
  const Number quotient = value / by;
  return value % by < 0 ? quotient - 1 : quotient;
}

constexpr bool isLeapInCycle(int year) {
  return year % 4 == 0 && (year % 100 != 0 || year == 0);
}

// Days from the start of a cycle to its year `year`, 0 to 400; the cycle's first year is a leap year.
constexpr int daysBeforeYear(int year) {
  return 365 * year + (year + 3) / 4 - (year + 99) / 100 + (year + 399) / 400;
}
static_assert(daysBeforeYear(kYearsOfCycle) == kDaysOfCycle);
static_assert(4 * kDaysOfCycle + daysBeforeYear(370) + kDaysOfCycle * 0 == kEpoch);

// Quotient and remainder as mathematicians have them; 64 bits where they do, for 128 cost ten times as much.
int cycleOf(Int128 value, int length, Int128& cycle) {
  if (value < kSmall && value > -kSmall) {
    const auto small = static_cast<std::int64_t>(value);
    const std::int64_t quotient = floorDivide<std::int64_t>(small, length);
    cycle = quotient;
    return static_cast<int>(small - quotient * length);
  }
  cycle = floorDivide<Int128>(value, length);
  return static_cast<int>(value - cycle * length);
}

int yearOfCycle(Int128 year) {
  Int128 cycle = 0;
  return cycleOf(year, kYearsOfCycle, cycle);
}

int daysBeforeMonth(int month, bool leap) {
  return kBeforeMonth[static_cast<std::size_t>(month - 1)] + (leap && month > 2 ? 1 : 0);
}

int monthLength(int month, bool leap) {
  return month == 2 ? (leap ? 29 : 28)
                    : kBeforeMonth[static_cast<std::size_t>(month)] -
                          kBeforeMonth[static_cast<std::size_t>(month - 1)];
}

}  // namespace

bool isLeapYear(Int128 year) {
  return isLeapInCycle(yearOfCycle(year));
}

int daysInMonth(Int128 year, int month) {
  assert(month >= 1 && month <= 12);
  return monthLength(month, month == 2 && isLeapYear(year));
}

Day Day::fromCivil(Int128 year, int month, int day) {
  Int128 cycle = 0;
  const int rest = cycleOf(year, kYearsOfCycle, cycle);
  const bool leap = isLeapInCycle(rest);
  assert(month >= 1 && month <= 12 && day >= 1 && day <= monthLength(month, leap));
  return Day(cycle * kDaysOfCycle + (daysBeforeYear(rest) + daysBeforeMonth(month, leap) + day - 1 - kEpoch));
}

Civil Day::civil() const {
  assert(isFinite());
  Int128 cycle = 0;
  const int rest = cycleOf(number_ + kEpoch, kDaysOfCycle, cycle);
  int year = rest / 366;  // never too late; at most one too early
  if (daysBeforeYear(year + 1) <= rest) ++year;
  int dayOfYear = rest - daysBeforeYear(year);
  const bool leap = isLeapInCycle(year);
  int month = dayOfYear / 32 + 1;  // likewise
  if (month < 12 && daysBeforeMonth(month + 1, leap) <= dayOfYear) ++month;
  return {cycle * kYearsOfCycle + year, month, dayOfYear - daysBeforeMonth(month, leap) + 1};
}

Day firstDayOfIsoWeek(Int128 year, int week) {
  const Day fourth = Day::fromCivil(year, 1, 4);
  Int128 weeks = 0;
  const int sinceMonday = cycleOf(fourth.number() + 3, 7, weeks);  // day 0 was a Thursday
  return fourth.plusDays(7 * (week - 1) - sinceMonday);
}

int isoWeeksInYear(Int128 year) {
  return static_cast<int>((firstDayOfIsoWeek(year + 1, 1).number() - firstDayOfIsoWeek(year, 1).number()) /
                          7);
}

Day Day::plusDays(Int128 days) const {
  return isFinite() ? Day(number_ + days) : *this;
}

Day Day::plusMonths(Int128 months, MonthRule rule) const {
  if (!isFinite()) return *this;
  const Civil from = civil();
  Int128 year = 0;
  const int month = cycleOf(from.year * 12 + (from.month - 1) + months, 12, year) + 1;
  const int last = daysInMonth(year, month);
  const int day = rule == MonthRule::ToMonthEnd || from.day > last ? last : from.day;
  return fromCivil(year, month, day);
}

void Day::appendTo(std::string& out) const {
  if (number_ == kUnknown) {
    out += "unknown";
  } else if (number_ == kPlusInfinity) {
    out += "+inf";
  } else if (number_ == kMinusInfinity) {
    out += "-inf";
  } else {
    const Civil date = civil();
    appendNumber(out, date.year, 4);
    out += '-';
    appendNumber(out, date.month, 2);
    out += '-';
    appendNumber(out, date.day, 2);
  }
}

std::string Day::toString() const {
  std::string out;
  appendTo(out);
  return out;
}

void appendNumber(std::string& out, Int128 value, int digits) {
  std::array<char, 40> reversed{};
  std::size_t length = 0;
  const bool negative = value < 0;
  if (negative) value = -value;
  for (; value > 0 || digits > 0; --digits, value /= 10) {
    reversed[length++] = static_cast<char>('0' + static_cast<int>(value % 10));
  }
  if (negative) out += '-';
  while (length > 0) out += reversed[--length];
}

}  // namespace saggar::dates
