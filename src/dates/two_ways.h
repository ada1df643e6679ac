// `1930-35` is the third quarter of 1930: EDTF counts seasons, quarters and halves on behind the months, from
// 21 to 41. An author who types it nearly always means the years 1930 to 1935, and nothing else would say so:
// the date is read, fits, and is five years too sharp. It keeps its published meaning; this finds it, so that
// whoever reads dates from an author can say how it was taken.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace saggar::dates {

struct TwoWays {
  std::size_t byte = 0, bytes = 0;  // the part of the text that can be meant in two ways
  std::string message;              // how it was read, and how not: lower case, no full stop
  std::string hint;                 // what to type for each

  std::string sentence() const { return message + "; " + hint; }
};

// The first such part of an expression that parse accepts: four figures, a hyphen and a code from 21 to 41
// that would also end a range of years. Costs one look through the text where there is none.
std::optional<TwoWays> meantInTwoWays(std::string_view text);

}  // namespace saggar::dates
