#pragma once
#include <string>
#include <vector>

#include "codes/when.h"

// The dates that a code may stand for, in words.
namespace saggar::compose {

// One date is itself: "1st quarter 1934". Those of a code with a sign that cannot be read are told as what they have in
// common: "a quarter of 1930 to 1939", "2nd quarter of a year from 1930 to 1939", "week 7 of 1952 or 1953"; where they do
// not go together so simply, as their number and ends: "one of 37 dates from 1st quarter 1930 to 3rd quarter 1939".
std::string datesOfCode(std::vector<codes::DateChoice> dates);

}  // namespace saggar::compose
