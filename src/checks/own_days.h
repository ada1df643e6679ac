#pragma once
#include "dates/expression.h"
#include "linking/collection.h"

// The days a record itself gives for its events, as proofs read them: wide bounds, without doubted ends (SEMANTICS,
// "Moments, spans, bounds"). What cannot be told is open.
namespace saggar::checks {

dates::Bounds momentDays(const records::Value* value, const dates::Options& options);

// Of a span: when it began and when it ended.
struct SpanDays {
  dates::Bounds begin{dates::Day::minusInfinity(), dates::Day::plusInfinity()};
  dates::Bounds end{dates::Day::minusInfinity(), dates::Day::plusInfinity()};
};
SpanDays spanDays(const records::Value* value, const dates::Options& options);

// How far a day lies behind another, in words: "by 3 years", "by 5 months", "by 12 days".
std::string gapInWords(dates::Day from, dates::Day to);

}  // namespace saggar::checks
