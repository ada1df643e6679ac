// A day, counted in the proleptic Gregorian calendar (the year 0000 exists and is a leap year).
//
// The problem: a date may name a year of twenty digits, and such a year has more days before it than 64 bits
// can count. The choice: one number of 128 bits, with three values set aside for "no earliest day", "no
// latest day" and "not known". The cost: sixteen bytes a day; years that people use still take 64-bit
// arithmetic.
#pragma once

#include <compare>
#include <cstdint>
#include <string>

namespace saggar::dates {

__extension__ typedef __int128 Int128;

struct Civil {
  Int128 year = 0;
  int month = 1;  // 1 to 12
  int day = 1;    // 1 to the length of the month
};

// Which way a month or year is rounded when it has no such day: 31 January + 1 month is the last of February.
// ToMonthEnd always lands on the last day of the month.
enum class MonthRule : std::uint8_t { KeepDay, ToMonthEnd };

class Day {
 public:
  constexpr Day() = default;  // unknown

  static constexpr Day unknown() { return Day(kUnknown); }
  static constexpr Day minusInfinity() { return Day(kMinusInfinity); }
  static constexpr Day plusInfinity() { return Day(kPlusInfinity); }

  // Day 0 is 1970-01-01.
  static constexpr Day fromNumber(Int128 number) { return Day(number); }

  // The month and day must exist. The year may have up to twenty-four digits.
  static Day fromCivil(Int128 year, int month, int day);
  static Day fromCivil(const Civil& civil) { return fromCivil(civil.year, civil.month, civil.day); }

  constexpr bool isUnknown() const { return number_ == kUnknown; }
  constexpr bool isFinite() const { return number_ > kMinusInfinity && number_ < kPlusInfinity; }

  // Both only of a finite day.
  constexpr Int128 number() const { return number_; }
  Civil civil() const;

  // Moved by so many days or months; a day that is not finite stays as it is.
  Day plusDays(Int128 days) const;
  Day plusMonths(Int128 months, MonthRule rule = MonthRule::KeepDay) const;

  // `1932-05-01`; at least four digits of year, a minus before a negative one; `-inf`, `+inf`, `unknown`.
  void appendTo(std::string& out) const;
  std::string toString() const;

  // -inf, then the days in order, then +inf. Unknown comes last only so that sorting works: ask isUnknown
  // before an order means anything.
  friend constexpr auto operator<=>(const Day&, const Day&) = default;

 private:
  static constexpr Int128 kPlusInfinity = static_cast<Int128>(1) << 120;
  static constexpr Int128 kMinusInfinity = -kPlusInfinity;
  static constexpr Int128 kUnknown = kPlusInfinity + 1;

  constexpr explicit Day(Int128 number) : number_(number) {}

  Int128 number_ = kUnknown;
};

// Weeks of ISO 8601: they begin on Monday, and week 1 is the one that 4 January is in. The week must be one
// of the year's 52 or 53.
int isoWeeksInYear(Int128 year);
Day firstDayOfIsoWeek(Int128 year, int week);

bool isLeapYear(Int128 year);
int daysInMonth(Int128 year, int month);

// Decimal digits, with zeros in front up to `digits` (the minus not counted).
void appendNumber(std::string& out, Int128 value, int digits = 1);

}  // namespace saggar::dates
