// Two uncertain days or spans compared. Each answer is certain (true of every day the bounds allow),
// impossible (true of none) or possible.
//
// Bounds say nothing of how one day hangs on the other: of two dates that both read 1932 neither is surely
// the same day. An end that is unknown or open binds nothing.
#pragma once

#include <span>

#include "dates/bounds.h"

namespace saggar::dates {

enum class Certainty : std::uint8_t { Impossible, Possible, Certain };

Certainty before(const Bounds& a, const Bounds& b);    // a at least a day before b
Certainty notAfter(const Bounds& a, const Bounds& b);  // a before b or on the same day
inline Certainty after(const Bounds& a, const Bounds& b) {
  return before(b, a);
}
Certainty sameDay(const Bounds& a, const Bounds& b);

// The day lies within a range whose two ends are fixed.
Certainty within(const Bounds& day, const Bounds& range);
// The day lies within the span, from the day it began to the day it ended.
Certainty within(const Bounds& day, const SpanBounds& span);

// They have a day in common.
Certainty overlaps(const SpanBounds& span, const Bounds& range);
Certainty overlaps(const SpanBounds& a, const SpanBounds& b);

// Of a day that is one of several (members of a one-of set): certain if it is so of each, impossible if of
// none.
Certainty within(std::span<const Bounds> members, const Bounds& range);

constexpr Certainty opposite(Certainty answer) {
  return static_cast<Certainty>(2 - static_cast<int>(answer));
}
constexpr Certainty both(Certainty a, Certainty b) {
  return a < b ? a : b;
}

}  // namespace saggar::dates
