#include "reading/text_map.h"

#include <algorithm>

#include "base/text.h"
#include "base/utf8.h"

// Between a YAML scalar and its value only blanks and line ends are gained and lost (and, in quotation marks,
// escapes): the other characters are the same ones in the same order. So these are matched one by one and
// blanks take the place where the match stands; no folding rule has to be known. The cost is that a blank at
// a fold is placed to within a blank.
namespace saggar::reading {
namespace {

source::Span spanOf(source::FileId file, std::size_t begin, std::size_t end) {
  return {file, static_cast<std::uint32_t>(begin), static_cast<std::uint32_t>(end)};
}

int hexValue(char c) {
  if (base::isDigit(c)) return c - '0';
  if (c >= 'a' && c <= 'f') return c - 'a' + 10;
  if (c >= 'A' && c <= 'F') return c - 'A' + 10;
  return -1;
}

// What a double-quoted scalar means at `at`, which is moved past it (YAML 1.2.2, section 5.7).
std::string doubleQuotedUnit(std::string_view source, std::size_t& at) {
  if (source[at] != '\\' || at + 1 >= source.size()) return std::string(1, source[at++]);
  const char kind = source[at + 1];
  at += 2;
  std::size_t figures = 0;
  switch (kind) {
    case '0': return std::string(1, '\0');
    case 'a': return "\a";
    case 'b': return "\b";
    case 't':
    case '\t': return "\t";
    case 'n': return "\n";
    case 'v': return "\v";
    case 'f': return "\f";
    case 'r': return "\r";
    case 'e': return "\x1B";
    case 'N': return "\xC2\x85";
    case '_': return "\xC2\xA0";
    case 'L': return "\xE2\x80\xA8";
    case 'P': return "\xE2\x80\xA9";
    case '\n':
    case '\r': return {};  // a line that goes on
    case 'x': figures = 2; break;
    case 'u': figures = 4; break;
    case 'U': figures = 8; break;
    default: return std::string(1, kind);
  }
  char32_t codePoint = 0;
  for (; figures > 0 && at < source.size() && hexValue(source[at]) >= 0; --figures, ++at) {
    codePoint = codePoint * 16 + static_cast<char32_t>(hexValue(source[at]));
  }
  std::string out;
  base::appendUtf8(out, codePoint);
  return out;
}

}  // namespace

source::Span FileTextMap::at(std::size_t begin, std::size_t end) const {
  return spanOf(file_, offset_ + begin, offset_ + std::max(begin, end));
}

source::Span AlignedTextMap::at(std::size_t begin, std::size_t end) const {
  if (!aligned_) {
    aligned_ = true;
    begins_.reserve(text_.size());
    ends_.reserve(text_.size());
    align();
  }
  if (!whole_.known()) return whole_;
  if (begin >= text_.size()) {
    const bool complete = begins_.size() == text_.size() && !text_.empty();
    const std::uint32_t last = complete ? ends_.back() : whole_.end;
    return {whole_.file, last, last};
  }
  end = std::clamp(end, begin, text_.size());
  if (begin >= begins_.size() || end > ends_.size()) return whole_;
  const std::uint32_t from = begins_[begin];
  return {whole_.file, from, end == begin ? from : std::max(from, ends_[end - 1])};
}

void AlignedTextMap::alignFrom(std::size_t start, Style style, std::string_view skipped) const {
  std::size_t at = start;
  std::size_t value = 0;
  auto put = [&](std::size_t from, std::size_t to) {
    begins_.push_back(static_cast<std::uint32_t>(from));
    ends_.push_back(static_cast<std::uint32_t>(to));
    ++value;
  };
  while (value < text_.size()) {
    if (at >= source_.size()) return;
    if (base::isBlank(text_[value])) {
      const bool same = source_[at] == text_[value];
      const std::size_t from = at;
      if (same && source_[at] != '\n') {
        ++at;
      } else if (style == Style::doubleQuoted && source_[at] == '\\') {
        std::size_t past = at;
        if (doubleQuotedUnit(source_, past) == text_.substr(value, 1)) at = past;
      }
      put(from, at);
      continue;
    }
    // The next character that shows: whatever stands before it is folding.
    std::size_t unit = at;
    std::string means;
    bool found = false;
    while (unit < source_.size() && !found) {
      at = unit;
      if (style == Style::doubleQuoted) {
        means = doubleQuotedUnit(source_, unit);
      } else {
        means.assign(1, source_[unit]);
        unit += style == Style::singleQuoted && source_.substr(unit, 2) == "''" ? 2 : 1;
      }
      found = !means.empty() && text_.substr(value, means.size()) == means;
      const bool folding = std::all_of(means.begin(), means.end(), [&](char c) {
        return base::isBlank(c) || skipped.find(c) != std::string_view::npos;
      });
      if (!found && !folding) return;
    }
    if (!found) return;
    for (std::size_t i = 0; i < means.size(); ++i) put(at, unit);
    at = unit;
  }
}

void YamlTextMap::align() const {
  std::size_t at = whole_.begin;
  auto skipBlanks = [&] {
    while (at < source_.size() && base::isBlank(source_[at])) ++at;
  };
  skipBlanks();
  while (at < source_.size() && (source_[at] == '!' || source_[at] == '&')) {
    while (at < source_.size() && !base::isBlank(source_[at])) ++at;
    skipBlanks();
  }
  if (at >= source_.size()) return;
  switch (source_[at]) {
    case '|':
    case '>':
      while (at < source_.size() && source_[at] != '\n') ++at;
      return alignFrom(at, Style::plain, {});
    case '\'': return alignFrom(at + 1, Style::singleQuoted, {});
    case '"': return alignFrom(at + 1, Style::doubleQuoted, {});
    default: return alignFrom(at, Style::plain, {});
  }
}

void LinesTextMap::align() const {
  alignFrom(whole_.begin, Style::plain, ">");
}

}  // namespace saggar::reading
