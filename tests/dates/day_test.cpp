#include "dates/day.h"

#include <doctest/doctest.h>

#include <array>
#include <chrono>
#include <ctime>

#include "support.h"

namespace saggar::dates::testing {
namespace {

TEST_CASE("days agree with the calendar of the standard library over 60,000 years") {
  using std::chrono::sys_days;
  using std::chrono::year_month_day;
  for (int number = -11'000'000; number < 11'000'000; number += 97) {
    const year_month_day expected{sys_days{std::chrono::days{number}}};
    const Civil civil = Day::fromNumber(number).civil();
    REQUIRE(civil.year == static_cast<int>(expected.year()));
    REQUIRE(civil.month == static_cast<int>(static_cast<unsigned>(expected.month())));
    REQUIRE(civil.day == static_cast<int>(static_cast<unsigned>(expected.day())));
    REQUIRE(Day::fromCivil(civil).number() == number);
  }
}

TEST_CASE("every day of two cycles comes after the one before it") {
  Day day = Day::fromCivil(-400, 1, 1);
  for (Int128 year = -400; year < 400; ++year) {
    for (int month = 1; month <= 12; ++month) {
      for (int date = 1; date <= daysInMonth(year, month); ++date) {
        REQUIRE(Day::fromCivil(year, month, date) == day);
        const Civil civil = day.civil();
        REQUIRE((civil.year == year && civil.month == month && civil.day == date));
        day = day.plusDays(1);
      }
    }
  }
}

TEST_CASE("years of twenty digits are counted and printed") {
  Int128 year = 1;
  for (int i = 0; i < 20; ++i) year *= 10;
  for (const Int128 each : {year - 1, -(year - 1)}) {
    const Day day = Day::fromCivil(each, 12, 31);
    CHECK(day.isFinite());
    CHECK(day.civil().year == each);
    CHECK(day.plusDays(1).civil().day == 1);
  }
  CHECK(Day::fromCivil(year - 1, 12, 31).toString() == "99999999999999999999-12-31");
  CHECK(Day::fromCivil(-(year - 1), 1, 1).toString() == "-99999999999999999999-01-01");
}

TEST_CASE("days are printed with four digits of year or more") {
  CHECK(Day::fromCivil(409, 1, 2).toString() == "0409-01-02");
  CHECK(Day::fromCivil(0, 2, 29).toString() == "0000-02-29");
  CHECK(Day::fromCivil(-1, 1, 1).toString() == "-0001-01-01");
  CHECK(Day::fromCivil(12345, 1, 1).toString() == "12345-01-01");
  CHECK(Day::minusInfinity().toString() == "-inf");
  CHECK(Day::plusInfinity().toString() == "+inf");
  CHECK(Day().toString() == "unknown");
}

TEST_CASE("weeks are those of ISO 8601") {
  // Worked examples that circulate with the standard; from memory.
  CHECK(firstDayOfIsoWeek(2009, 1).toString() == "2008-12-29");
  CHECK(firstDayOfIsoWeek(2009, 53).toString() == "2009-12-28");
  CHECK(firstDayOfIsoWeek(2004, 53).toString() == "2004-12-27");
  CHECK(isoWeeksInYear(2009) == 53);
  CHECK(isoWeeksInYear(2008) == 52);
  // The C library's %G and %V for every Monday of four centuries.
  for (Int128 year = 1800; year < 2200; ++year) {
    for (int week = 1; week <= isoWeeksInYear(year); ++week) {
      const Civil monday = firstDayOfIsoWeek(year, week).civil();
      std::tm time{};
      time.tm_year = static_cast<int>(monday.year) - 1900;
      time.tm_mon = monday.month - 1;
      time.tm_mday = monday.day;
      time.tm_hour = 12;
      time.tm_wday = 1;
      const bool leap = isLeapYear(monday.year);
      for (int month = 1; month < monday.month; ++month)
        time.tm_yday += daysInMonth(leap ? 2000 : 2001, month);
      time.tm_yday += monday.day - 1;
      std::array<char, 32> text{};
      REQUIRE(std::strftime(text.data(), text.size(), "%G %V", &time) > 0);
      std::string expected;
      appendNumber(expected, year);
      expected += ' ';
      appendNumber(expected, week, 2);
      REQUIRE(expected == text.data());
    }
  }
}

TEST_CASE("an end that is no day stays as it is and keeps its order") {
  const Day today = Day::fromCivil(1932, 5, 5);
  CHECK(Day::minusInfinity() < today);
  CHECK(today < Day::plusInfinity());
  CHECK(Day::plusInfinity().plusDays(-5) == Day::plusInfinity());
  CHECK(Day::minusInfinity().plusMonths(5) == Day::minusInfinity());
  CHECK(Day::unknown().plusDays(1).isUnknown());
  CHECK_FALSE(Day::unknown().isFinite());
}

TEST_CASE("a month that is too short ends on its last day") {
  const auto moved = [](int year, int month, int day, int months, MonthRule rule = MonthRule::KeepDay) {
    return Day::fromCivil(year, month, day).plusMonths(months, rule).toString();
  };
  CHECK(moved(1932, 1, 31, 1) == "1932-02-29");
  CHECK(moved(1932, 2, 29, -12) == "1931-02-28");
  CHECK(moved(1931, 2, 28, 12) == "1932-02-28");
  CHECK(moved(1931, 2, 28, 12, MonthRule::ToMonthEnd) == "1932-02-29");
  CHECK(moved(1, 1, 1, -13) == "-0001-12-01");
}

}  // namespace
}  // namespace saggar::dates::testing
