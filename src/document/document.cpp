#include "document/document.h"

#include <utility>

namespace saggar::document {
namespace {

Inline withChildren(InlineKind kind, Inlines children) {
  Inline one;
  one.kind = kind;
  one.children = std::move(children);
  return one;
}

Inline withText(InlineKind kind, std::string words) {
  Inline one;
  one.kind = kind;
  one.text = std::move(words);
  return one;
}

}  // namespace

Inline text(std::string words) {
  return withText(InlineKind::text, std::move(words));
}
Inline emphasis(Inlines children) {
  return withChildren(InlineKind::emphasis, std::move(children));
}
Inline strong(Inlines children) {
  return withChildren(InlineKind::strong, std::move(children));
}
Inline code(std::string words) {
  return withText(InlineKind::code, std::move(words));
}
Inline anchorAt(std::string name) {
  return withText(InlineKind::anchor, std::move(name));
}
Inline tickBox() {
  return withText(InlineKind::tickBox, {});
}
Inline hardBreak() {
  return withText(InlineKind::hardBreak, {});
}

Inline link(Inlines children, Target target) {
  Inline one = withChildren(InlineKind::link, std::move(children));
  one.target = std::move(target);
  return one;
}

Block paragraph(Inlines inlines) {
  Block block;
  block.inlines = std::move(inlines);
  return block;
}

Block heading(int level, Inlines inlines, std::string anchor) {
  Block block;
  block.kind = BlockKind::heading;
  block.level = level;
  block.inlines = std::move(inlines);
  block.anchor = std::move(anchor);
  return block;
}

Block list(std::vector<Blocks> items, bool ordered) {
  Block block;
  block.kind = BlockKind::list;
  block.ordered = ordered;
  for (Blocks& item : items) {
    Block one;
    one.kind = BlockKind::item;
    one.blocks = std::move(item);
    block.blocks.push_back(std::move(one));
  }
  return block;
}

Block table(Table rows) {
  Block block;
  block.kind = BlockKind::table;
  block.table = std::move(rows);
  return block;
}

Block notice(std::string info, Blocks blocks) {
  Block block;
  block.kind = BlockKind::notice;
  block.info = std::move(info);
  block.blocks = std::move(blocks);
  return block;
}

Cell cell(Inlines inlines) {
  return {std::move(inlines), {}};
}
Cell cell(std::string words) {
  Cell one;
  if (!words.empty()) one.inlines.push_back(text(std::move(words)));
  return one;
}

std::string plainText(const Inlines& inlines) {
  std::string out;
  for (const Inline& one : inlines) {
    switch (one.kind) {
      case InlineKind::text:
      case InlineKind::code: out += one.text; break;
      case InlineKind::softBreak:
      case InlineKind::hardBreak: out += ' '; break;
      case InlineKind::anchor:
      case InlineKind::tickBox: break;
      case InlineKind::image: out += one.text; break;
      case InlineKind::reference:
      case InlineKind::citation: out += one.children.empty() ? one.text : plainText(one.children); break;
      default: out += plainText(one.children);
    }
  }
  return out;
}

std::string plainText(const Blocks& blocks) {
  std::string out;
  auto add = [&](const std::string& words) {
    if (words.empty()) return;
    if (!out.empty()) out += '\n';
    out += words;
  };
  for (const Block& block : blocks) {
    add(plainText(block.inlines));
    if (block.kind == BlockKind::code) add(block.text);
    for (const Cell& head : block.table->head) add(plainText(head.inlines));
    for (const Row& row : block.table->rows)
      for (const Cell& one : row.cells) add(plainText(one.inlines));
    add(plainText(block.blocks));
  }
  return out;
}

}  // namespace saggar::document
