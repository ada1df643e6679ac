#include "compose/code_dates.h"

#include <algorithm>
#include <iterator>
#include <optional>
#include <set>
#include <tuple>

#include "base/text.h"
#include "compose/phrases.h"

namespace saggar::compose {

using codes::DateChoice;

namespace {

constexpr std::size_t kMostNamed = 3;  // more years or parts of a year are told by the first and the last

auto keyOf(const DateChoice& one) {
  return std::tuple(one.year.value_or(0), one.quarter.value_or(0), one.month.value_or(0),
                    one.week.value_or(0), one.day.value_or(0));
}

bool isRun(const std::set<int>& numbers) {
  return static_cast<std::size_t>(*numbers.rbegin() - *numbers.begin()) + 1 == numbers.size();
}

std::vector<std::string> figures(const std::set<int>& numbers) {
  std::vector<std::string> out;
  for (const int one : numbers) out.push_back(std::to_string(one));
  return out;
}

std::string fromTo(const std::set<int>& numbers) {
  return std::to_string(*numbers.begin()) + " to " + std::to_string(*numbers.rbegin());
}

// "1934", "1930 or 1931", "a year from 1930 to 1939", "one of six years from 1904 to 1954".
std::string yearsInWords(const std::set<int>& years) {
  if (years.size() <= kMostNamed) return base::listedInWords(figures(years), "or");
  if (isRun(years)) return "a year from " + fromTo(years);
  return "one of " + countedInWords(years.size(), "year", "years") + " from " + fromTo(years);
}

enum class Unit { none, quarter, month, week };

// Parts of a year that go with each of the years: "2nd quarter of", "a quarter of", "week 7 of", "one of the weeks 10 to
// 19 of".
std::string unitsInWords(Unit unit, const std::set<int>& units) {
  auto named = [&](int number) {
    DateChoice one;
    if (unit == Unit::quarter) one.quarter = number;
    if (unit == Unit::month) one.month = number;
    return unit == Unit::week ? std::to_string(number) : codes::inWords(one);
  };
  if (unit == Unit::quarter && units.size() == 4) return "a quarter of ";
  if (unit == Unit::month && units.size() == 12) return "a month of ";
  if (unit == Unit::week && units.size() >= 52) return "a week of ";
  std::vector<std::string> names;
  for (const int one : units) names.push_back(named(one));
  const std::string before = unit == Unit::week ? "week " : "";
  if (units.size() <= kMostNamed) return before + base::listedInWords(names, "or") + " of ";
  if (isRun(units)) return before + "from " + names.front() + " to " + names.back() + " of ";
  return before + base::listedInWords(names, "or") + " of ";
}

// Empty if the dates are not every one of some parts of every one of some years.
std::string asTable(const std::vector<DateChoice>& dates) {
  Unit unit = Unit::none;
  std::set<int> years;
  std::set<int> units;
  for (const DateChoice& one : dates) {
    if (!one.year || one.day || (one.quarter ? 1 : 0) + (one.month ? 1 : 0) + (one.week ? 1 : 0) > 1)
      return {};
    const Unit own = one.quarter ? Unit::quarter
                     : one.month ? Unit::month
                     : one.week  ? Unit::week
                                 : Unit::none;
    if (!years.empty() && own != unit) return {};
    unit = own;
    years.insert(*one.year);
    units.insert(one.quarter ? *one.quarter : one.month ? *one.month : one.week.value_or(0));
  }
  if (dates.size() != years.size() * units.size()) return {};
  if (unit == Unit::none) return yearsInWords(years);
  const std::string part = unitsInWords(unit, units);
  // "a quarter of 1930 to 1939": all of these years are meant.
  if (part.starts_with("a ") && years.size() > kMostNamed && isRun(years)) return part + fromTo(years);
  return part + yearsInWords(years);
}

}  // namespace

std::string datesOfCode(std::vector<DateChoice> dates) {
  std::sort(dates.begin(), dates.end(),
            [](const DateChoice& a, const DateChoice& b) { return keyOf(a) < keyOf(b); });
  dates.erase(std::unique(dates.begin(), dates.end(),
                          [](const DateChoice& a, const DateChoice& b) { return keyOf(a) == keyOf(b); }),
              dates.end());
  if (dates.empty()) return {};
  if (dates.size() == 1) return codes::inWords(dates[0]);
  if (std::string words = asTable(dates); !words.empty()) return words;
  if (dates.size() <= kMostNamed) {
    std::vector<std::string> names;
    for (const DateChoice& one : dates) names.push_back(codes::inWords(one));
    return base::listedInWords(names, "or");
  }
  return "one of " + countedInWords(dates.size(), "date", "dates") + " from " +
         codes::inWords(dates.front()) + " to " + codes::inWords(dates.back());
}

}  // namespace saggar::compose
