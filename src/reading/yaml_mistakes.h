#pragma once
#include <string_view>

#include "diagnostics/finding.h"
#include "reading/yaml_tree.h"

namespace saggar::reading {

// The finding for a piece that yaml-cpp could not read: what the author did, where, and what to type instead.
//
// The problem: a parser tells where it gave up and why in its own terms, which is often lines behind the slip. The
// choice: the piece is gone through line by line as an author sees it, and the first slip of the commonest ones is
// told; the parser's place says where to stop looking, and its words (never shown) decide only where that finds
// nothing. The cost: a second, rough idea of YAML's layout beside the parser's; it only ever words a mistake that
// the parser has found.
diagnostics::Finding explainBroken(const Piece& piece, std::uint32_t at, std::string_view words);

// The finding for lines at the margin of a list of records that begin no record.
diagnostics::Finding explainStray(const Piece& piece);

// The finding for an item that begins in another column than those of its list.
diagnostics::Finding explainOutOfLine(const Piece& piece);

}  // namespace saggar::reading
