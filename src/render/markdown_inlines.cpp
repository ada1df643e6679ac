#include "render/markdown_inlines.h"

#include <unicode/uchar.h>

#include <algorithm>
#include <optional>
#include <utility>

#include "base/text.h"
#include "base/utf8.h"
#include "document/address.h"
#include "render/markdown_escape.h"

// Emphasis in Markdown is guessed from the characters on both sides of a `*` or `_` (CommonMark 0.29,
// section 6.4), so a tree cannot simply be written down: "un*(believ)*able" is no emphasis. Here the inlines
// become a row of pieces; levels of emphasis take `*` and `_` in turn, blanks move out of them, and where the
// characters on the two sides still forbid it, the neighbouring letter is written as a character reference,
// which counts as punctuation. The cost is an unsightly `&#110;` in a case that prose hardly ever has; where
// even that does not help, the innermost emphasis goes and its words stay.
namespace saggar::render {
namespace {

using document::Inline;
using document::InlineKind;
using document::Inlines;

struct Piece {
  enum class Kind { words, code, solid, mark, open, close, softEnd, hardEnd };
  Kind kind = Kind::words;
  std::string text{};       // words and code: not yet escaped; everything else: as it is written
  bool inBrackets = false;  // words between the brackets of a link
  int group = 0;            // open and close of one emphasis share it
  bool inner = false;       // an emphasis within two others
};
using Kind = Piece::Kind;
using Pieces = std::vector<Piece>;

bool isLineEnd(const Piece& piece) {
  return piece.kind == Kind::softEnd || piece.kind == Kind::hardEnd;
}

enum class Sort { blank, punctuation, other };

// As the parser sorts characters: Unicode blanks, ASCII signs and Unicode punctuation, the rest.
Sort sortOf(char32_t c) {
  if (c < 0x80) {
    const char ascii = static_cast<char>(c);
    if (base::isBlank(ascii) || ascii == '\f' || ascii == '\v') return Sort::blank;
    return u_ispunct(static_cast<UChar32>(c)) ||
                   std::string_view("$+<=>^`|~").find(ascii) != std::string_view::npos
               ? Sort::punctuation
               : Sort::other;
  }
  if (u_charType(static_cast<UChar32>(c)) == U_SPACE_SEPARATOR) return Sort::blank;
  return u_ispunct(static_cast<UChar32>(c)) ? Sort::punctuation : Sort::other;
}

char32_t firstOf(std::string_view text) {
  std::size_t at = 0;
  return text.empty() ? U' ' : base::nextCodePoint(text, at);
}

std::size_t lastStart(std::string_view text) {
  std::size_t at = text.size() - 1;
  while (at > 0 && (static_cast<unsigned char>(text[at]) & 0xC0) == 0x80) --at;
  return at;
}

char32_t lastOf(std::string_view text) {
  if (text.empty()) return U' ';
  std::size_t at = lastStart(text);
  return base::nextCodePoint(text, at);
}

std::string reference(char32_t c) {
  return "&#" + std::to_string(static_cast<std::uint32_t>(c)) + ';';
}

// How many bytes of blanks begin or end the words.
std::size_t leadingBlanks(std::string_view words) {
  std::size_t at = 0;
  while (at < words.size()) {
    std::size_t next = at;
    if (sortOf(base::nextCodePoint(words, next)) != Sort::blank) break;
    at = next;
  }
  return at;
}

std::size_t trailingBlanks(std::string_view words) {
  std::size_t end = words.size();
  while (end > 0 && sortOf(lastOf(words.substr(0, end))) == Sort::blank)
    end = lastStart(words.substr(0, end));
  return words.size() - end;
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
    settleEmphasis();
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
      case InlineKind::text:
        addWords(one.text, inBrackets);
        break;
      case InlineKind::emphasis:
        addEmphasis(one, 1, parentSign, inBrackets);
        break;
      case InlineKind::strong:
        addEmphasis(one, 2, parentSign, inBrackets);
        break;
      case InlineKind::struck:
        addStruck(one, parentSign, inBrackets);
        break;
      case InlineKind::code:
        addCode(one.text, inBrackets);
        break;
      case InlineKind::softBreak:
        addLineEnd(Kind::softEnd, inBrackets);
        break;
      case InlineKind::hardBreak:
        addLineEnd(Kind::hardEnd, inBrackets);
        break;
      case InlineKind::link:
        addLink(one, parentSign, inBrackets);
        break;
      case InlineKind::image:
        addImage(one, inBrackets);
        break;
      case InlineKind::reference:
        addTyped(one, one.text, parentSign, inBrackets);
        break;
      case InlineKind::citation:
        addTyped(one, "source:" + one.text, parentSign, inBrackets);
        break;
      case InlineKind::index:
        add(one.children, parentSign, inBrackets);
        break;
      case InlineKind::anchor:
        addSolid(anchorTag(one.text), inBrackets);
        break;
      case InlineKind::tickBox:
        addWords("\xE2\x98\x90", inBrackets);
        break;
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
      const bool plain = words.find_first_of(" \t\r\n<>&\\") == std::string::npos;
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
    const bool short_ = one.children.empty() && address.find_first_of(" \t\r\n<>&") == std::string::npos;
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
      around.lineStart = before == nullptr || isLineEnd(*before);
      around.lineEnd = after == nullptr || isLineEnd(*after);
      around.inBrackets = piece.inBrackets;
      around.heading = place_ == MarkdownPlace::heading && after == nullptr;
      around.afterMark = before != nullptr && before->kind == Kind::mark;
      around.beforeBracket = after != nullptr && after->text[0] == '[';
      std::string escaped = escapedMarkdown(piece.text, around);
      if (!paragraph && around.lineStart && escaped.size() > piece.text.size()) {
        // Nothing begins a block inside a heading or cell; only blanks need care there.
        around.lineStart = false;
        escaped = base::isBlank(piece.text[0]) ? escaped : escapedMarkdown(piece.text, around);
      }
      piece.text = std::move(escaped);
    }
  }

  // Openers are settled from the last to the first and closers the other way, because each may change the
  // letter that the next one looks at. An emphasis that is taken out lets its neighbours see other letters:
  // then once more.
  void settleEmphasis() {
    if (groups_ == 0) return;
    for (int round = 0; round < 8; ++round) {
      for (std::size_t i = pieces_.size(); i-- > 0;) {
        if (pieces_[i].kind == Kind::open && !pieces_[i].text.empty()) settleOpen(i);
      }
      for (std::size_t i = 0; i < pieces_.size(); ++i) {
        if (pieces_[i].kind == Kind::close && !pieces_[i].text.empty()) settleClose(i);
      }
      if (!takeOutHopeless(false)) return;
    }
    takeOutHopeless(true);
  }

  // Of three levels the innermost has the sign of the outermost; with punctuation on both sides it would
  // close that.
  bool takeOutHopeless(bool all) {
    std::vector<char> opened;
    std::vector<bool> gone(static_cast<std::size_t>(groups_) + 1);
    bool any = false;
    for (std::size_t i = 0; i < pieces_.size(); ++i) {
      Piece& piece = pieces_[i];
      if ((piece.kind != Kind::open && piece.kind != Kind::close) || piece.text.empty()) continue;
      const std::size_t group = static_cast<std::size_t>(piece.group);
      if (piece.kind == Kind::close) {
        if (gone[group]) {
          piece.text.clear();
        } else {
          opened.pop_back();
        }
        continue;
      }
      const char sign = piece.text[0];
      const bool nested = std::find(opened.begin(), opened.end(), sign) != opened.end();
      if (all ||
          (nested && sortBefore(before(i)) != Sort::blank && sortAfter(after(i)) == Sort::punctuation)) {
        gone[group] = any = true;
        piece.text.clear();
      } else {
        opened.push_back(sign);
      }
    }
    return any;
  }

  // The piece whose character the parser looks at beside a sign: for `*` and `_` it looks through `~~`.
  bool isSeenThrough(const Piece& piece, char sign) const {
    const bool struck = piece.kind != Kind::words && piece.text == "~~";
    return piece.text.empty() || (struck && sign != '~');
  }
  std::optional<std::size_t> before(std::size_t i) const {
    const char sign = pieces_[i].text[0];
    while (i > 0) {
      if (!isSeenThrough(pieces_[--i], sign)) return i;
    }
    return std::nullopt;
  }
  std::optional<std::size_t> after(std::size_t i) const {
    const char sign = pieces_[i].text[0];
    while (++i < pieces_.size()) {
      if (!isSeenThrough(pieces_[i], sign)) return i;
    }
    return std::nullopt;
  }
  Sort sortBefore(std::optional<std::size_t> i) const {
    return i ? sortOf(lastOf(pieces_[*i].text)) : Sort::blank;
  }
  Sort sortAfter(std::optional<std::size_t> i) const {
    return i ? sortOf(firstOf(pieces_[*i].text)) : Sort::blank;
  }

  void settleOpen(std::size_t i) {
    const bool underline = pieces_[i].text[0] == '_';
    const auto left = before(i);
    const bool refer = sortBefore(left) == Sort::other &&
                       (underline || pieces_[i].inner || sortAfter(after(i)) == Sort::punctuation);
    if (!refer || pieces_[*left].kind != Kind::words) return;
    std::string& text = pieces_[*left].text;
    const std::string letter = reference(lastOf(text));
    text.replace(lastStart(text), std::string::npos, letter);
  }

  void settleClose(std::size_t i) {
    const bool underline = pieces_[i].text[0] == '_';
    const Sort left = sortBefore(before(i));
    const auto right = after(i);
    const bool refer = sortAfter(right) == Sort::other && (left == Sort::punctuation || underline);
    if (!refer || pieces_[*right].kind != Kind::words) return;
    std::string& text = pieces_[*right].text;
    std::size_t end = 0;
    const std::string letter = reference(base::nextCodePoint(text, end));
    text.replace(0, end, letter);
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
