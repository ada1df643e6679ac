#pragma once
#include <cstdint>
#include <optional>
#include <string>

#include "choosing/own_days.h"

namespace saggar::checks {

using choosing::momentDays;
using choosing::SpanDays;
using choosing::spanDays;

// The earliest or latest day of a moment, and what it would be if a season there were taken for its whole year.
dates::Day dayOf(const records::Value* value, dates::End end, const dates::Options& options);
dates::Day dayWithoutSeason(const records::Value* value, dates::End end, const dates::Options& options);

// What a finding adds when a season alone decides it (SEMANTICS, "Moments, spans, bounds").
std::string seasonInWords(const dates::Options& options);

// How far a day lies behind another, in words: "3 years", "5 months", "12 days". Both are days, not open ends. Never more
// than it is: 700 days are "1 year".
std::string gapInWords(dates::Day from, dates::Day to);

// The same as a number, if one of 64 bits can hold it.
std::optional<std::int64_t> gapInDays(dates::Day from, dates::Day to);

}  // namespace saggar::checks
