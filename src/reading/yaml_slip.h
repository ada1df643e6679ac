#pragma once
#include <cstdint>
#include <optional>
#include <string>

#include "diagnostics/finding.h"
#include "reading/yaml_lines.h"

// What the search for mistakes passes about. Not for other rooms.
namespace saggar::reading {

// A mistake as it will be told; quote-open findings are made whole elsewhere.
using Slip = diagnostics::Finding;

Slip slipAt(const Piece& piece, std::uint32_t begin, std::uint32_t end, std::string message,
            std::string hint);

// A value that begins with a sign YAML keeps for itself; nothing if it does not, or if YAML lets it pass there.
// `inBrackets`: inside [ ] or { }, where a comma or bracket ends the value.
std::optional<Slip> signInFront(const Piece& piece, const Line& line, std::uint32_t valueAt,
                                std::uint32_t valueEnd, bool inBrackets);

// What stands behind the quotation mark that closes a value.
Slip behindQuote(const Piece& piece, const Line& line, std::uint32_t open, std::uint32_t end);

Slip tabAt(const Piece& piece, std::uint32_t at);

// The first slip in the lines of the piece up to the one that holds `stop`.
std::optional<Slip> lookAtLines(const Piece& piece, std::uint32_t stop);

struct FlowLook {
  std::optional<Slip> slip;
  std::uint32_t end = 0;  // without a slip: one past the closing bracket
};
// Looks through a value in brackets that begins at `open` and belongs to something in column `column`.
FlowLook lookInBrackets(const Piece& piece, std::uint32_t open, std::size_t column);

}  // namespace saggar::reading
