#pragma once
#include <string>
#include <string_view>

namespace saggar::commands {

// A heading and what belongs to it, the words beginning at `column` (in letters, from 0) and broken so that a line has
// at most 100; what goes on below begins `hang` letters further in. Line ends in the words are kept as blanks.
void putColumns(std::string& out, std::string_view heading, std::string_view words, std::size_t column,
                std::size_t hang = 0);

}  // namespace saggar::commands
