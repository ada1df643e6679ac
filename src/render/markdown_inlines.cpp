#include "render/markdown_inlines.h"

#include <algorithm>
#include <utility>

#include "base/utf8.h"
#include "document/address.h"
#include "render/markdown_emphasis.h"
#include "render/markdown_escape.h"

namespace saggar::render {
namespace {

using document::Inline;
using document::InlineKind;
using document::Inlines;
using Piece = MarkdownPiece;
using Pieces = MarkdownPieces;
using Kind = Piece::Kind;

// CommonMark: neither blanks, control characters nor angles; a reference would be read as what it stands for.
bool fitsInAngles(std::string_view address) {
  return std::all_of(address.begin(), address.end(), [](char c) {
    return static_cast<unsigned char>(c) > 0x20 && c != 0x7F && c != '<' && c != '>' && c != '&';
  });
}

class InlineWriter {
 public:
  InlineWriter(MarkdownPlace place, MarkdownFootnotes& footnotes, std::string_view ownFile)
      : place_(place), footnotes_(footnotes), ownFile_(ownFile) {}

  std::string write(const Inlines& inlines) {
    add(inlines, 0, false);
    settleLineEnds();
    joinWords();
    escapeWords();
    settleEmphasis(pieces_, groups_);
    std::string out;
    for (const Piece& piece : pieces_) out += piece.text;
    if (place_ == MarkdownPlace::cell) return withBarsEscaped(out);
    return out;
  }

 private:
  void addWords(std::string_view words, bool inBrackets) {
    if (words.empty()) return;
    pieces_.push_back({Kind::words, base::sanitizedUtf8(words), inBrackets});
  }
  void addSolid(std::string text, bool inBrackets) {
    if (!text.empty()) pieces_.push_back({Kind::solid, std::move(text), inBrackets});
  }

  void add(const Inlines& inlines, char parentSign, bool inBrackets) {
    for (const Inline& one : inlines) addOne(one, parentSign, inBrackets);
  }

  void addOne(const Inline& one, char parentSign, bool inBrackets) {
    switch (one.kind) {
      case InlineKind::text: addWords(one.text, inBrackets); break;
      case InlineKind::emphasis: addEmphasis(one, 1, parentSign, inBrackets); break;
      case InlineKind::strong: addEmphasis(one, 2, parentSign, inBrackets); break;
      case InlineKind::struck: addStruck(one, parentSign, inBrackets); break;
      case InlineKind::code: addCode(one.text, inBrackets); break;
      case InlineKind::softBreak: addLineEnd(Kind::softEnd, inBrackets); break;
      case InlineKind::hardBreak: addLineEnd(Kind::hardEnd, inBrackets); break;
      case InlineKind::link: addLink(one, parentSign, inBrackets); break;
      case InlineKind::image: addImage(one, inBrackets); break;
      case InlineKind::reference: addTyped(one, one.text, parentSign, inBrackets); break;
      case InlineKind::citation: addTyped(one, "source:" + one.text, parentSign, inBrackets); break;
      case InlineKind::index: add(one.children, parentSign, inBrackets); break;
      case InlineKind::anchor: addSolid(anchorTag(one.text), inBrackets); break;
      case InlineKind::tickBox: addWords("\xE2\x98\x90", inBrackets); break;
      case InlineKind::footnote:
        pieces_.push_back(
            {Kind::mark, "[^" + std::to_string(footnotes_.add(one.children)) + ']', inBrackets});
        break;
    }
  }

  void addLineEnd(Kind kind, bool inBrackets) {
    if (place_ == MarkdownPlace::paragraph) {
      pieces_.push_back({kind, kind == Kind::softEnd ? "\n" : "\\\n", inBrackets});
    } else if (kind == Kind::hardEnd && place_ == MarkdownPlace::cell && !pieces_.empty()) {
      const std::string& before = pieces_.back().text;
      const bool closed =
          before.empty() || std::string_view(".,;:!? ").find(before.back()) != std::string_view::npos;
      addWords(closed ? " " : "; ", inBrackets);
    } else {
      addWords(" ", inBrackets);
    }
  }

  void addCode(const std::string& words, bool inBrackets) {
    if (words.empty()) return;
    // A cell has no way to write a backslash before a bar inside code.
    if (place_ == MarkdownPlace::cell && words.find("\\|") != std::string::npos) {
      addWords(words, inBrackets);
    } else {
      pieces_.push_back({Kind::code, base::sanitizedUtf8(words), inBrackets});
    }
  }

  void addStruck(const Inline& one, char parentSign, bool inBrackets) {
    if (struck_) return add(one.children, parentSign, inBrackets);
    struck_ = true;
    surround(one.children, "~~", parentSign, inBrackets);
    struck_ = false;
  }

  void addEmphasis(const Inline& one, std::size_t length, char parentSign, bool inBrackets) {
    char sign = parentSign == '*' ? '_' : '*';
    const bool touches = !pieces_.empty() && pieces_.back().kind == Kind::close &&
                         pieces_.back().text[0] == sign && !beginsBlank(one.children);
    const char other = sign == '*' ? '_' : '*';
    if (touches && other != parentSign) sign = other;
    if (touches && other == parentSign && pieces_.back().text.size() != length) {
      return add(one.children, parentSign, inBrackets);  // no third sign could stand here
    }
    surround(one.children, std::string(length, sign), sign, inBrackets);
  }

  static bool beginsBlank(const Inlines& inlines) {
    if (inlines.empty()) return false;
    const Inline& first = inlines[0];
    if (first.kind == InlineKind::softBreak || first.kind == InlineKind::hardBreak) return true;
    if (first.kind == InlineKind::text) return leadingBlanks(first.text) > 0;
    const bool surrounds = first.kind == InlineKind::emphasis || first.kind == InlineKind::strong ||
                           first.kind == InlineKind::struck || first.kind == InlineKind::index;
    return surrounds && beginsBlank(first.children);
  }

  void surround(const Inlines& children, const std::string& signs, char inner, bool inBrackets) {
    // Two of a kind that touch become one: nothing can stand between their signs.
    const bool goesOn = !pieces_.empty() && pieces_.back().kind == Kind::close &&
                        pieces_.back().text == signs && !beginsBlank(children);
    const int group = goesOn ? pieces_.back().group : ++groups_;
    if (goesOn) {
      pieces_.pop_back();
    } else {
      pieces_.push_back({Kind::open, signs, inBrackets, group, levels_ >= 2});
    }
    const std::size_t first = pieces_.size();
    ++levels_;
    add(children, inner, inBrackets);
    --levels_;
    close(goesOn ? first : blanksMovedBefore(first), {Kind::close, signs, inBrackets, group});
  }

  // Lets the sign that stands before the piece `first` change places with the blanks and line ends behind it.
  std::size_t blanksMovedBefore(std::size_t first) {
    while (first < pieces_.size()) {
      Piece& piece = pieces_[first];
      const std::size_t blanks = piece.kind == Kind::words ? leadingBlanks(piece.text) : 0;
      if (!isLineEnd(piece) && blanks == 0) break;
      const bool part = !isLineEnd(piece) && blanks < piece.text.size();
      if (part) {
        Piece moved{Kind::words, piece.text.substr(0, blanks), piece.inBrackets};
        piece.text.erase(0, blanks);
        pieces_.insert(pieces_.begin() + static_cast<std::ptrdiff_t>(first) - 1, std::move(moved));
      } else {
        std::swap(pieces_[first - 1], pieces_[first]);
      }
      ++first;
      if (part) break;
    }
    return first;
  }

  // Puts the closing sign before the blanks and line ends at the end, or takes the opening one away if
  // nothing else is left.
  void close(std::size_t first, Piece sign) {
    Pieces behind;
    while (pieces_.size() > first) {
      Piece& piece = pieces_.back();
      const std::size_t blanks = piece.kind == Kind::words ? trailingBlanks(piece.text) : 0;
      if (!isLineEnd(piece) && blanks < piece.text.size()) {
        if (blanks > 0) {
          behind.push_back({Kind::words, piece.text.substr(piece.text.size() - blanks), piece.inBrackets});
          piece.text.resize(piece.text.size() - blanks);
        }
        break;
      }
      behind.push_back(std::move(piece));
      pieces_.pop_back();
    }
    if (!pieces_.empty() && pieces_.back().kind == Kind::open && pieces_.back().group == sign.group) {
      pieces_.pop_back();
    } else {
      pieces_.push_back(std::move(sign));
    }
    pieces_.insert(pieces_.end(), std::make_move_iterator(behind.rbegin()),
                   std::make_move_iterator(behind.rend()));
  }

  std::string addressOf(const document::Target& target) const {
    if (!target.address.empty()) return target.address;
    std::string out = target.file.empty() || target.file == ownFile_ ? "" : target.file + ".md";
    if (!target.anchor.empty()) out += '#' + target.anchor;
    return out;
  }

  void addLink(const Inline& one, char parentSign, bool inBrackets) {
    const std::string address = addressOf(one.target);
    if (inBrackets || document::addressKind(address) == document::AddressKind::unsafe) {
      return add(one.children, parentSign, inBrackets);
    }
    if (one.text.empty() && one.children.size() == 1 && one.children[0].kind == InlineKind::text) {
      const std::string& words = one.children[0].text;
      const bool plain = fitsInAngles(words) && words.find('\\') == std::string::npos;
      const bool web = address.starts_with("http://") || address.starts_with("https://");
      if (plain && words == address && web) return addSolid('<' + address + '>', inBrackets);
    }
    addBracketed(one.children, address, one.text, parentSign);
  }

  void addBracketed(const Inlines& words, const std::string& address, const std::string& title,
                    char parentSign) {
    addSolid("[", false);
    add(words, parentSign, true);
    std::string end = "](" + markdownDestination(base::sanitizedUtf8(address));
    if (!title.empty()) end += (address.empty() ? "<> " : " ") + markdownTitle(base::sanitizedUtf8(title));
    addSolid(end + ')', false);
  }

  void addTyped(const Inline& one, const std::string& address, char parentSign, bool inBrackets) {
    const bool short_ = one.children.empty() && fitsInAngles(address);
    if (inBrackets) {
      one.children.empty() ? addWords(address, inBrackets) : add(one.children, parentSign, inBrackets);
    } else if (short_) {
      addSolid('<' + base::sanitizedUtf8(address) + '>', inBrackets);
    } else {
      addBracketed(one.children, address, {}, parentSign);
    }
  }

  void addImage(const Inline& one, bool inBrackets) {
    const std::string address = addressOf(one.target);
    if (document::addressKind(address) == document::AddressKind::unsafe)
      return addWords(one.text, inBrackets);
    addSolid("![", inBrackets);
    addWords(one.text, true);
    std::string end = "](" + markdownDestination(base::sanitizedUtf8(address));
    const std::string title = document::plainText(one.children);
    if (!title.empty()) end += (address.empty() ? "<> " : " ") + markdownTitle(base::sanitizedUtf8(title));
    addSolid(end + ')', inBrackets);
  }

  // No line end at either end, and only one between two lines unless each is a forced one.
  void settleLineEnds() {
    Pieces kept;
    for (Piece& piece : pieces_) {
      if (isLineEnd(piece)) {
        if (kept.empty()) continue;
        if (piece.kind == Kind::softEnd && isLineEnd(kept.back())) continue;
        if (piece.kind == Kind::hardEnd && kept.back().kind == Kind::softEnd) kept.pop_back();
      }
      kept.push_back(std::move(piece));
    }
    while (!kept.empty() && isLineEnd(kept.back())) kept.pop_back();
    pieces_ = std::move(kept);
  }

  void joinWords() {
    Pieces kept;
    for (Piece& piece : pieces_) {
      const bool joins = (piece.kind == Kind::words || piece.kind == Kind::code) && !kept.empty() &&
                         kept.back().kind == piece.kind && kept.back().inBrackets == piece.inBrackets;
      if (joins) {
        kept.back().text += piece.text;
      } else {
        kept.push_back(std::move(piece));
      }
    }
    pieces_ = std::move(kept);
  }

  void escapeWords() {
    const bool paragraph = place_ == MarkdownPlace::paragraph;
    for (std::size_t i = 0; i < pieces_.size(); ++i) {
      Piece& piece = pieces_[i];
      if (piece.kind == Kind::code) piece.text = markdownCode(piece.text);
      if (piece.kind != Kind::words) continue;
      const Piece* before = i > 0 ? &pieces_[i - 1] : nullptr;
      const Piece* after = i + 1 < pieces_.size() ? &pieces_[i + 1] : nullptr;
      Surroundings around;
      // Nothing begins a block inside a heading or cell; only blanks need care there.
      const bool first = before == nullptr || isLineEnd(*before);
      around.lineStart = first && (paragraph || leadingBlanks(piece.text) > 0);
      around.lineEnd = after == nullptr || isLineEnd(*after);
      around.inBrackets = piece.inBrackets;
      around.heading = place_ == MarkdownPlace::heading && after == nullptr;
      around.afterMark = before != nullptr && before->kind == Kind::mark;
      around.beforeBracket = after != nullptr && after->text[0] == '[';
      piece.text = escapedMarkdown(piece.text, around);
    }
  }

  static std::string withBarsEscaped(const std::string& cell) {
    std::string out;
    for (char c : cell) {
      if (c == '|') out += '\\';
      out += c;
    }
    return out;
  }

  MarkdownPlace place_;
  MarkdownFootnotes& footnotes_;
  std::string_view ownFile_;
  Pieces pieces_;
  int groups_ = 0;
  int levels_ = 0;
  bool struck_ = false;
};

}  // namespace

std::string markdownInlines(const Inlines& inlines, MarkdownPlace place, MarkdownFootnotes& footnotes,
                            std::string_view ownFile) {
  return InlineWriter(place, footnotes, ownFile).write(inlines);
}

}  // namespace saggar::render
