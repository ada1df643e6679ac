#include "document/document.h"

namespace saggar::document {
namespace {

constexpr const char* kInlineNames[] = {"text",       "emphasis",   "strong", "struck",   "code",
                                        "soft-break", "hard-break", "link",   "image",    "reference",
                                        "citation",   "index",      "anchor", "tick-box", "footnote"};
constexpr const char* kBlockNames[] = {"heading", "paragraph", "list",   "item",   "quote", "code",
                                       "rule",    "table",     "figure", "notice", "query", "definition"};

std::string quoted(const std::string& words) {
  std::string out = "\"";
  for (char c : words) {
    if (c == '\n') {
      out += "\\n";
    } else {
      if (c == '"' || c == '\\') out += '\\';
      out += c;
    }
  }
  return out + '"';
}

std::string where(const Target& target) {
  if (!target.address.empty()) return " -> " + target.address;
  if (target.file.empty() && target.anchor.empty()) return {};
  return " -> " + target.file + '#' + target.anchor;
}

void put(std::string& out, const Inlines& inlines, int depth) {
  for (const Inline& one : inlines) {
    out.append(static_cast<std::size_t>(depth) * 2, ' ');
    out += kInlineNames[static_cast<int>(one.kind)];
    if (!one.text.empty()) out += ' ' + quoted(one.text);
    out += where(one.target) + '\n';
    put(out, one.children, depth + 1);
  }
}

void put(std::string& out, const Blocks& blocks, int depth) {
  const std::string indent(static_cast<std::size_t>(depth) * 2, ' ');
  for (const Block& block : blocks) {
    out += indent + kBlockNames[static_cast<int>(block.kind)];
    if (block.level != 0) out += ' ' + std::to_string(block.level);
    if (block.ordered) out += " ordered from " + std::to_string(block.start);
    if (!block.info.empty()) out += ' ' + block.info;
    if (!block.anchor.empty()) out += " #" + block.anchor;
    if (!block.text.empty()) out += ' ' + quoted(block.text);
    out += where(block.target) + '\n';
    put(out, block.inlines, depth + 1);
    auto putCells = [&](const char* name, const std::vector<Cell>& cells) {
      out += indent + "  " + name + '\n';
      for (const Cell& one : cells) {
        out += indent + "    cell" + (one.anchor.empty() ? "" : " #" + one.anchor) + '\n';
        put(out, one.inlines, depth + 3);
      }
    };
    if (!block.table->head.empty()) putCells("head", block.table->head);
    for (const Row& row : block.table->rows) putCells(row.groupHead ? "group" : "row", row.cells);
    put(out, block.blocks, depth + 1);
  }
}

}  // namespace

std::string dump(const Document& document) {
  std::string out =
      "document " + document.file + ' ' + quoted(document.title) + (document.draft ? " draft" : "") + '\n';
  put(out, document.blocks, 1);
  return out;
}

}  // namespace saggar::document
