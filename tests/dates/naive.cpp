#include "naive.h"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <vector>

namespace saggar::dates::testing {
namespace {

using Ymd = std::array<int, 3>;

const Ymd kForever = {100000, 0, 0};
const Ymd kNever = {-100000, 0, 0};

int lengthOf(int year, int month) {
  if (month == 2) return year % 400 == 0 || (year % 4 == 0 && year % 100 != 0) ? 29 : 28;
  return month == 4 || month == 6 || month == 9 || month == 11 ? 30 : 31;
}

std::string padded(int value, int width) {
  std::string out = std::to_string(value);
  return std::string(static_cast<std::size_t>(width) - std::min(out.size(), static_cast<std::size_t>(width)),
                     '0') +
         out;
}

bool fits(const std::string& pattern, const std::string& digits) {
  if (pattern.size() != digits.size()) return false;
  for (std::size_t i = 0; i < digits.size(); ++i) {
    if (pattern[i] != 'X' && pattern[i] != digits[i]) return false;
  }
  return true;
}

struct NaiveRange {
  Ymd first, last;
};

// First and last day of a season: its months are listed, not reckoned.
NaiveRange seasonOf(int year, int code) {
  static const std::array<std::vector<int>, 21> kMonths = {
      {{3, 4, 5},       {6, 7, 8},          {9, 10, 11},
       {12, 13, 14},    {3, 4, 5},          {6, 7, 8},
       {9, 10, 11},     {12, 13, 14},       {9, 10, 11},
       {12, 13, 14},    {3, 4, 5},          {6, 7, 8},
       {1, 2, 3},       {4, 5, 6},          {7, 8, 9},
       {10, 11, 12},    {1, 2, 3, 4},       {5, 6, 7, 8},
       {9, 10, 11, 12}, {1, 2, 3, 4, 5, 6}, {7, 8, 9, 10, 11, 12}}};
  const auto& months = kMonths[static_cast<std::size_t>(code - 21)];
  const int last = months.back();
  const int lastYear = last > 12 ? year + 1 : year, lastMonth = last > 12 ? last - 12 : last;
  return {{year, months.front(), 1}, {lastYear, lastMonth, lengthOf(lastYear, lastMonth)}};
}

std::optional<NaiveRange> dateRange(std::string text) {
  text.erase(
      std::remove_if(text.begin(), text.end(), [](char c) { return c == '?' || c == '~' || c == '%'; }),
      text.end());
  const bool negative = text[0] == '-';
  if (negative) text.erase(0, 1);
  const std::string year = text.substr(0, 4);
  const std::string month = text.size() > 4 ? text.substr(5, 2) : "";
  const std::string day = text.size() > 7 ? text.substr(8, 2) : "";
  std::optional<NaiveRange> found;
  const auto add = [&found](const NaiveRange& range) {
    if (!found) found = range;
    found->first = std::min(found->first, range.first);
    found->last = std::max(found->last, range.last);
  };
  const bool exact = year.find('X') == std::string::npos;
  const int from = exact ? std::stoi(year) : negative ? 1 : 0;
  for (int magnitude = from; magnitude <= (exact ? from : 9999); ++magnitude) {
    if (!fits(year, padded(magnitude, 4))) continue;
    const int y = negative ? -magnitude : magnitude;
    if (!month.empty() && month.find('X') == std::string::npos && std::stoi(month) > 20) {
      add(seasonOf(y, std::stoi(month)));
      continue;
    }
    for (int m = 1; m <= 12; ++m) {
      if (!month.empty() && !fits(month, padded(m, 2))) continue;
      for (int d = 1; d <= lengthOf(y, m); ++d) {
        if (day.empty() || fits(day, padded(d, 2))) add({{y, m, d}, {y, m, d}});
      }
    }
  }
  return found;
}

std::optional<NaiveRange> stretch(const std::string& left, const std::string& right, bool openLeft,
                                  bool openRight) {
  NaiveRange range{kNever, kForever};
  if (!openLeft) {
    const auto date = dateRange(left);
    if (!date) return std::nullopt;
    range.first = date->first;
  }
  if (!openRight) {
    const auto date = dateRange(right);
    if (!date) return std::nullopt;
    range.last = date->last;
  }
  if (range.last < range.first) return std::nullopt;
  return range;
}

std::string print(const Ymd& day) {
  if (day == kForever) return "+inf";
  if (day == kNever) return "-inf";
  return (day[0] < 0 ? "-" : "") + padded(std::abs(day[0]), 4) + "-" + padded(day[1], 2) + "-" +
         padded(day[2], 2);
}

std::optional<NaiveRange> member(const std::string& text) {
  const std::size_t dots = text.find("..");
  if (dots == std::string::npos) return dateRange(text);
  const std::string left = text.substr(0, dots), right = text.substr(dots + 2);
  return stretch(left, right, left.empty(), right.empty());
}

}  // namespace

std::optional<NaiveAnswer> naiveBounds(const std::string& expression) {
  if (expression.front() == '[' || expression.front() == '{') {
    std::string inside = expression.substr(1, expression.size() - 2) + ",";
    NaiveRange hull{kForever, kNever};
    for (std::size_t comma = inside.find(','); comma != std::string::npos; comma = inside.find(',')) {
      const auto range = member(inside.substr(0, comma));
      if (!range) return std::nullopt;
      hull.first = std::min(hull.first, range->first);
      hull.last = std::max(hull.last, range->last);
      inside.erase(0, comma + 1);
    }
    return NaiveAnswer{print(hull.first), print(hull.last)};
  }
  const std::size_t slash = expression.find('/');
  if (slash == std::string::npos) {
    const auto range = dateRange(expression);
    if (!range) return std::nullopt;
    return NaiveAnswer{print(range->first), print(range->last)};
  }
  const std::string left = expression.substr(0, slash), right = expression.substr(slash + 1);
  const auto range = stretch(left, right, left.empty() || left == "..", right.empty() || right == "..");
  if (!range) return std::nullopt;
  return NaiveAnswer{left.empty() ? "unknown" : print(range->first),
                     right.empty() ? "unknown" : print(range->last)};
}

}  // namespace saggar::dates::testing
