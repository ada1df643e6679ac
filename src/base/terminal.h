#pragma once
#include <string>
#include <string_view>

// What a terminal makes of a text: how wide it is there, and what may be sent to it.
namespace saggar::base {

// Columns that a character takes in a terminal: 0 for marks that sit on the one before (general categories Mn, Me and
// Cf), 2 for wide and fullwidth ones (Unicode Standard Annex 11), else 1.
int columnsOf(char32_t codePoint);

// True of what a terminal would obey or a reader be misled by: control characters, line and paragraph separators, and
// the signs that turn the direction of writing (Unicode Standard Annex 9, explicit formatting characters).
bool isUnsafeForTerminal(char32_t codePoint);

// The text with a middle dot for each unsafe character and each malformed byte; blanks for tabs and line ends.
std::string forTerminal(std::string_view text);

}  // namespace saggar::base
