#pragma once
#include <optional>

#include "diagnostics/finding.h"
#include "reading/yaml_extent.h"

// What YAML drops or bends without a word.
namespace saggar::reading {

// `code: JM-203 #3`: what follows ` #` is a comment; right before a letter or figure it was hardly meant as one.
// An empty value in front of it is marked as told.
void reportLostComments(const Piece& piece, Node& root, diagnostics::Findings& findings);

// The first escape in a double-quoted text (from its opening to its closing mark) that stands for a character which
// nothing can print.
std::optional<LineExtent> escapedControl(const Piece& piece, std::uint32_t open, std::uint32_t close);

// True if a colon follows the key.
bool colonBehind(const Piece& piece, const Node& key);

// The finding for keys of a mapping behind which there is no colon; `without` of them.
diagnostics::Finding keysWithoutColon(const Piece& piece, const Node& mapping, std::uint32_t without);

}  // namespace saggar::reading
