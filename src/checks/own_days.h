#pragma once
#include <string>

#include "choosing/own_days.h"

namespace saggar::checks {

using choosing::momentDays;
using choosing::SpanDays;
using choosing::spanDays;

// How far a day lies behind another, in words: "by 3 years", "by 5 months", "by 12 days".
std::string gapInWords(dates::Day from, dates::Day to);

}  // namespace saggar::checks
