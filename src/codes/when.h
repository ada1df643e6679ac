#pragma once
#include <optional>
#include <string>

#include "dates/bounds.h"

// What the parts of one reading say of the date, put together.
namespace saggar::codes {

// One value for each unit that is given. With a week the year is the year of ISO 8601, whose weeks run from
// Monday to Sunday and may reach into the calendar year before or after; else it is the calendar year.
struct DateChoice {
  std::optional<int> year, quarter, month, week, day;
  bool empty() const { return !year && !quarter && !month && !week && !day; }
  bool operator==(const DateChoice&) const = default;
};

constexpr int kFirstYear = 1;
constexpr int kLastYear = 9999;

// 52 or 53 (ISO 8601: week 1 is the week with the year's first Thursday).
int weeksInYear(int year);

// The Monday of that week. The week must exist.
dates::Day mondayOfWeek(int year, int week);

// From the first to the last day that agrees with everything given; nullopt if there is no such day (week 53
// of a year that has 52, 30 February, May in the first quarter). Without a year both ends are open (-inf,
// +inf).
std::optional<dates::Bounds> daysOf(const DateChoice& choice);

// Why daysOf gives nothing, for authors: "1956 has no week 53: it ends with week 52 (ISO 8601)".
std::string whyNoDay(const DateChoice& choice);

// "5 August 1857", "1st quarter 1934", "week 14 of 1956", "September"; empty for an empty choice.
std::string inWords(const DateChoice& choice);

std::string monthName(int month);

}  // namespace saggar::codes
