#include "render/markdown_emphasis.h"

#include <unicode/uchar.h>

#include <algorithm>
#include <optional>

#include "base/text.h"
#include "base/utf8.h"

// Emphasis in Markdown is guessed from the characters on both sides of a `*` or `_` (CommonMark 0.29,
// section 6.4), so a tree cannot simply be written down: "un*(believ)*able" is no emphasis. Here the inlines
// become a row of pieces; levels of emphasis take `*` and `_` in turn, blanks move out of them, and where the
// characters on the two sides still forbid it, the neighbouring letter is written as a character reference,
// which counts as punctuation. The cost is an unsightly `&#110;` in a case that prose hardly ever has; where
// even that does not help, the innermost emphasis goes and its words stay.
namespace saggar::render {
namespace {

using Kind = MarkdownPiece::Kind;

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

class Emphasis {
 public:
  Emphasis(MarkdownPieces& pieces, int groups) : pieces_(pieces), groups_(groups) {}

  // Openers are settled from the last to the first and closers the other way, because each may change the
  // letter that the next one looks at. An emphasis that is taken out lets its neighbours see other letters:
  // then once more.
  void settle() {
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

 private:
  // Of three levels the innermost has the sign of the outermost; with punctuation on both sides it would
  // close that.
  bool takeOutHopeless(bool all) {
    std::vector<char> opened;
    std::vector<bool> gone(static_cast<std::size_t>(groups_) + 1);
    bool any = false;
    for (std::size_t i = 0; i < pieces_.size(); ++i) {
      MarkdownPiece& piece = pieces_[i];
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
  bool isSeenThrough(const MarkdownPiece& piece, char sign) const {
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

  MarkdownPieces& pieces_;
  int groups_;
};

}  // namespace

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

void settleEmphasis(MarkdownPieces& pieces, int groups) {
  if (groups > 0) Emphasis(pieces, groups).settle();
}

}  // namespace saggar::render
