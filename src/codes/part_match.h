#pragma once
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "codes/part.h"
#include "codes/signs.h"
#include "codes/when.h"

// One part against the signs of a text. Internal to this room.
namespace saggar::codes {

struct PartMatcher {
  struct Row {
    std::u32string folded;
    std::size_t row;
  };

  // What a row means, whatever its date; `withDate` if the date belongs to it.
  struct RowMeaning {
    std::string words;
    bool withDate = false;
  };

  std::string name;
  std::optional<PartSpec> spec;      // nullopt: any text (a group of a pattern that `parts` says nothing of)
  std::u32string text;               // of a TextPart
  std::vector<Row> rows;             // of a TablePart, sorted by text, then by row
  std::vector<RowMeaning> meanings;  // of a TablePart, as its rows stand
  std::string fixedMeaning;          // of a PathPart

  PartMatcher(std::string partName, std::optional<PartSpec> partSpec);

  // Adds to `out` where the part can end if it begins at `from`, rising, each once. A part has at least one
  // sign.
  void ends(std::span<const Sign> signs, std::size_t from, std::vector<std::size_t>& out) const;

  // Whether it can be exactly these signs.
  bool fitsAll(std::span<const Sign> signs) const;

  // How many signs from there are as the part wants them, where it does not fit.
  std::size_t begun(std::span<const Sign> signs, std::size_t from) const;
};

// One thing that the signs can stand for.
struct Choice {
  std::optional<std::size_t> row;
  DateChoice date;
};

// Everything that signs which fit can stand for, in the order of the table's rows; at most `most`, and `more`
// set if there are others.
std::vector<Choice> choices(const PartMatcher& part, std::span<const Sign> signs, std::size_t most,
                            bool& more);

// The meaning in words: of a table the row's own words, else its look, else its date; of a date part the
// date.
std::string meaning(const PartMatcher& part, const Choice& choice);

// What two choices say together; nullopt if they give one unit two values.
std::optional<DateChoice> together(const DateChoice& a, const DateChoice& b);

}  // namespace saggar::codes
