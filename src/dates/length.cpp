#include "dates/length.h"

#include <algorithm>
#include <array>
#include <vector>

#include "base/text.h"
#include "base/utf8.h"

namespace saggar::dates {
namespace {

constexpr int kMonthsOfCycle = 4800;  // the calendar repeats after 400 years
constexpr std::int64_t kDaysOfCycle = 146097;

struct Extremes {
  std::int64_t fewest, most;
};

// First days of the months of two cycles.
const std::vector<std::int64_t>& monthStarts() {
  static const std::vector<std::int64_t> starts = [] {
    std::vector<std::int64_t> days(2 * kMonthsOfCycle + 1);
    for (int month = 0; month < 2 * kMonthsOfCycle; ++month) {
      days[static_cast<std::size_t>(month) + 1] =
          days[static_cast<std::size_t>(month)] + daysInMonth(month / 12, month % 12 + 1);
    }
    return days;
  }();
  return starts;
}

Extremes daysOfMonths(std::int32_t months) {
  const std::vector<std::int64_t>& starts = monthStarts();
  const auto rest = static_cast<std::size_t>(months % kMonthsOfCycle);
  const std::int64_t whole = months / kMonthsOfCycle * kDaysOfCycle;
  Extremes found{starts[rest], starts[rest]};
  for (std::size_t first = 1; first < kMonthsOfCycle; ++first) {
    const std::int64_t days = starts[first + rest] - starts[first];
    found.fewest = std::min(found.fewest, days);
    found.most = std::max(found.most, days);
  }
  return {whole + found.fewest, whole + found.most};
}

struct Unit {
  char letter;
  std::string_view one, many;
  std::int32_t months, days;
};
constexpr std::array<Unit, 4> kUnits = {{{'y', "year", "years", 12, 0},
                                         {'m', "month", "months", 1, 0},
                                         {'w', "week", "weeks", 0, 7},
                                         {'d', "day", "days", 0, 1}}};

constexpr std::string_view kHint = "type a length as 2y, 6m, 3w or 10d, or 1y 6m";

LengthResult refused(std::size_t at, std::string what) {
  return {std::nullopt, what + "; " + std::string(kHint), at};
}

std::string seen(std::string_view text) {
  return "\"" + base::shortened(base::sanitizedUtf8(text.substr(0, 200)), 40) + "\"";
}

}  // namespace

std::int64_t Length::mostDays() const {
  return daysOfMonths(months).most + days;
}
std::int64_t Length::fewestDays() const {
  return daysOfMonths(months).fewest + days;
}

std::string Length::toString() const {
  std::string out;
  const auto add = [&out](std::int32_t number, char unit) {
    if (number == 0) return;
    if (!out.empty()) out += ' ';
    appendNumber(out, number);
    out += unit;
  };
  add(months / 12, 'y');
  add(months % 12, 'm');
  if (days % 7 == 0) {
    add(days / 7, 'w');
  } else {
    add(days, 'd');
  }
  return out.empty() ? "0d" : out;
}

std::string Length::inWords() const {
  std::vector<std::string> parts;
  const auto add = [&parts](std::int32_t number, std::string_view one) {
    if (number != 0) parts.push_back(base::counted(static_cast<std::size_t>(number), one));
  };
  add(months / 12, "year");
  add(months % 12, "month");
  if (days % 7 == 0) {
    add(days / 7, "week");
  } else {
    add(days, "day");
  }
  return parts.empty() ? "0 days" : base::listedInWords(parts);
}

LengthResult parseLength(std::string_view text) {
  Length length;
  std::size_t at = 0;
  std::size_t nextUnit = 0;
  const auto skipBlanks = [&] {
    while (at < text.size() && text[at] == ' ') ++at;
  };
  if (text.empty()) return refused(0, "there is no length");
  if (text.front() == ' ') return refused(0, "the length begins with a blank");
  while (at < text.size()) {
    const std::size_t start = at;
    std::int32_t number = 0;
    for (; at < text.size() && base::isDigit(text[at]) && at - start < 5; ++at) {
      number = number * 10 + (text[at] - '0');
    }
    if (at == start) return refused(at, seen(text.substr(at)) + " does not begin with a number");
    if (at < text.size() && base::isDigit(text[at])) {
      return refused(start, seen(text.substr(start)) + " is longer than can be reckoned with");
    }
    skipBlanks();
    const std::size_t unitStart = at;
    while (at < text.size() && base::isLower(text[at])) ++at;
    const std::string_view name = text.substr(unitStart, at - unitStart);
    const auto unit = std::find_if(kUnits.begin(), kUnits.end(), [name](const Unit& known) {
      return name == known.one || name == known.many || (name.size() == 1 && name.front() == known.letter);
    });
    if (unit == kUnits.end()) {
      const std::string_view rest = text.substr(unitStart);
      return refused(unitStart, rest.empty() ? seen(text.substr(start)) + " does not say of what"
                                             : seen(rest) + " is no unit of time");
    }
    const auto index = static_cast<std::size_t>(unit - kUnits.begin());
    if (index < nextUnit) {
      return refused(start, seen(text.substr(start)) + " comes after a shorter unit, or twice");
    }
    nextUnit = index + 1;
    length.months += number * unit->months;
    length.days += number * unit->days;
    if (at == text.size()) break;
    skipBlanks();
    if (at == text.size()) return refused(at - 1, "the length ends with a blank");
  }
  // 99999y 12m: of each unit it would take more figures than are read.
  constexpr std::int32_t kMost = 99'999;
  if (length.months / 12 > kMost || (length.days % 7 != 0 && length.days > kMost))
    return refused(0, seen(text) + " is longer than can be reckoned with");
  return {length, {}, 0};
}

std::string lengthInWords(std::string_view typed) {
  const LengthResult read = parseLength(typed);
  return read.length ? read.length->inWords() : std::string(typed);
}

}  // namespace saggar::dates
