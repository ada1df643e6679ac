// A length of time as an author types it: `2y`, `6m`, `3w`, `10d`, `1y 6m`.
//
// Months and years have no one length in days. So that no proof is too sharp, such a length stands for the
// most days that many whole months running can have where something happened *within* it, and for the fewest
// where it lasted *at least* so long: 31 and 28 for one month, 184 and 181 for six, 366 and 365 for a year,
// 731 and 730 for two.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "dates/day.h"

namespace saggar::dates {

struct Length {
  std::int32_t months = 0;  // years count twelve
  std::int32_t days = 0;    // weeks count seven

  static constexpr Length ofYears(std::int32_t years) { return {years * 12, 0}; }
  static constexpr Length ofMonths(std::int32_t months) { return {months, 0}; }
  static constexpr Length ofDays(std::int32_t days) { return {0, days}; }

  std::int64_t mostDays() const;
  std::int64_t fewestDays() const;

  // As typed, in its shortest form: `1y 6m`, `10d`, `0d`.
  std::string toString() const;
  // `1 year and 6 months`, `10 days`.
  std::string inWords() const;

  friend constexpr bool operator==(const Length&, const Length&) = default;
};

struct LengthResult {
  std::optional<Length> length;
  // Empty if there is a length. Lower case, no full stop, with the hint at its end.
  std::string error;
  std::size_t at = 0;  // the byte where it stopped
};

// Numbers of up to five digits, each with `y`, `m`, `w` or `d` (or the word), largest first, each unit once;
// blanks may stand between. Never fails otherwise than by an error.
LengthResult parseLength(std::string_view text);

// In words; what is no length as it was typed.
std::string lengthInWords(std::string_view typed);

}  // namespace saggar::dates
