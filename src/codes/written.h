#pragma once
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "codes/part_language.h"

// `written: PREFIX-SERIAL-GROUP/LINING` taken apart.
//
// The problem: names of parts and text that really stands in the code are written in the same letters. The
// choice: a word is a part if `parts` has it; any other sign is text that stands in the code, and blanks join
// what is beside them, needing no sign in the code. The cost: a word of capitals that `parts` does not have
// would silently be taken for text where its part was forgotten; so a word with two or more capitals has to
// be said to be text: `parts: {TR: TR}`, or in quotes, `"TR"-NUMBER`.
namespace saggar::codes {

struct WrittenPiece {
  enum class Kind { part, text, join } kind = Kind::text;
  std::string text;  // the part's name, or the text
  bool operator==(const WrittenPiece&) const = default;
};

// The names longest first or not: the longest that fits is taken.
Parsed<std::vector<WrittenPiece>> parseWritten(std::string_view written, std::span<const std::string> names);

// Whether the name stands in `written` as a word of its own.
bool isNamedIn(std::string_view written, std::string_view name);

}  // namespace saggar::codes
