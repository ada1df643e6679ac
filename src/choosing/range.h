#pragma once
#include <optional>
#include <string_view>

#include "records/measure.h"

namespace saggar::choosing {

// "3", "3 to 5": whole numbers, both ends counted; nullopt if it is neither, or ends before it begins.
struct Range {
  std::int64_t low = 0;
  std::int64_t high = 0;
  bool has(std::int64_t number) const { return low <= number && number <= high; }
};
std::optional<Range> readRange(std::string_view text);

// The same of times ("6:00 to 10:00"), in seconds.
std::optional<Range> readTimeRange(std::string_view text);

// "7 in", "7 in to 9 in", "7 to 9 in", "230 mm to 25 cm", "36s to 30s" (count sizes in either order). Nullopt if it is
// none of these, if the ends measure different things, or if it ends before it begins.
struct MeasureRange {
  records::Measure low;
  records::Measure high;
  bool single = false;  // one measure, not a range

  bool has(const records::Measure& measure) const;
};
std::optional<MeasureRange> readMeasureRange(std::string_view text);

}  // namespace saggar::choosing
