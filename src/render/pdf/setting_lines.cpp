#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "render/pdf/setting.h"

// From words to what may be broken, and from breaks to lines (see setting.cpp for what comes before).
namespace saggar::render {
namespace {

using layout::Setting;

constexpr double kAfterHyphen = 50;    // breaking "rose-pink" after its own hyphen
constexpr double kAfterSlash = 300;    // in a code, only if it must be
constexpr double kAnywhere = 3000;     // between any two letters of what is wider than the line
constexpr double kSpaceStretch = 0.5;  // shares of the blank
constexpr double kSpaceShrink = 0.25;

bool isAsciiLetter(char c) {
  return base::isLower(c) || base::isUpper(c);
}

bool breaksAfter(std::string_view text, std::size_t at) {
  // An em dash, an en dash or a hyphen between letters.
  if (text.substr(0, at).ends_with("—") || text.substr(0, at).ends_with("–")) return true;
  return at >= 2 && at < text.size() && text[at - 1] == '-' && isAsciiLetter(text[at - 2]) &&
         isAsciiLetter(text[at]);
}

}  // namespace

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
      case AtomKind::text: addWordItems(i, measure, hyphenate); break;
      case AtomKind::space: {
        const double space = atom.fount->space();
        items_.push_back(filled ? LineItem::glue(space, space * kSpaceStretch, space * kSpaceShrink)
                                : LineItem::glue(space, 0, 0));
        parts_.push_back({i, 0, 0, false});
        break;
      }
      case AtomKind::breakable: cut(i, 0, 0, false, 0); break;
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
                            atom.link, atom.struck, word.rightToLeft});
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

// Neighbouring words that run from right to left follow each other in that direction too. (Of the bidirectional
// algorithm, Unicode Standard Annex 9, this is what a name or a title inside English text needs.)
void TextSetter::turnRightToLeft(const Line& line, SetText& out) {
  for (std::uint32_t i = line.begin; i < line.end; ++i) {
    if (!out.pieces[i].rightToLeft) continue;
    std::uint32_t end = i + 1;
    while (end < line.end && out.pieces[end].rightToLeft) ++end;
    // The gaps stay between the same words: the one before the run stays before it, the others turn with the words.
    const double before = out.pieces[i].gap;
    std::reverse(out.pieces.begin() + i, out.pieces.begin() + end);
    for (std::uint32_t k = end - 1; k > i; --k) out.pieces[k].gap = out.pieces[k - 1].gap;
    out.pieces[i].gap = before;
    i = end - 1;
  }
}

void TextSetter::align(Line& line, SetText& out, double measure, bool last, Setting setting) const {
  turnRightToLeft(line, out);
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
