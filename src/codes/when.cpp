#include "codes/when.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace saggar::codes {
namespace {

using dates::Bounds;
using dates::Day;

constexpr int kDaysOfWeek = 7;

// 1 Monday to 7 Sunday. Day 0, 1 January 1970, was a Thursday.
int weekday(const Day& day) {
  const int rest = static_cast<int>((day.number() + 3) % kDaysOfWeek);
  return (rest + kDaysOfWeek) % kDaysOfWeek + 1;
}

int quarterOf(int month) {
  return (month + 2) / 3;
}

bool monthAgrees(const DateChoice& choice, int month) {
  return (!choice.month || *choice.month == month) &&
         (!choice.quarter || *choice.quarter == quarterOf(month));
}

std::optional<Bounds> daysInWeek(const DateChoice& choice) {
  if (*choice.week > weeksInYear(*choice.year)) return std::nullopt;
  std::optional<Bounds> range;
  const Day monday = mondayOfWeek(*choice.year, *choice.week);
  for (int i = 0; i < kDaysOfWeek; ++i) {
    const Day day = monday.plusDays(i);
    const dates::Civil civil = day.civil();
    if (!monthAgrees(choice, civil.month) || (choice.day && *choice.day != civil.day)) continue;
    range = Bounds{range ? range->earliest : day, day};
  }
  return range;
}

// Without a year February has 29 days.
std::optional<Bounds> daysInMonths(const DateChoice& choice) {
  constexpr int kSomeLeapYear = 2000;
  const int year = choice.year.value_or(kSomeLeapYear);
  std::optional<Bounds> range;
  for (int month = 1; month <= 12; ++month) {
    const int last = dates::daysInMonth(year, month);
    if (!monthAgrees(choice, month) || (choice.day && *choice.day > last)) continue;
    const Day from = Day::fromCivil(year, month, choice.day.value_or(1));
    range = Bounds{range ? range->earliest : from, Day::fromCivil(year, month, choice.day.value_or(last))};
  }
  return range;
}

std::string quarterWords(int quarter) {
  constexpr std::array<std::string_view, 4> kOrdinals = {"1st", "2nd", "3rd", "4th"};
  return fmt::format("{} quarter", kOrdinals[static_cast<std::size_t>(quarter - 1)]);
}

bool inRange(const std::optional<int>& value, int low, int high) {
  return !value || (*value >= low && *value <= high);
}

}  // namespace

int weeksInYear(int year) {
  const Day first = Day::fromCivil(year, 1, 1);
  const bool startsThursday = weekday(first) == 4;
  const bool endsThursday = weekday(Day::fromCivil(year, 12, 31)) == 4;
  return startsThursday || endsThursday ? 53 : 52;
}

Day mondayOfWeek(int year, int week) {
  const Day inFirstWeek = Day::fromCivil(year, 1, 4);
  return inFirstWeek.plusDays(1 - weekday(inFirstWeek) + kDaysOfWeek * (week - 1));
}

std::optional<Bounds> daysOf(const DateChoice& choice) {
  if (!inRange(choice.year, kFirstYear, kLastYear) || !inRange(choice.quarter, 1, 4) ||
      !inRange(choice.month, 1, 12) || !inRange(choice.week, 1, 53) || !inRange(choice.day, 1, 31)) {
    return std::nullopt;
  }
  if (choice.year && choice.week) return daysInWeek(choice);
  const std::optional<Bounds> range = daysInMonths(choice);
  if (range && !choice.year) return Bounds{Day::minusInfinity(), Day::plusInfinity()};
  return range;
}

std::string whyNoDay(const DateChoice& choice) {
  if (choice.year && choice.week && *choice.week > weeksInYear(*choice.year)) {
    return fmt::format("{} has no week {}: it ends with week 52 (ISO 8601)", *choice.year, *choice.week);
  }
  if (choice.month && choice.quarter && quarterOf(*choice.month) != *choice.quarter) {
    return fmt::format("{} is not in the {}", monthName(*choice.month), quarterWords(*choice.quarter));
  }
  DateChoice smaller = choice;
  if (smaller.week) smaller.day.reset();
  if (choice.month && choice.day && !smaller.week) {
    return fmt::format("there is no {} {}{}", *choice.day, monthName(*choice.month),
                       choice.year ? fmt::format(" in {}", *choice.year) : "");
  }
  if (choice.year && choice.week) {
    DateChoice rest = choice;
    rest.year.reset();
    rest.week.reset();
    return fmt::format("week {} of {} has no day in {}", *choice.week, *choice.year, inWords(rest));
  }
  return "there is no such date";
}

std::string monthName(int month) {
  constexpr std::array<std::string_view, 12> kNames = {"January",   "February", "March",    "April",
                                                       "May",       "June",     "July",     "August",
                                                       "September", "October",  "November", "December"};
  return std::string(kNames[static_cast<std::size_t>(std::clamp(month, 1, 12) - 1)]);
}

std::string inWords(const DateChoice& choice) {
  std::string words;
  const auto add = [&](const std::string& more) { words += words.empty() ? more : " " + more; };
  if (choice.week) add(fmt::format("week {}", *choice.week));
  if (choice.week && choice.year) add(fmt::format("of {}", *choice.year));
  if (choice.week && (choice.day || choice.month || choice.quarter)) words += ",";
  if (choice.quarter && !choice.month) {
    if (choice.day) add(fmt::format("day {} of a month in the", *choice.day));
    add(quarterWords(*choice.quarter));
  } else if (choice.month) {
    if (choice.day) add(fmt::format("{}", *choice.day));
    add(monthName(*choice.month));
  } else if (choice.day) {
    add(fmt::format("day {} of a month{}", *choice.day, choice.year && !choice.week ? " in" : ""));
  }
  if (choice.year && !choice.week) add(fmt::format("{}", *choice.year));
  return words;
}

}  // namespace saggar::codes
