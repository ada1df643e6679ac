#include "render/pdf/slab.h"

#include <cmath>

#include "render/pdf/operators.h"

namespace saggar::render {

void appendInk(std::string& out, const layout::Ink& ink, bool stroking) {
  appendNumber(out, ink.red);
  if (ink.red == ink.green && ink.green == ink.blue) {
    out += stroking ? " G " : " g ";
    return;
  }
  out += ' ';
  appendNumber(out, ink.green);
  out += ' ';
  appendNumber(out, ink.blue);
  out += stroking ? " RG " : " rg ";
}

void padAbove(Slab& slab, double space) {
  slab.height += space;
  slab.startY += space;
  slab.endY += space;
  for (Stroke& stroke : slab.strokes) stroke.y += space;
  for (LinkArea& link : slab.links) link.y += space;
}

SlabText::~SlabText() {
  close();
  slab_.endX = x_;
  slab_.endY = y_;
  slab_.last = fount_;
}

void SlabText::open() {
  if (inArray_) return;
  slab_.text += "[(";
  inArray_ = true;
}

void SlabText::close() {
  if (!inArray_) return;
  slab_.text += ")]TJ\n";
  inArray_ = false;
}

void SlabText::moveTo(double x, double y) {
  close();
  // Steps are rounded as they are written, and what was rounded away goes into the next.
  x = std::round(x * 100) / 100;
  y = std::round(y * 100) / 100;
  if (!moved_) {
    slab_.startX = x;
    slab_.startY = y;
    moved_ = true;
  } else {
    appendNumber(slab_.text, x - x_);
    slab_.text += ' ';
    appendNumber(slab_.text, y_ - y);
    slab_.text += " Td ";
  }
  x_ = x;
  y_ = y;
}

void SlabText::setFount(const Fount& fount) {
  if (fount_ == &fount) return;
  close();
  if (!fount_) {
    slab_.first = &fount;
  } else {
    if (fount_->font() != fount.font() || fount_->size() != fount.size()) {
      slab_.text += "/F";
      appendNumber(slab_.text, fount.font());
      slab_.text += ' ';
      appendNumber(slab_.text, fount.size());
      slab_.text += " Tf ";
    }
    if (fount_->raise() != fount.raise()) {
      appendNumber(slab_.text, fount.raise());
      slab_.text += " Ts ";
    }
    if (!(fount_->ink() == fount.ink())) appendInk(slab_.text, fount.ink(), false);
  }
  fount_ = &fount;
}

void SlabText::show(std::string_view code) {
  if (code.empty()) return;
  open();
  slab_.text += code;
}

void SlabText::skip(double thousandths) {
  const long long amount = std::llround(-thousandths);
  if (amount == 0) return;
  open();
  slab_.text += ')';
  appendNumber(slab_.text, static_cast<double>(amount));
  slab_.text += '(';
}

}  // namespace saggar::render
