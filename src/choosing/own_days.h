#pragma once
#include "dates/binding.h"
#include "linking/collection.h"

// The days a record itself gives for its events, as proofs read them: wide bounds, without doubted ends (SEMANTICS,
// "Moments, spans, bounds"). What cannot be told is open.
namespace saggar::choosing {

dates::Bounds momentDays(const records::Value* value, const dates::Options& options);

using dates::SpanDays;
SpanDays spanDays(const records::Value* value, const dates::Options& options);

}  // namespace saggar::choosing
