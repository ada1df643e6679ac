#pragma once
#include <string>
#include <string_view>

#include "diagnostics/finding.h"
#include "reading/yaml_tree.h"

namespace saggar::reading {

// The finding for a piece that yaml-cpp could not read: what the author did, where, and what to type instead.
// `at` is the offset in the file where the parser stopped, `words` its own message (never shown; it tells the kind
// of mistake).
diagnostics::Finding explainBroken(const Piece& piece, std::uint32_t at, std::string_view words);

// A line of the piece, for messages: the offsets of its first and one past its last byte.
struct LineExtent {
  std::uint32_t begin = 0;
  std::uint32_t end = 0;
};
LineExtent lineAt(const Piece& piece, std::uint32_t offset);

}  // namespace saggar::reading
