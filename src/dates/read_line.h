// One date expression in, one line of JSON out: what `saggar date --read` answers.
#pragma once

#include <string>
#include <string_view>

#include "dates/expression.h"

namespace saggar::dates {

// Without a newline, the keys in this order:
//   {"expression","level","plain":{"earliest","latest"},"wide":{"earliest","latest"},"doubted":[…],"says"}
// or, of what cannot be read,
//   {"expression","error","at"}
// A day is YYYY-MM-DD; "-inf" and "+inf" are open ends, "unknown" blank ones. "at" is the column of the
// fault, in code points from 1. The text is taken whole, blanks included; malformed UTF-8 comes back as
// U+FFFD.
std::string readLine(std::string_view text, const Options& options = {});

}  // namespace saggar::dates
