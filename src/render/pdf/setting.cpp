#include "render/pdf/setting.h"

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "base/utf8.h"

namespace saggar::render {
namespace {

using document::Inline;
using document::InlineKind;
using layout::Setting;

constexpr double kAfterHyphen = 50;    // breaking "rose-pink" after its own hyphen
constexpr double kAfterSlash = 300;    // in a code, only if it must be
constexpr double kAnywhere = 3000;     // between any two letters of what is wider than the line
constexpr double kSpaceStretch = 0.5;  // shares of the blank
constexpr double kSpaceShrink = 0.25;

bool isAsciiLetter(char c) {
  return base::isLower(c) || base::isUpper(c);
}

bool mayPassOn(const std::string& address) {
  return address.starts_with("https://") || address.starts_with("http://") || address.starts_with("mailto:");
}

bool breaksAfter(std::string_view text, std::size_t at) {
  // An em dash, an en dash or a hyphen between letters.
  if (text.substr(0, at).ends_with("—") || text.substr(0, at).ends_with("–")) return true;
  return at >= 2 && at < text.size() && text[at - 1] == '-' && isAsciiLetter(text[at - 2]) &&
         isAsciiLetter(text[at]);
}

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
  if (target.address.empty() ? !inside : !mayPassOn(target.address)) {
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
      case InlineKind::code:
        addWords(one.text, fount(style, state.bold, state.italic), state);
        break;
      case InlineKind::softBreak:
        addWords(" ", fount(style, state.bold, state.italic), state);
        break;
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
      case InlineKind::image:
        addWords(one.text, fount(style, state.bold, !state.italic), state);
        break;
      case InlineKind::reference:
      case InlineKind::citation:
        if (one.children.empty())
          addWords(one.text, fount(style, state.bold, state.italic), state);
        else
          flatten(one.children, style, state, out);
        break;
      case InlineKind::index:
        flatten(one.children, style, state, out);
        break;
      case InlineKind::anchor:
        if (out) out->anchors.push_back(one.text);
        break;
      case InlineKind::tickBox:
        addMark(tickFount(style), layout_.tick.sign, state);
        break;
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
      case AtomKind::forced:
        out.pieces.clear();
        return false;
      case AtomKind::space:
        gap = std::max(gap, 0.0) + atom.fount->space();
        break;
      case AtomKind::text: {
        const Word& word =
            atom.fount->word(std::string_view(buffer_).substr(atom.begin, atom.end - atom.begin));
        out.pieces.push_back({atom.fount, word.code, word.width, gap, atom.link, atom.struck});
        width += word.width + std::max(gap, 0.0);
        gap = -1;
        break;
      }
      default:
        break;
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

void TextSetter::cut(std::uint32_t atom, std::size_t at, double penalty, bool hyphen, double hyphenWidth) {
  items_.push_back(LineItem::breakHere(hyphen ? hyphenWidth : 0, penalty, hyphen));
  parts_.push_back({atom, static_cast<std::uint32_t>(at), static_cast<std::uint32_t>(at), hyphen});
}

void TextSetter::addWordItems(std::uint32_t index, double measure, bool hyphenate) {
  const Atom& atom = atoms_[index];
  const std::string_view text = std::string_view(buffer_).substr(atom.begin, atom.end - atom.begin);
  const double width = atom.fount->word(text).width;
  struct Cut {
    std::size_t at;
    double penalty;
    bool hyphen;
  };
  std::vector<Cut> cuts;
  const bool tooWide = width > measure;
  if (hyphenate || tooWide)
    for (const std::uint16_t at : hyphenator_.points(text))
      cuts.push_back({at, layout_.breaking.hyphenPenalty, true});
  for (std::size_t at = 1; at < text.size(); ++at)
    if ((text[at - 1] == '-' || text[at - 1] == '\x94' || text[at - 1] == '\x93') && breaksAfter(text, at))
      cuts.push_back({at, kAfterHyphen, true});
  const bool needsStops = !cuts.empty() || tooWide;
  if (!needsStops) {
    items_.push_back(LineItem::box(width));
    parts_.push_back({index, 0, static_cast<std::uint32_t>(text.size()), false});
    return;
  }
  atom.fount->stops(text, stops_);
  if (tooWide) {
    for (const Stop& stop : stops_) {
      if (stop.bytes == 0 || stop.bytes >= text.size()) continue;
      const char before = text[stop.bytes - 1];
      const bool seam = before == '/' || before == '-' || before == '.' || before == ',' || before == '_';
      cuts.push_back({stop.bytes, seam ? kAfterSlash : kAnywhere, false});
    }
  }
  std::stable_sort(cuts.begin(), cuts.end(), [](const Cut& a, const Cut& b) { return a.at < b.at; });
  const double hyphenWidth = atom.fount->word("-").width;
  std::size_t done = 0;
  double doneWidth = 0;
  std::size_t stop = 0;
  for (const Cut& one : cuts) {
    if (one.at <= done || one.at >= text.size()) continue;
    while (stop < stops_.size() && stops_[stop].bytes < one.at) ++stop;
    if (stop == stops_.size() || stops_[stop].bytes != one.at) continue;  // inside a ligature
    items_.push_back(LineItem::box(stops_[stop].width - doneWidth));
    parts_.push_back({index, static_cast<std::uint32_t>(done), static_cast<std::uint32_t>(one.at), false});
    const bool ownHyphen = one.hyphen && breaksAfter(text, one.at);
    cut(index, one.at, one.penalty, one.hyphen && !ownHyphen, hyphenWidth);
    items_.back().flagged = one.hyphen;
    done = one.at;
    doneWidth = stops_[stop].width;
  }
  items_.push_back(LineItem::box(width - doneWidth));
  parts_.push_back({index, static_cast<std::uint32_t>(done), static_cast<std::uint32_t>(text.size()), false});
}

void TextSetter::makeItems(double measure, bool hyphenate, const layout::Style& style) {
  items_.clear();
  parts_.clear();
  const bool filled = style.align == Setting::justify;
  for (std::uint32_t i = 0; i < atoms_.size(); ++i) {
    const Atom& atom = atoms_[i];
    switch (atom.kind) {
      case AtomKind::text:
        addWordItems(i, measure, hyphenate);
        break;
      case AtomKind::space: {
        const double space = atom.fount->space();
        items_.push_back(filled ? LineItem::glue(space, space * kSpaceStretch, space * kSpaceShrink)
                                : LineItem::glue(space, 0, 0));
        parts_.push_back({i, 0, 0, false});
        break;
      }
      case AtomKind::breakable:
        cut(i, 0, 0, false, 0);
        break;
      case AtomKind::softHyphen:
        cut(i, 0, layout_.breaking.hyphenPenalty, true, atom.fount->word("-").width);
        break;
      case AtomKind::forced:
        items_.push_back(LineItem::box(0));  // so that an empty line is a line
        items_.push_back(LineItem::glue(0, LineItem::kFill, 0));
        parts_.insert(parts_.end(), 2, {i, 0, 0, false});
        cut(i, 0, LineItem::kForced, false, 0);
        break;
    }
  }
  const auto last = static_cast<std::uint32_t>(atoms_.size() - 1);
  cut(last, 0, LineItem::kNever, false, 0);
  items_.push_back(LineItem::glue(0, LineItem::kFill, 0));
  parts_.push_back({last, 0, 0, false});
  cut(last, 0, LineItem::kForced, false, 0);
}

void TextSetter::makeLines(const Breaks& breaks, double measure, double firstIndent,
                           const layout::Style& style, SetText& out) {
  std::size_t from = 0;
  std::string piece;
  for (std::size_t number = 0; number < breaks.at.size(); ++number) {
    const std::size_t to = breaks.at[number];
    while (from < to && items_[from].kind != LineItem::Kind::box &&
           !(items_[from].kind == LineItem::Kind::penalty && items_[from].penalty <= LineItem::kForced))
      ++from;
    Line line;
    line.begin = static_cast<std::uint32_t>(out.pieces.size());
    double gap = -1;
    bool filled = false;
    for (std::size_t i = from; i < to;) {
      if (items_[i].kind == LineItem::Kind::glue) {
        if (items_[i].stretch >= LineItem::kFill)
          filled = true;
        else
          gap = std::max(gap, 0.0) + items_[i].width;
      }
      if (items_[i].kind != LineItem::Kind::box) {
        ++i;
        continue;
      }
      const Atom& atom = atoms_[parts_[i].atom];
      if (atom.kind != AtomKind::text) {
        ++i;
        continue;
      }
      const std::uint32_t begin = parts_[i].begin;
      std::uint32_t end = parts_[i].end;
      std::size_t next = i + 1;
      while (next < to && parts_[next].atom == parts_[i].atom && items_[next].kind != LineItem::Kind::glue) {
        if (items_[next].kind == LineItem::Kind::box) end = parts_[next].end;
        ++next;
      }
      piece.assign(buffer_, atom.begin + begin, end - begin);
      const bool lastOfLine =
          std::none_of(items_.begin() + static_cast<std::ptrdiff_t>(next),
                       items_.begin() + static_cast<std::ptrdiff_t>(to),
                       [](const LineItem& one) { return one.kind == LineItem::Kind::box; });
      if (lastOfLine && parts_[to].hyphen) piece += '-';
      const Word& word = atom.fount->word(piece);
      out.pieces.push_back({atom.fount, word.code, word.width, out.pieces.size() == line.begin ? -1 : gap,
                            atom.link, atom.struck});
      gap = -1;
      i = next;
    }
    line.end = static_cast<std::uint32_t>(out.pieces.size());
    const double indent = number == 0 ? firstIndent : 0;
    const bool last = filled || number + 1 == breaks.at.size() || items_[to].penalty <= LineItem::kForced;
    align(line, out, measure - indent, last, style.align);
    line.x += indent;
    out.lines.push_back(line);
    from = to + 1;
  }
}

void TextSetter::align(Line& line, SetText& out, double measure, bool last, Setting setting) const {
  double width = 0;
  int gaps = 0;
  for (std::uint32_t i = line.begin; i < line.end; ++i) {
    width += out.pieces[i].width;
    if (out.pieces[i].gap >= 0) {
      width += out.pieces[i].gap;
      ++gaps;
    }
  }
  const double room = measure - width;
  if (gaps > 0 && ((setting == Setting::justify && !last) || room < 0)) {
    // Shrinking beyond reason would run words into each other: then the line sticks out.
    double each = room / gaps;
    for (std::uint32_t i = line.begin; i < line.end; ++i) {
      double& gap = out.pieces[i].gap;
      if (gap < 0) continue;
      const double now = std::max(gap + each, gap * 0.6);
      width += now - gap;
      gap = now;
    }
  } else if (setting == Setting::right) {
    line.x = std::max(room, 0.0);
  } else if (setting == Setting::centre) {
    line.x = std::max(room / 2, 0.0);
  }
  line.width = width;
}

void TextSetter::draw(const SetText& text, const Line& line, double x, double y, SlabText& to, Slab& slab) {
  double at = x + line.x;
  bool first = true;
  for (std::uint32_t i = line.begin; i < line.end; ++i) {
    const Piece& piece = text.pieces[i];
    const Piece* before = i > line.begin ? &text.pieces[i - 1] : nullptr;
    to.setFount(*piece.fount);
    if (first) to.moveTo(at, y);
    first = false;
    const bool joined = before && before->link == piece.link && before->struck == piece.struck;
    if (piece.gap >= 0) {
      to.show(piece.fount->spaceCode());
      to.skip((piece.gap - piece.fount->spaceAdvance()) / piece.fount->size() * 1000);
      at += piece.gap;
    }
    to.show(piece.code);
    const double covered = piece.width + (joined && piece.gap > 0 ? piece.gap : 0);
    const double from = at - (covered - piece.width);
    if (piece.link != kNoLink) {
      LinkArea area{from, y - piece.fount->size() * 0.8, covered, piece.fount->size() * 1.1, piece.link};
      if (joined && !slab.links.empty() && slab.links.back().target == piece.link &&
          slab.links.back().y == area.y)
        slab.links.back().width += covered;
      else
        slab.links.push_back(area);
    }
    if (piece.struck)
      slab.strokes.push_back(
          {from, y - piece.fount->capHeight() * 0.4, covered, false, {0.5, piece.fount->ink()}});
    at += piece.width;
  }
}

}  // namespace saggar::render
