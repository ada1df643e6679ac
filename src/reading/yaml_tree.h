#pragma once
#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/arena.h"
#include "diagnostics/finding.h"

// YAML as a light tree: what yaml-cpp's events say, with the places and texts of the source.
//
// The problem: yaml-cpp's own node tree takes 2.5 times as long and a hundred times the memory, drops what it does
// not understand in silence, and words its errors for programmers. The choice: its event interface only, a node of
// 56 bytes whose text is a view into the source wherever the source holds it letter for letter, and our own look at
// what it drops. The cost: its known habits (a `?` in flow text, `~`, tags, open quotes) are dealt with by hand here.
namespace saggar::reading {

enum class NodeType : std::uint8_t { scalar, empty, sequence, mapping };
enum class NodeStyle : std::uint8_t { plain, singleQuoted, doubleQuoted, literal, folded, flow, block };

// Children of a mapping alternate: key, value, key, value. Offsets are those of the file.
struct Node {
  NodeType type = NodeType::empty;
  NodeStyle style = NodeStyle::plain;
  bool told = false;        // a finding says already what is wrong with it: pass it over in silence
  std::uint32_t begin = 0;  // of an empty value: right behind the colon or on the dash it was expected after
  std::uint32_t end = 0;
  std::uint32_t count = 0;   // children
  std::uint32_t weight = 1;  // nodes below, aliases followed
  std::string_view text{};   // of a scalar
  const Node* first = nullptr;
  const Node* next = nullptr;

  bool isScalar() const { return type == NodeType::scalar; }
  bool quoted() const { return style == NodeStyle::singleQuoted || style == NodeStyle::doubleQuoted; }
};

// Walks a mapping's pairs, but for those whose key a finding has dealt with.
template <class Visit>
void forEachPair(const Node& mapping, Visit&& visit) {
  for (const Node* key = mapping.first; key != nullptr && key->next != nullptr; key = key->next->next)
    if (!key->told) visit(*key, *key->next);
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

// Reads pieces, one after another, on one thread. What is read must be valid UTF-8 without control characters but
// tabs and line ends.
class TreeReader {
 public:
  // Nodes live in `nodes` until it is cleared; texts that are not letter for letter in the source live in `texts`.
  TreeReader(base::Arena& nodes, base::Arena& texts) : nodes_(nodes), texts_(texts) {}

  // Reads one piece. One mistake gives one finding (yaml-broken, quote-open, text-unfit, yaml-too-deep, yaml-too-big)
  // or, where YAML would go on in silence, value-lost.
  TreeResult read(const Piece& piece, diagnostics::Findings& findings);

  // Reads several neighbouring pieces that each hold one item of a list in a single pass, which saves the parser's
  // start. Gives the items' nodes, one for each start; or nothing as soon as anything is out of the ordinary (a
  // mistake, an anchor, an item that does not stay inside its piece): they must then be read one by one.
  bool readTogether(const Piece& pieces, std::span<const std::uint32_t> starts,
                    std::vector<const Node*>& items);

 private:
  std::string_view withStandIns(std::string_view bytes);

  base::Arena& nodes_;
  base::Arena& texts_;
  std::string hidden_;
};

}  // namespace saggar::reading
