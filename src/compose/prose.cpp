#include "compose/prose.h"

#include "base/text.h"
#include "document/document.h"
#include "linking/prose.h"
#include "reading/text_map.h"

namespace saggar::compose {

using document::BlockKind;
using document::InlineKind;
using document::text;

namespace {

void put(Inlines& out, Inlines more) { out.insert(out.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end())); }

bool isBlankText(const Inline& one) {
  return (one.kind == InlineKind::text && base::trimmed(one.text).empty()) || one.kind == InlineKind::softBreak;
}

Inlines referenceInWords(Inline& one, const Words& words, const Places* places, const Indexed& indexed) {
  const std::string whole = one.text.substr(0, one.text.find('.'));
  const auto target = words.materials().records.find(whole);
  resolveInlines(one.children, words, places, indexed);
  if (!target) return one.children.empty() ? Inlines{text(one.text)} : std::move(one.children);
  if (one.children.empty()) return words.name(*target);
  const auto place = places == nullptr ? std::nullopt : places->of(*target);
  if (!place) return std::move(one.children);
  return {document::link(std::move(one.children), *place)};
}

Inlines citationInWords(Inline& one, const Words& words) {
  const auto source = words.materials().records.find(Kind::source, one.text);
  Inlines out = source ? words.name(*source) : Inlines{text(one.text)};
  if (!one.children.empty()) {
    out.push_back(text(", "));
    put(out, std::move(one.children));
  }
  return out;
}

}  // namespace

void resolveInlines(Inlines& inlines, const Words& words, const Places* places, const Indexed& indexed) {
  Inlines out;
  out.reserve(inlines.size());
  for (std::size_t i = 0; i < inlines.size(); ++i) {
    Inline& one = inlines[i];
    switch (one.kind) {
      case InlineKind::reference: put(out, referenceInWords(one, words, places, indexed)); break;
      case InlineKind::citation: {
        while (!out.empty() && isBlankText(out.back())) out.pop_back();
        if (!out.empty() && out.back().kind == InlineKind::text) {
          const std::string_view kept = base::trimmed(out.back().text);
          out.back().text.resize(static_cast<std::size_t>(kept.data() + kept.size() - out.back().text.data()));
        }
        out.push_back(text(out.empty() ? "(" : " ("));
        put(out, citationInWords(one, words));
        // Two in a row share one pair of brackets.
        std::size_t next = i + 1;
        while (next < inlines.size()) {
          std::size_t after = next;
          while (after < inlines.size() && isBlankText(inlines[after])) ++after;
          if (after >= inlines.size() || inlines[after].kind != InlineKind::citation) break;
          out.push_back(text("; "));
          put(out, citationInWords(inlines[after], words));
          next = after + 1;
        }
        i = next - 1;
        out.push_back(text(")"));
        break;
      }
      case InlineKind::index: {
        std::string heading = one.text.empty() ? document::plainText(one.children) : one.text;
        resolveInlines(one.children, words, places, indexed);
        if (indexed) out.push_back(document::anchorAt(indexed(heading)));
        put(out, std::move(one.children));
        break;
      }
      default:
        resolveInlines(one.children, words, places, indexed);
        out.push_back(std::move(one));
    }
  }
  inlines = std::move(out);
}

void resolveBlocks(Blocks& blocks, const Words& words, const Places* places, const Indexed& indexed) {
  for (Block& block : blocks) {
    resolveInlines(block.inlines, words, places, indexed);
    for (document::Cell& head : block.table.head) resolveInlines(head.inlines, words, places, indexed);
    for (document::Row& row : block.table.rows)
      for (document::Cell& one : row.cells) resolveInlines(one.inlines, words, places, indexed);
    resolveBlocks(block.blocks, words, places, indexed);
  }
}

Blocks resolvedProse(const Words& words, const Places* places, const PublishedRecord& owner, const records::Value& value) {
  const reading::YamlTextMap map(words.materials().records.sources().text(owner.span().file), owner.span(value.place), value.text);
  Blocks blocks = linking::parseProse(value.text, map).blocks;
  std::erase_if(blocks, [](const Block& block) { return block.kind == BlockKind::query; });
  resolveBlocks(blocks, words, places);
  return blocks;
}

}  // namespace saggar::compose
