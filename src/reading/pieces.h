#pragma once
#include <cstdint>
#include <string_view>
#include <vector>

#include "reading/yaml_tree.h"

namespace saggar::reading {

// A file cut into pieces that are read one by one, so that a mistake costs the record it stands in and no other, and
// one big file is read by several threads.
enum class PieceType : std::uint8_t {
  whole,      // a document that is no list of records: one mapping, or whatever it is
  item,       // begins with "- " in the column of the list: a list of one record
  outOfLine,  // begins with "- " in another column: read like an item, and reported
  stray,      // lines at the margin of a list that begin no item
};

struct CutPiece {
  std::uint32_t begin = 0;
  std::uint32_t end = 0;
  PieceType type = PieceType::whole;
  bool cutShort = false;  // a stray piece follows: part of this record may have been meant to be in it
  bool silent = false;  // out of line, but so was the item before, in the same column, and that was reported
};

// Cuts at the lines that begin with "- " in the column of the first one, and at document marks. A document that is
// no list stays one piece; one whose first record has lost its "- " is a list all the same.
std::vector<CutPiece> cutIntoPieces(std::string_view text);

// The kind and id in the first line of a piece ("- shape: jessamount"), for records that are otherwise broken; empty
// where it cannot be told. Of an id that goes wrong half-way, the part that is an id.
struct FirstLine {
  std::string_view kind;
  std::string_view id;
  std::uint32_t idBegin = 0;
  std::uint32_t idEnd = 0;
};
FirstLine firstLineOf(const Piece& piece);

// Where the keys at the margin of a mapping begin ("by: …"), for a guide file that cannot be read as a whole.
// None if several documents stand in it.
std::vector<std::uint32_t> marginKeysIn(const Piece& piece);

// The ids of all lines in it that look like the first line of a record.
std::vector<std::string_view> recordIdsIn(const Piece& piece);

}  // namespace saggar::reading
