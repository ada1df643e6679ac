#include "render/pdf/blocks.h"

#include <algorithm>
#include <utility>

#include "base/text.h"

namespace saggar::render {
namespace {

using document::Block;
using document::BlockKind;
using document::Blocks;
using layout::NoticeRules;
using layout::Place;
using layout::Role;
using layout::Style;

constexpr int kDeepest = 24;       // blocks within blocks; deeper ones are set as wide as these
constexpr double kListInset = 14;  // points
constexpr double kNarrowest = 80;  // no inset makes a line shorter
constexpr double kNoticePad = 6;

}  // namespace

BlockSetter::BlockSetter(const layout::PageLayout& layout, TextSetter& texts, Shared& shared, SlabSink sink)
    : layout_(layout), texts_(texts), shared_(shared), sink_(std::move(sink)) {}

void BlockSetter::add(const Block& one) {
  endTable();
  block(one, whole());
}

void BlockSetter::beginTable(const document::Table& head) {
  endTable();
  openTable(head, whole());
  for (const document::Row& row : head.rows) table_->add(row);
}

void BlockSetter::addRow(const document::Row& row) {
  if (!table_) openTable({}, whole());
  table_->add(row);
}

void BlockSetter::finish() {
  endTable();
  footnotes();
}

void BlockSetter::emit(Slab slab, double before) {
  slab.above = std::max(slab.above, std::max(before, space_));
  space_ = 0;
  if (keepNext_) slab.mayBreakBefore = false;
  keepNext_ = false;
  for (std::string& anchor : pendingAnchors_) slab.anchors.push_back(std::move(anchor));
  pendingAnchors_.clear();
  sink_(std::move(slab));
}

void BlockSetter::blocks(const Blocks& all, const Room& room) {
  for (const Block& one : all) block(one, room);
}

void BlockSetter::block(const Block& one, const Room& room) {
  if (!one.anchor.empty()) pendingAnchors_.push_back(one.anchor);
  const bool isParagraph = one.kind == BlockKind::paragraph;
  switch (one.kind) {
    case BlockKind::heading: heading(one, room); break;
    case BlockKind::paragraph: paragraph(one.inlines, room, layout_.style(room.role)); break;
    case BlockKind::list: list(one, room); break;
    case BlockKind::item:
    case BlockKind::quote: quote(one.blocks, room); break;
    case BlockKind::code:
    case BlockKind::query: code(one, room); break;
    case BlockKind::rule: rule(room); break;
    case BlockKind::table: table(one.table, room); break;
    case BlockKind::figure: figure(one, room); break;
    case BlockKind::notice: notice(one, room); break;
    case BlockKind::definition: define(one, room); break;
  }
  afterParagraph_ = isParagraph;
}

void BlockSetter::paragraph(const document::Inlines& inlines, const Room& room, const Style& style) {
  const std::vector<Marker> markers = std::exchange(markers_, {});
  const double indent = afterParagraph_ && markers.empty() ? style.indent : 0;
  const double measure = style.measure > 0 ? std::min(style.measure, room.width) : room.width;
  texts_.set(inlines, style, measure, indent, text_);
  for (std::string& one : text_.anchors) pendingAnchors_.push_back(std::move(one));
  const std::size_t count = text_.lines.size();
  const double base = baseLine(style.leading, texts_.fount(style).capHeight());
  const auto widows = static_cast<std::size_t>(layout_.breaking.widows);
  const auto orphans = static_cast<std::size_t>(layout_.breaking.orphans);
  for (std::size_t i = 0; i < count; ++i) {
    Slab slab;
    slab.height = style.leading;
    slab.mayBreakBefore = i == 0 || (i >= orphans && count - i >= widows);
    {
      SlabText to(slab);
      for (const Marker& marker : i == 0 ? markers : std::vector<Marker>()) {
        Fount& fount = texts_.fount(style);
        to.setFount(fount);
        to.moveTo(marker.left, base);
        to.show(fount.word(marker.sign).code);
      }
      TextSetter::draw(text_, text_.lines[i], room.left, base, to, slab);
    }
    emit(std::move(slab), i == 0 ? style.before : 0);
  }
  if (count > 0) space_ = style.after;
}

void BlockSetter::heading(const Block& one, const Room& room) {
  const Role role = one.level <= 1 ? Role::title : one.level == 2 ? Role::heading : Role::subheading;
  const Style& style = layout_.style(role);
  texts_.set(one.inlines, style, room.width, 0, text_);
  for (std::string& anchor : text_.anchors) pendingAnchors_.push_back(std::move(anchor));
  const std::string words(base::trimmed(document::plainText(one.inlines)));
  const double base = baseLine(style.leading, texts_.fount(style).capHeight());
  headingLevel_ = std::max(one.level, 1);
  for (std::size_t i = 0; i < text_.lines.size(); ++i) {
    Slab slab;
    slab.height = style.leading;
    slab.mayBreakBefore = i == 0;
    {
      SlabText to(slab);
      TextSetter::draw(text_, text_.lines[i], room.left, base, to, slab);
    }
    if (i == 0) {
      slab.outline.push_back({words, headingLevel_});
      if (one.level <= 2) slab.section = std::make_shared<const std::string>(words);
    }
    emit(std::move(slab), i == 0 ? style.before : 0);
    keepNext_ = true;
  }
  if (!text_.lines.empty()) space_ = style.after;
}

void BlockSetter::list(const Block& one, const Room& room) {
  Room inner = room;
  ++inner.depth;
  const bool hasRoom = room.width - kListInset >= kNarrowest && room.depth < kDeepest;
  if (hasRoom) {
    inner.left += kListInset;
    inner.width -= kListInset;
  }
  long number = one.start;
  for (const Block& item : one.blocks) {
    if (!item.anchor.empty()) pendingAnchors_.push_back(item.anchor);
    const std::string sign = one.ordered ? std::to_string(number) + "." : "•";
    afterParagraph_ = false;
    if (hasRoom)
      markers_.push_back({sign, room.left});
    else
      paragraph({document::text(sign)}, room, layout_.style(room.role));  // a line of its own
    ++number;
    const std::size_t waiting = markers_.size();
    blocks(item.blocks, inner);
    if (hasRoom && !markers_.empty() && markers_.size() == waiting) {
      markers_.pop_back();  // an empty item is its number alone
      paragraph({document::text(sign)}, room, layout_.style(room.role));
    }
    if (one.tight) space_ = std::min(space_, 2.0);
  }
  space_ = std::max(space_, layout_.style(room.role).after);
}

void BlockSetter::quote(const Blocks& all, const Room& room) {
  Room inner = room;
  ++inner.depth;
  if (room.width - 2 * kListInset >= kNarrowest && room.depth < kDeepest) {
    inner.left += kListInset;
    inner.width -= 2 * kListInset;
  }
  blocks(all, inner);
}

void BlockSetter::code(const Block& one, const Room& room) {
  document::Inlines lines;
  std::string_view text = one.text;
  while (text.ends_with('\n')) text.remove_suffix(1);
  for (std::string_view line : base::split(text, '\n')) {
    if (!lines.empty()) lines.push_back(document::hardBreak());
    std::string shown;
    for (const char c : line)
      shown += c == ' ' ? "\xC2\xA0" : c == '\t' ? "\xC2\xA0\xC2\xA0" : std::string(1, c);
    lines.push_back(document::code(std::move(shown)));
  }
  paragraph(lines, room, layout_.style(Role::code));
}

void BlockSetter::rule(const Room& room) {
  Slab slab;
  slab.height = 8;
  const double length = room.width / 4;
  slab.strokes.push_back(
      {room.left + (room.width - length) / 2, 4, length, false, layout_.rule(Place::rule)});
  emit(std::move(slab), 4);
  space_ = 4;
}

void BlockSetter::openTable(const document::Table& head, const Room& room) {
  const double above = std::max(space_, layout_.table.before);
  space_ = 0;
  const bool kept = std::exchange(keepNext_, false);
  table_ = std::make_unique<TableSetter>(
      layout_, texts_,
      [this](Slab&& slab) {
        for (OutlineMark& mark : slab.outline)
          if (mark.level == OutlineMark::kBelowHeading) mark.level = headingLevel_ + 1;
        for (std::string& anchor : pendingAnchors_) slab.anchors.push_back(std::move(anchor));
        pendingAnchors_.clear();
        sink_(std::move(slab));
      },
      head, room.left, room.width, above, kept);
}

void BlockSetter::table(const document::Table& all, const Room& room) {
  openTable(all, room);
  for (const document::Row& row : all.rows) table_->add(row);
  endTable();
}

void BlockSetter::endTable() {
  if (!table_) return;
  table_->finish();
  table_.reset();
  space_ = layout_.table.after;
  afterParagraph_ = false;
}

void BlockSetter::figure(const Block& one, const Room& room) {
  pictures_.push_back(one.target->address);
  if (!one.text.empty())
    paragraph({document::text("[" + one.text + "]")}, room, layout_.style(Role::caption));
  if (!one.inlines.empty()) paragraph(one.inlines, room, layout_.style(Role::caption));
}

void BlockSetter::define(const Block& one, const Room& room) {
  const Style& style = layout_.style(room.role);
  paragraph({document::strong(one.inlines)}, room, style);
  keepNext_ = true;
  space_ = 0;
  Room inner = room;
  ++inner.depth;
  if (room.width - kListInset >= kNarrowest && room.depth < kDeepest) {
    inner.left += kListInset;
    inner.width -= kListInset;
  }
  blocks(one.blocks, inner);
}

void BlockSetter::notice(const Block& one, const Room& room) {
  const layout::NoticeSpec& spec = layout_.notice(one.info);
  if (room.depth >= kDeepest) return blocks(one.blocks, room);
  const bool box = spec.rules == NoticeRules::around;
  const bool beside = spec.rules == NoticeRules::beside;
  Room inner = room;
  ++inner.depth;
  inner.role = Role::notice;
  const double pad = box || beside ? std::max(spec.inset, 8.0) : spec.inset;
  if (room.width - 2 * pad >= kNarrowest) {
    inner.left += pad;
    inner.width -= box ? 2 * pad : pad;
  }
  std::vector<Slab> slabs;
  const double before = std::max(space_, spec.before);
  space_ = 0;
  const bool kept = std::exchange(keepNext_, false);
  const SlabSink outer = std::exchange(sink_, [&slabs](Slab&& slab) { slabs.push_back(std::move(slab)); });
  afterParagraph_ = false;
  blocks(one.blocks, inner);
  sink_ = outer;
  keepNext_ = false;
  space_ = std::max(spec.after, slabs.empty() ? before : 0);
  if (slabs.empty()) return;

  const layout::RuleLine& line = layout_.rule(Place::notice);
  slabs.front().above = 0;
  if (box || spec.rules == NoticeRules::aboveBelow) {
    padAbove(slabs.front(), kNoticePad);
    slabs.back().height += kNoticePad;
    slabs.front().strokes.push_back({room.left, 0, room.width, false, line});
    slabs.back().strokes.push_back({room.left, slabs.back().height, room.width, false, line});
  }
  double height = 0;
  for (const Slab& slab : slabs) height += slab.above + slab.height;
  const bool whole = height < layout_.depth() / 3;
  for (std::size_t i = 0; i < slabs.size(); ++i) {
    Slab& slab = slabs[i];
    if (box || beside) {
      // The air between its lines belongs to the notice, so its side rule runs through it.
      padAbove(slab, std::exchange(slab.above, 0));
      slab.strokes.push_back({room.left, 0, slab.height, true, line});
      if (box) slab.strokes.push_back({room.left + room.width, 0, slab.height, true, line});
    }
    if (i > 0 && whole) slab.mayBreakBefore = false;
    if (i == 0) {
      slab.above = before;
      slab.mayBreakBefore = !kept;
    }
    sink_(std::move(slab));
  }
}

void BlockSetter::footnotes() {
  if (shared_.footnotes.empty()) return;
  const Style& style = layout_.style(Role::footnote);
  Slab line;
  line.height = 6;
  line.strokes.push_back({0, 0, layout_.measure() / 5, false, layout_.rule(Place::footnotes)});
  emit(std::move(line), 14);
  keepNext_ = true;
  Room room = whole();
  room.left = kListInset;
  room.width -= kListInset;
  // A note may hold a note, which is then the last.
  for (std::size_t i = 0; i < shared_.footnotes.size(); ++i) {
    const document::Inlines words = shared_.footnotes[i];
    afterParagraph_ = false;
    markers_ = {{std::to_string(i + 1), 0}};
    paragraph(words, room, style);
  }
}

}  // namespace saggar::render
