#pragma once
#include <cstdint>
#include <string>
#include <string_view>

#include "base/arena.h"
#include "diagnostics/finding.h"

// YAML as a light tree: what yaml-cpp's events say, with the places and texts of the source.
//
// The problem: yaml-cpp's own node tree takes 2.5 times as long and a hundred times the memory, drops what it does
// not understand in silence, and words its errors for programmers. The choice: its event interface only, a node of
// 48 bytes whose text is a view into the source wherever the source holds it letter for letter, and our own look at
// what it drops. The cost: its known habits (a `?` in flow text, `~`, tags, open quotes) are dealt with by hand here.
namespace saggar::reading {

enum class NodeType : std::uint8_t { scalar, empty, sequence, mapping };
enum class NodeStyle : std::uint8_t { plain, singleQuoted, doubleQuoted, literal, folded, flow, block };

// Children of a mapping alternate: key, value, key, value.
struct Node {
  NodeType type = NodeType::empty;
  NodeStyle style = NodeStyle::plain;
  std::uint32_t begin = 0;  // byte offsets in the file
  std::uint32_t end = 0;
  std::uint32_t count = 0;   // children
  std::uint32_t weight = 1;  // nodes below, aliases followed
  std::string_view text;     // of a scalar
  const Node* first = nullptr;
  const Node* next = nullptr;

  bool isScalar() const { return type == NodeType::scalar; }
  bool quoted() const { return style == NodeStyle::singleQuoted || style == NodeStyle::doubleQuoted; }
};

// Walks a mapping's pairs. A key without a value inside braces is passed over: readTree has said that it is lost.
template <class Visit>
void forEachPair(const Node& mapping, Visit&& visit) {
  for (const Node* key = mapping.first; key != nullptr && key->next != nullptr; key = key->next->next)
    if (mapping.style != NodeStyle::flow || key->next->type != NodeType::empty) visit(*key, *key->next);
}

// A piece of a file: bytes [begin, end) of `text`.
struct Piece {
  std::string_view text;  // the whole file
  std::uint32_t begin = 0;
  std::uint32_t end = 0;
  source::FileId file = source::kNoFile;

  std::string_view bytes() const { return text.substr(begin, end - begin); }
};

struct TreeResult {
  const Node* root = nullptr;  // null: broken, or nothing but comments
  bool broken = false;
};

// Reads one piece. Nodes live in `nodes`, texts that are not letter for letter in the source in `texts`. One mistake gives
// one finding (yaml-broken, quote-open, yaml-too-deep, yaml-too-big) or, where YAML would go on in silence,
// value-lost. The piece must be valid UTF-8 without control characters.
TreeResult readTree(const Piece& piece, base::Arena& nodes, base::Arena& texts, diagnostics::Findings& findings);

}  // namespace saggar::reading
