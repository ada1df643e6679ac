// What is known of when something happened: the earliest and the latest day it can have been.
#pragma once

#include "dates/day.h"

namespace saggar::dates {

enum class End : std::uint8_t { Earliest, Latest };

struct Bounds {
  Day earliest;  // -inf: no bound; unknown: a blank end, of which nothing is known
  Day latest;    // +inf, unknown: likewise

  Day at(End end) const { return end == End::Earliest ? earliest : latest; }

  // The same with unknown ends as open ones; for reckoning, since neither binds anything.
  Bounds opened() const {
    return {earliest.isUnknown() ? Day::minusInfinity() : earliest,
            latest.isUnknown() ? Day::plusInfinity() : latest};
  }

  // By the earliest day, then the latest; unknown last. For lists in order of date.
  friend auto operator<=>(const Bounds&, const Bounds&) = default;
};

// The span that something lasted: when it began and when it ended.
struct SpanBounds {
  Bounds begin, end;
  bool beginDoubted = false, endDoubted = false;
  // Of an end that is not dated: `1937/..` has not ended, of `1937/` it is not known; likewise of a
  // beginning.
  bool beginOpen = false, endOpen = false;

  // From the earliest beginning to the latest end: what "within it" means.
  Bounds hull() const { return {begin.earliest, end.latest}; }
};

}  // namespace saggar::dates
