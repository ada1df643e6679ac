#include "render/pdf/furniture.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/text.h"
#include "render/pdf/operators.h"

namespace saggar::render {
namespace {

using layout::Role;
using layout::Style;

constexpr double kLargest = 1e6;      // a measure in which every running line fits
constexpr double kBetween = 14;       // between the parts of a running line
constexpr double kDraftShare = 0.55;  // of the page's diagonal

}  // namespace

Furniture::Furniture(const layout::PageLayout& layout, FontSet& fonts, TextSetter& texts,
                     const document::Document& head, std::size_t pages)
    : layout_(layout), texts_(texts), head_(head), pages_(pages) {
  if (head.draft) draftMark(fonts);
}

void Furniture::draftMark(FontSet& fonts) {
  const Style& style = layout_.style(Role::title);
  FontSet::Look look;
  look.face = style.face;
  look.size = 100;
  look.ink = layout_.draft.ink;
  Fount& fount = fonts.fount(look);
  std::string code;
  double width = 0;
  for (std::string_view word : base::split(layout_.draft.words, ' ')) {
    if (word.empty()) continue;
    if (!code.empty()) {
      code += fount.spaceCode();
      width += fount.spaceAdvance();
    }
    const Word& set = fount.word(word);
    code += set.code;
    width += set.width;
  }
  if (width <= 0) return;
  const double diagonal = std::hypot(layout_.pageWidth(), layout_.pageHeight());
  const double scale = std::min(diagonal * kDraftShare / width, 2.6);
  const double angle = layout_.draft.angle * std::numbers::pi / 180;
  const double along = width * scale / 2, up = fount.capHeight() * scale / 2;
  draft_ = "q ";
  appendInk(draft_, look.ink, false);
  draft_ += "BT /F";
  appendNumber(draft_, fount.font());
  draft_ += " 100 Tf ";
  for (const double value :
       {scale * std::cos(angle), scale * std::sin(angle), -scale * std::sin(angle), scale * std::cos(angle),
        layout_.pageWidth() / 2 - along * std::cos(angle) + up * std::sin(angle),
        layout_.pageHeight() / 2 - along * std::sin(angle) - up * std::cos(angle)}) {
    appendNumber(draft_, value);
    draft_ += ' ';
  }
  draft_ += "Tm [(" + code + ")]TJ ET Q\n";
}

std::string Furniture::filled(const std::string& words, const Page& page, std::size_t number) const {
  std::string out;
  for (std::size_t at = 0; at < words.size();) {
    const std::size_t close = words[at] == '{' ? words.find('}', at) : std::string::npos;
    if (close == std::string::npos) {
      out += words[at++];
      continue;
    }
    const std::string_view field = std::string_view(words).substr(at + 1, close - at - 1);
    at = close + 1;
    if (field == "title")
      out += head_.title;
    else if (field == "edition")
      out += head_.edition;
    else if (field == "authors")
      out += base::listedInWords(head_.authors);
    else if (field == "page")
      out += std::to_string(number + 1);
    else if (field == "pages")
      out += std::to_string(pages_);
    else if (field == "section")
      out += page.section;
    else if (field == "group")
      out += page.firstGroup == page.lastGroup ? page.firstGroup : page.firstGroup + " – " + page.lastGroup;
    else
      out += "{" + std::string(field) + "}";
  }
  return out;
}

Line Furniture::setShortened(std::string words, const Style& style, double most) {
  for (;;) {
    Style plain = style;
    plain.align = layout::Setting::left;
    SetText one;
    texts_.set({document::text(words)}, style, kLargest, 0, one);
    if (one.lines.empty()) return {};
    Line line = one.lines.front();
    line.x = 0;
    const std::size_t cut =
        words.find_last_of(' ', words.ends_with(" …") ? words.size() - 5 : std::string::npos);
    if (line.width <= most || cut == std::string::npos || cut == 0) {
      const auto shift = static_cast<std::uint32_t>(text_.pieces.size());
      text_.pieces.insert(text_.pieces.end(), one.pieces.begin(), one.pieces.end());
      line.begin += shift;
      line.end += shift;
      return line;
    }
    words.resize(cut);
    words += " …";
  }
}

void Furniture::runningLine(std::string& out, const layout::RunningLine& spec, Role role, layout::Place place,
                            double baseLine, const Page& page, std::size_t number) {
  if (number == 0 && !spec.onFirstPage) return;
  const Style& style = layout_.style(role);
  const double measure = layout_.measure();
  text_.clear();
  const Line right = setShortened(filled(spec.right, page, number), style, measure / 2);
  const Line centre = setShortened(filled(spec.centre, page, number), style, measure / 2);
  const double room = centre.width > 0 ? (measure - centre.width) / 2 : measure - right.width;
  const Line left = setShortened(filled(spec.left, page, number), style, std::max(room - kBetween, 0.0));
  Slab slab;
  {
    SlabText to(slab);
    if (left.width > 0) TextSetter::draw(text_, left, 0, 0, to, slab);
    if (centre.width > 0) TextSetter::draw(text_, centre, (measure - centre.width) / 2, 0, to, slab);
    if (right.width > 0) TextSetter::draw(text_, right, measure - right.width, 0, to, slab);
  }
  if (!slab.first) return;
  const layout::RuleLine& rule = layout_.rule(place);
  if (rule.weight > 0) {
    const double y = place == layout::Place::runningHead ? baseLine - 4 : baseLine + style.size + 2;
    appendNumber(out, rule.weight);
    out += " w ";
    appendInk(out, rule.ink, true);
    appendNumber(out, layout_.left);
    out += ' ';
    appendNumber(out, y);
    out += " m ";
    appendNumber(out, layout_.left + measure);
    out += ' ';
    appendNumber(out, y);
    out += " l S\n";
  }
  out += "BT ";
  appendInk(out, slab.first->ink(), false);
  out += "/F";
  appendNumber(out, slab.first->font());
  out += ' ';
  appendNumber(out, slab.first->size());
  out += " Tf ";
  appendNumber(out, layout_.left + slab.startX);
  out += ' ';
  appendNumber(out, baseLine);
  out += " Td " + slab.text + "ET\n";
}

std::string Furniture::draw(const Page& page, std::size_t number) {
  std::string inner;
  runningLine(inner, layout_.head, Role::runningHead, layout::Place::runningHead,
              layout_.pageHeight() - layout_.top + layout_.head.gap, page, number);
  runningLine(inner, layout_.foot, Role::runningFoot, layout::Place::runningFoot,
              layout_.bottom - layout_.foot.gap, page, number);
  std::string out = draft_;
  if (!inner.empty()) out += "q " + inner + "Q\n";
  return out;
}

}  // namespace saggar::render
