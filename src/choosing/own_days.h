#pragma once
#include "dates/expression.h"
#include "linking/collection.h"

// The days a record itself gives for its events, as proofs read them: wide bounds, without doubted ends (SEMANTICS,
// "Moments, spans, bounds"). What cannot be told is open.
namespace saggar::choosing {

dates::Bounds momentDays(const records::Value* value, const dates::Options& options);

// Of a span: when it began and when it ended.
struct SpanDays {
  dates::Bounds begin{dates::Day::minusInfinity(), dates::Day::plusInfinity()};
  dates::Bounds end{dates::Day::minusInfinity(), dates::Day::plusInfinity()};
  // "Within it": from its earliest beginning to its latest end.
  dates::Bounds hull() const { return {begin.earliest, end.latest}; }
};
SpanDays spanDays(const records::Value* value, const dates::Options& options);

}  // namespace saggar::choosing
