#pragma once
#include <vector>

#include "reading/yaml_tree.h"

namespace saggar::reading {

// A file cut into pieces that are read one by one, so that a mistake costs the record it stands in and no other, and
// one big file is read by several threads.
struct CutPiece {
  std::uint32_t begin = 0;
  std::uint32_t end = 0;
  bool item = false;   // begins with "- ": a sequence of one record
  bool stray = false;  // a line at the margin of a list of records that begins no item
};

// Cuts at the lines that begin with "- " in the column of the first one, and at document marks. A document that is
// no list stays one piece.
std::vector<CutPiece> cutIntoPieces(std::string_view text);

// The kind and id in the first line of a piece ("- shape: jessamount"), for records that are otherwise broken; empty
// where it cannot be told.
struct FirstLine {
  std::string_view kind;
  std::string_view id;
  std::uint32_t idBegin = 0;
  std::uint32_t idEnd = 0;
};
FirstLine firstLineOf(const Piece& piece);

}  // namespace saggar::reading
