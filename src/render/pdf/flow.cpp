#include "render/pdf/flow.h"

#include <utility>

#include "render/pdf/operators.h"

// Problem: a checklist has sixty thousand rows, and a good page break needs to see a little ahead but never
// the whole. Choice: whoever makes slabs marks where a page may end; a run between two such places is held
// until it is complete, and then goes on this page or the next as one. Memory is one run and one page;
// finished pages are being compressed meanwhile. Cost: pages are filled one by one, so a page may end a
// little short.
namespace saggar::render {
namespace {

constexpr double kSlack = 0.01;

}  // namespace

Flow::Flow(const layout::PageLayout& layout, Deflater& deflater) : layout_(layout), deflater_(deflater) {}

void Flow::add(Slab slab) {
  if (slab.mayBreakBefore && !held_.empty()) placeHeld();
  heldHeight_ += slab.height + (held_.empty() ? 0 : slab.above);
  held_.push_back(std::move(slab));
}

void Flow::finish() {
  if (!held_.empty()) placeHeld();
  if (open_ || pages_.empty()) {
    if (!open_) openPage();
    closePage();
  }
}

void Flow::placeHeld() {
  std::vector<Slab> run = std::exchange(held_, {});
  const double height = std::exchange(heldHeight_, 0);
  const double depth = layout_.depth();
  auto remaining = [&] { return depth - y_ - (empty_ ? 0 : run.front().above); };
  if (!open_) {
    openPage();
    repeatFrame(run.front());
  }
  if (height > remaining() + kSlack && !empty_) {
    closePage();
    openPage();
    repeatFrame(run.front());
  }
  if (height <= remaining() + kSlack) {
    for (const Slab& slab : run) place(slab, false);
    return;
  }
  // A run that no page holds is broken where it must be.
  for (const Slab& slab : run) {
    if (!empty_ && y_ + slab.above + slab.height > depth + kSlack) {
      closePage();
      openPage();
      repeatFrame(slab);
    }
    place(slab, false);
  }
}

void Flow::repeatFrame(const Slab& next) {
  if (!next.table || next.isTableHead) return;
  for (const Slab& head : next.table->head) place(head, true);
  if (next.group && !next.isGroupHead) place(next.table->continued(*next.group), true);
  if (next.isGroupHead) y_ += next.above / 3;  // less air than between groups, but some
  empty_ = true;
}

void Flow::openPage() {
  open_ = true;
  empty_ = true;
  y_ = 0;
  page_ = {};
  page_.section = section_;
  textX_ = textY_ = 0;
  font_ = 0;
  size_ = raise_ = 0;
  ink_ = {};
  rule_ = {};
}

void Flow::closePage() {
  std::string body = std::exchange(strokes_, {});
  if (!text_.empty()) {
    body += "BT\n";
    body += text_;
    body += "ET\n";
    text_.clear();
  }
  deflater_.add(std::move(body));
  pages_.push_back(std::exchange(page_, {}));
  open_ = false;
}

void Flow::place(const Slab& slab, bool isRepeated) {
  if (isRepeated ? y_ > 0 : !empty_) y_ += slab.above;
  if (!isRepeated) empty_ = false;
  const double left = layout_.left;
  const double top = layout_.pageHeight() - layout_.top - y_;
  const auto pageNumber = static_cast<std::uint32_t>(pages_.size());
  if (slab.first) {
    const Fount& first = *slab.first;
    if (first.font() != font_ || first.size() != size_) {
      text_ += "/F";
      appendNumber(text_, first.font());
      text_ += ' ';
      appendNumber(text_, first.size());
      text_ += " Tf ";
    }
    if (first.raise() != raise_) {
      appendNumber(text_, first.raise());
      text_ += " Ts ";
    }
    if (!(first.ink() == ink_)) appendInk(text_, first.ink(), false);
    appendNumber(text_, left + slab.startX - textX_);
    text_ += ' ';
    appendNumber(text_, top - slab.startY - textY_);
    text_ += " Td ";
    text_ += slab.text;
    textX_ = left + slab.endX;
    textY_ = top - slab.endY;
    font_ = slab.last->font();
    size_ = slab.last->size();
    raise_ = slab.last->raise();
    ink_ = slab.last->ink();
  }
  for (const Stroke& stroke : slab.strokes) {
    if (stroke.rule.weight <= 0 || stroke.length <= 0) continue;
    if (stroke.rule.weight != rule_.weight) {
      appendNumber(strokes_, stroke.rule.weight);
      strokes_ += " w ";
    }
    if (!(stroke.rule.ink == rule_.ink)) appendInk(strokes_, stroke.rule.ink, true);
    rule_ = stroke.rule;
    const double x = left + stroke.x, y = top - stroke.y;
    appendNumber(strokes_, x);
    strokes_ += ' ';
    appendNumber(strokes_, y);
    strokes_ += " m ";
    appendNumber(strokes_, stroke.upright ? x : x + stroke.length);
    strokes_ += ' ';
    appendNumber(strokes_, stroke.upright ? y - stroke.length : y);
    strokes_ += " l S\n";
  }
  for (const LinkArea& link : slab.links)
    page_.links.push_back(
        {left + link.x, top - link.y - link.height, left + link.x + link.width, top - link.y, link.target});
  if (!isRepeated) {
    for (const std::string& anchor : slab.anchors) anchors_.push_back({anchor, pageNumber, top});
    for (const OutlineMark& mark : slab.outline) outline_.push_back({mark, pageNumber, top});
  }
  if (slab.group && !slab.group->empty()) {
    if (page_.firstGroup.empty()) page_.firstGroup = *slab.group;
    page_.lastGroup = *slab.group;
  }
  if (slab.section) page_.section = section_ = *slab.section;
  y_ += slab.height;
}

}  // namespace saggar::render
