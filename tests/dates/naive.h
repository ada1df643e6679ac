// A second reading of EDTF, written to be obviously right and slow: every completion of X is tried, days are
// three numbers, and nothing is shared with the program. For comparison only.
#pragma once

#include <optional>
#include <string>

namespace saggar::dates::testing {

struct NaiveAnswer {
  std::string earliest, latest;  // as the program prints them
};

// Bounds of a well-formed expression of dates (four-digit years, seasons, X, qualifiers), intervals and sets;
// nothing if no day fits or a range ends before it begins.
std::optional<NaiveAnswer> naiveBounds(const std::string& expression);

}  // namespace saggar::dates::testing
