#pragma once
#include <cstdint>
#include <string_view>

#include "reading/yaml_tree.h"

// Where things end in the source, which yaml-cpp's events do not say. Offsets are those of the file; none goes past
// the piece.
namespace saggar::reading {

// A line of the piece: the offsets of its first and one past its last byte, without its end.
struct LineExtent {
  std::uint32_t begin = 0;
  std::uint32_t end = 0;
};
LineExtent lineAt(const Piece& piece, std::uint32_t offset);
std::string_view textOf(const Piece& piece, LineExtent line);

// The first byte of the line after `end` (the end of a line), or the piece's end.
std::uint32_t nextLine(const Piece& piece, std::uint32_t end);

// Blanks in front of the line's first visible character.
std::size_t indentOf(std::string_view line);

// The offset of the quotation mark that closes the one at `open`, or the piece's end if none does.
std::uint32_t closingQuote(const Piece& piece, std::uint32_t open);

// One past the last byte of a `|` or `>` text whose sign stands at `sign`.
std::uint32_t endOfBlockText(const Piece& piece, std::uint32_t sign);

// One past the last byte of a plain text over several lines: follows the letters of its value.
std::uint32_t endOfPlainText(const Piece& piece, std::uint32_t begin, std::string_view value);

// One past the name of an alias, an anchor or a tag that begins at `begin`.
std::uint32_t endOfWord(const Piece& piece, std::uint32_t begin);

}  // namespace saggar::reading
