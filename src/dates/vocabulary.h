// The single words of dates: months, seasons, ordinals. Capitals do not matter. Internal to the room.
#pragma once

#include <string_view>

namespace saggar::dates {

// 1 to 12 for a month's name or its beginning as an author shortens it (`Apr`, `Sept.`), else 0.
int monthNamed(std::string_view word);
// 21 to 24 for spring, summer, autumn or fall, winter, else 0.
int seasonNamed(std::string_view word);
bool equalIgnoringCase(std::string_view text, std::string_view lower);
char lower(char c);

// 5, 5th, 1st: the number of at most two digits, else 0. `ordinal` says that it must have its ending.
int dayNumber(std::string_view token, bool ordinal);
// 1 to 4 for first to fourth, any number with its ending, else 0.
int ordinalNamed(std::string_view token);

bool hasDigits(std::string_view token, std::size_t least);

}  // namespace saggar::dates
