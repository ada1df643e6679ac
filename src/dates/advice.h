// From a fault to the sentences an author reads: what was seen, what is wrong, and what to type. Internal to
// the room.
#pragma once

#include <optional>

#include "dates/fault.h"
#include "dates/parse.h"

namespace saggar::dates {

// The text is valid UTF-8 unless the fault says otherwise.
Error explain(std::string_view text, const Fault& fault, const Options& options);

// The text read in either language, without a word said if it cannot be.
std::optional<Expression> tryRead(std::string_view text, const Options& options = {});

// A known habit that EDTF writes otherwise (`1932-5`, `193-`, `5.6.1932`, `unknown/1936`), or nothing.
struct Habit {
  std::string message, hint;
  std::string suggestion;
};
bool recognizeHabit(std::string_view text, Habit& habit);

}  // namespace saggar::dates
