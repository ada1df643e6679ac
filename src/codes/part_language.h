#pragma once
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "codes/part.h"

// The small language in which an author says what a part is, as plain text:
//   2 digits · 2 or 3 digits · 2 letters · 1 to 2880 · 001 to 999
//   shape.prefix (a path) · last 3 of motif.supplier-number
//   year 19YY · year 18YY or 19YY · year YYYY
//   month · quarter · week · day, each also with a range (day 1 to 19) or with the signs it has (month MM)
//   anything else is a text that stands there as it is; `text …` says so outright
// A mapping (a table) and a list come as data, not as text.
namespace saggar::codes {

template <class T>
struct Parsed {
  std::optional<T> value;
  std::string message;  // where there is no value: what was seen
  std::string hint;     // and what to type instead
};

Parsed<PartSpec> parsePart(std::string_view text);

// A list: several paths, several `last N of` with the same N, several years, or several texts (one of them).
Parsed<PartSpec> parsePartList(std::span<const std::string> texts);

// `shape.prefix`: names of small letters, digits and hyphens with dots between, at least two.
Parsed<std::string> parsePath(std::string_view text);

// What a row of a table says of the date: `year: 1842`, `month: 9` or `month: September`, `quarter`, `week`,
// `day`.
Parsed<int> parseFact(std::string_view key, std::string_view text);

// Signs the eye confuses: `4 9`, or `rn m`.
Parsed<std::vector<std::string>> parseAlike(std::string_view text);

}  // namespace saggar::codes
