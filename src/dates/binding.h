// The days that a date binds: what reasoning takes from an expression, end by end.
#pragma once

#include "dates/expression.h"

namespace saggar::dates {

// A doubted end (`?`, `%`) binds nothing in a proof; taken at its word it counts like any other.
enum class Doubted : std::uint8_t { BindsNothing, AtItsWord };

// Of a moment. What binds nothing is open: a blank end, and all of an all-of set, which no moment can have.
Bounds momentDays(const Expression& date, Reading reading, const Options& options,
                  Doubted doubted = Doubted::BindsNothing);

// Of a span: the day it began and the day it ended.
struct SpanDays {
  Bounds begin{Day::minusInfinity(), Day::plusInfinity()};
  Bounds end{Day::minusInfinity(), Day::plusInfinity()};

  // "Within it": from its earliest beginning to its latest end.
  Bounds hull() const { return {begin.earliest, end.latest}; }
};
SpanDays spanDays(const Expression& date, Reading reading, const Options& options,
                  Doubted doubted = Doubted::BindsNothing);

}  // namespace saggar::dates
