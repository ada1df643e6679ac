#include "render/pdf/setting.h"

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "base/utf8.h"
#include "document/address.h"

namespace saggar::render {
namespace {

using document::Inline;
using document::InlineKind;
using layout::Setting;

}  // namespace

void SetText::clear() {
  pieces.clear();
  lines.clear();
  anchors.clear();
}

TextSetter::TextSetter(FontSet& fonts, const layout::PageLayout& layout, Hyphenator& hyphenator,
                       Shared& shared)
    : fonts_(fonts), layout_(layout), hyphenator_(hyphenator), shared_(shared) {}

Fount& TextSetter::fount(const layout::Style& style, bool bold, bool italic) {
  // Emphasis in what is italic already is upright.
  const bool slanted = italic != style.italic;
  const bool heavy = bold || style.bold;
  const int place = (heavy ? 2 : 0) + (slanted ? 1 : 0);
  if (knownStyle_ != &style) {
    knownStyle_ = &style;
    std::fill(std::begin(known_), std::end(known_), nullptr);
  }
  if (!known_[place]) {
    FontSet::Look look;
    look.face = style.face;
    look.bold = heavy;
    look.italic = slanted;
    look.caps = style.caps;
    look.size = style.size;
    look.tracking = style.tracking;
    look.ink = style.ink;
    known_[place] = &fonts_.fount(look);
  }
  return *known_[place];
}

Fount& TextSetter::tickFount(const layout::Style& style) {
  if (tickStyle_ != &style) {
    FontSet::Look look;
    look.face = style.face;
    look.size = layout_.tick.size;
    look.raise = layout_.tick.raise;
    look.sign = layout_.tick.sign;
    tick_ = &fonts_.fount(look);
    tickStyle_ = &style;
  }
  return *tick_;
}

void TextSetter::addAtom(AtomKind kind, Fount& fount, const State& state) {
  const auto at = static_cast<std::uint32_t>(buffer_.size());
  atoms_.push_back({kind, state.struck, at, at, state.link, &fount});
}

void TextSetter::addMark(Fount& fount, std::string_view sign, const State& state) {
  addAtom(AtomKind::text, fount, state);
  buffer_ += sign;
  atoms_.back().end = static_cast<std::uint32_t>(buffer_.size());
}

void TextSetter::addWords(std::string_view text, Fount& fount, const State& state) {
  std::string mended;
  if (base::firstInvalidUtf8(text) != std::string_view::npos) {
    mended = base::sanitizedUtf8(text);
    text = mended;
  }
  bool inWord = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (base::isBlank(c)) {
      if (inWord || (!atoms_.empty() && atoms_.back().kind != AtomKind::space &&
                     atoms_.back().kind != AtomKind::forced))
        addAtom(AtomKind::space, fount, state);
      inWord = false;
      continue;
    }
    if (c == '\xC2' && i + 1 < text.size() && text[i + 1] == '\xAD') {
      addAtom(AtomKind::softHyphen, fount, state);
      inWord = false;
      ++i;
      continue;
    }
    if (c == '\xE2' && text.substr(i, 3) == "\xE2\x80\x8B") {
      addAtom(AtomKind::breakable, fount, state);
      inWord = false;
      i += 2;
      continue;
    }
    if (!inWord) addAtom(AtomKind::text, fount, state);
    inWord = true;
    if (static_cast<unsigned char>(c) < 0x20 || c == 0x7F) {
      fonts_.noteMissing(static_cast<unsigned char>(c));
      buffer_ += "\xEF\xBF\xBD";  // a control character is shown, never swallowed
    } else {
      buffer_ += c;
    }
    atoms_.back().end = static_cast<std::uint32_t>(buffer_.size());
  }
}

std::uint32_t TextSetter::linkTo(const document::Target& target) {
  const bool inside = target.address.empty() && (target.file.empty() || target.file == shared_.file);
  if (target.address.empty() ? !inside
                             : document::addressKind(target.address) != document::AddressKind::outside) {
    ++shared_.linksLeftOut;
    return kNoLink;
  }
  if (!shared_.targets.empty() && shared_.targets.back() == target)
    return static_cast<std::uint32_t>(shared_.targets.size() - 1);
  shared_.targets.push_back(target);
  return static_cast<std::uint32_t>(shared_.targets.size() - 1);
}

void TextSetter::flatten(const document::Inlines& inlines, const layout::Style& style, State state,
                         SetText* out) {
  for (const Inline& one : inlines) {
    State inner = state;
    switch (one.kind) {
      case InlineKind::text:
      case InlineKind::code: addWords(one.text, fount(style, state.bold, state.italic), state); break;
      case InlineKind::softBreak: addWords(" ", fount(style, state.bold, state.italic), state); break;
      case InlineKind::hardBreak:
        addAtom(AtomKind::forced, fount(style, state.bold, state.italic), state);
        break;
      case InlineKind::emphasis:
        inner.italic = !state.italic;
        flatten(one.children, style, inner, out);
        break;
      case InlineKind::strong:
        inner.bold = true;
        flatten(one.children, style, inner, out);
        break;
      case InlineKind::struck:
        inner.struck = true;
        flatten(one.children, style, inner, out);
        break;
      case InlineKind::link:
        if (out) inner.link = linkTo(one.target);
        flatten(one.children, style, inner, out);
        break;
      case InlineKind::image: addWords(one.text, fount(style, state.bold, !state.italic), state); break;
      case InlineKind::reference:
      case InlineKind::citation:
        if (one.children.empty())
          addWords(one.text, fount(style, state.bold, state.italic), state);
        else
          flatten(one.children, style, state, out);
        break;
      case InlineKind::index: flatten(one.children, style, state, out); break;
      case InlineKind::anchor:
        if (out) out->anchors.push_back(one.text);
        break;
      case InlineKind::tickBox: addMark(tickFount(style), layout_.tick.sign, state); break;
      case InlineKind::footnote: {
        if (out) shared_.footnotes.push_back(one.children);
        FontSet::Look look;
        look.face = style.face;
        look.size = style.size * 0.66;
        look.raise = style.size * 0.33;
        look.ink = style.ink;
        addMark(fonts_.fount(look), std::to_string(shared_.footnotes.size() + (out ? 0 : 1)), state);
        break;
      }
    }
  }
}

Widths TextSetter::measure(const document::Inlines& inlines, const layout::Style& style) {
  buffer_.clear();
  atoms_.clear();
  flatten(inlines, style, {}, nullptr);
  Widths out;
  double line = 0, word = 0;
  auto endWord = [&] {
    out.least = std::max(out.least, word);
    word = 0;
  };
  for (const Atom& atom : atoms_) {
    if (atom.kind == AtomKind::text) {
      const double width =
          atom.fount->word(std::string_view(buffer_).substr(atom.begin, atom.end - atom.begin)).width;
      line += width;
      word += width;
    } else if (atom.kind == AtomKind::space) {
      line += atom.fount->space();
      endWord();
    } else if (atom.kind == AtomKind::forced) {
      out.natural = std::max(out.natural, line);
      line = 0;
      endWord();
    }
  }
  endWord();
  out.natural = std::max(out.natural, line);
  return out;
}

void TextSetter::set(const document::Inlines& inlines, const layout::Style& style, double measure,
                     double firstIndent, SetText& out) {
  out.clear();
  buffer_.clear();
  atoms_.clear();
  flatten(inlines, style, {}, &out);
  while (!atoms_.empty() && atoms_.back().kind == AtomKind::space) atoms_.pop_back();
  if (atoms_.empty()) return;
  if (setOnOneLine(measure - firstIndent, style, out)) {
    out.lines.back().x += firstIndent;
    return;
  }
  makeItems(std::max(measure - firstIndent, 1.0), style.hyphenate, style);
  BreakSettings settings;
  settings.firstLine = std::max(measure - firstIndent, 1.0);
  settings.otherLines = measure;
  settings.tolerance = layout_.breaking.tolerance;
  if (style.align != Setting::justify) settings.ragged = std::max(style.size * 3, measure * 0.12);
  makeLines(breakLinesAnyhow(items_, settings), measure, firstIndent, style, out);
}

bool TextSetter::setOnOneLine(double measure, const layout::Style& style, SetText& out) {
  double width = 0;
  double gap = -1;
  for (const Atom& atom : atoms_) {
    switch (atom.kind) {
      case AtomKind::forced: out.pieces.clear(); return false;
      case AtomKind::space: gap = std::max(gap, 0.0) + atom.fount->space(); break;
      case AtomKind::text: {
        const Word& word =
            atom.fount->word(std::string_view(buffer_).substr(atom.begin, atom.end - atom.begin));
        out.pieces.push_back(
            {atom.fount, word.code, word.width, gap, atom.link, atom.struck, word.rightToLeft});
        width += word.width + std::max(gap, 0.0);
        gap = -1;
        break;
      }
      default: break;
    }
    if (width > measure + 0.01) {
      out.pieces.clear();
      return false;
    }
  }
  out.lines.push_back({0, static_cast<std::uint32_t>(out.pieces.size()), 0, width});
  align(out.lines.back(), out, measure, true, style.align);
  return true;
}

}  // namespace saggar::render
