#include "choosing/range.h"

#include <charconv>
#include <cmath>
#include <string>

#include "base/text.h"

namespace saggar::choosing {

using records::Measure;
using records::Unit;

namespace {

std::optional<std::int64_t> readNumber(std::string_view text) {
  std::int64_t number = 0;
  const auto [stop, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (text.empty() || text[0] == '-' || error != std::errc() || stop != text.data() + text.size())
    return std::nullopt;
  return number;
}

std::optional<std::int64_t> readTime(std::string_view text) {
  const auto parts = base::split(text, ':');
  if (parts.size() < 2 || parts.size() > 3) return std::nullopt;
  std::int64_t total = 0;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const auto value = readNumber(parts[i]);
    if (!value || parts[i].size() > 3 || (i > 0 && (parts[i].size() != 2 || *value > 59)))
      return std::nullopt;
    total = total * 60 + *value;
  }
  return total;
}

struct Ends {
  std::string_view low, high;
};
Ends endsOf(std::string_view text) {
  const std::size_t to = text.find(" to ");
  if (to == std::string_view::npos) return {base::trimmed(text), {}};
  return {base::trimmed(text.substr(0, to)), base::trimmed(text.substr(to + 4))};
}

template <class Read>
std::optional<Range> rangeOf(std::string_view text, Read&& read) {
  const Ends ends = endsOf(text);
  const auto low = read(ends.low);
  const auto high = ends.high.empty() ? low : read(ends.high);
  if (!low || !high || *low > *high) return std::nullopt;
  return Range{*low, *high};
}

// What a measure is a measure of: those of one kind can be compared.
int dimension(const Measure& measure) {
  return measure.isLength() ? 0 : measure.isVolume() ? 1 : 2;
}

double axisInMetric(const Measure& measure, int axis) {
  Measure one = measure;
  one.axes = 1;
  one.amount[0] = measure.amount[axis];
  return records::inMetric(one);
}

double tolerance(const Measure& a, const Measure& b) {
  if (a.unit == b.unit) return 1e-6;
  return a.isVolume() ? 2.5 : 0.5;
}

}  // namespace

std::optional<Range> readRange(std::string_view text) {
  return rangeOf(text, readNumber);
}
std::optional<Range> readTimeRange(std::string_view text) {
  return rangeOf(text, readTime);
}

bool MeasureRange::has(const Measure& measure) const {
  if (dimension(measure) != dimension(low)) return false;
  if (single && low.axes > 1) {
    if (measure.axes != low.axes) return false;
    for (int i = 0; i < low.axes; ++i)
      if (std::abs(axisInMetric(measure, i) - axisInMetric(low, i)) > tolerance(measure, low)) return false;
    return true;
  }
  const double size = records::inMetric(measure);
  return size >= records::inMetric(low) - tolerance(measure, low) &&
         size <= records::inMetric(high) + tolerance(measure, high);
}

std::optional<MeasureRange> readMeasureRange(std::string_view text) {
  const Ends ends = endsOf(text);
  if (ends.high.empty()) {
    const auto one = records::readMeasure(ends.low);
    if (!one) return std::nullopt;
    return MeasureRange{*one, *one, true};
  }
  auto high = records::readMeasure(ends.high);
  if (!high) return std::nullopt;
  auto low = records::readMeasure(ends.low);
  if (!low) {  // "7 to 9 in": the unit stands once
    std::size_t unit = ends.high.size();
    auto ofUnit = [](char c) {
      return base::isLower(c) || base::isUpper(c) || c == '.' || c == ' ' || c == '"';
    };
    while (unit > 0 && ofUnit(ends.high[unit - 1])) --unit;
    low = records::readMeasure(std::string(ends.low) + std::string(ends.high.substr(unit)));
    if (!low || low->unit != high->unit) return std::nullopt;
  }
  if (low->axes != 1 || high->axes != 1 || dimension(*low) != dimension(*high)) return std::nullopt;
  if (records::inMetric(*low) > records::inMetric(*high)) {
    if (low->unit != Unit::countSize) return std::nullopt;
    std::swap(*low, *high);
  }
  return MeasureRange{*low, *high, false};
}

}  // namespace saggar::choosing
