#include "reading/yaml_lines.h"

#include <algorithm>

#include "base/text.h"
#include "base/utf8.h"

namespace saggar::reading {

namespace {

// The colon that ends the key which begins at `at`, or npos.
std::size_t colonAfterKey(std::string_view text, std::size_t at) {
  if (at < text.size() && (text[at] == '"' || text[at] == '\'')) {
    const std::size_t close = text.find(text[at], at + 1);
    if (close == std::string_view::npos) return close;
    std::size_t colon = close + 1;
    while (colon < text.size() && text[colon] == ' ') ++colon;
    return colon < text.size() && text[colon] == ':' &&
                   (colon + 1 == text.size() || base::isBlank(text[colon + 1]))
               ? colon
               : std::string_view::npos;
  }
  if (at < text.size() && (text[at] == '[' || text[at] == '{')) return std::string_view::npos;
  for (std::size_t colon = text.find(':', at); colon != std::string_view::npos;
       colon = text.find(':', colon + 1)) {
    const std::size_t comment = text.substr(at, colon - at).find(" #");
    if (comment != std::string_view::npos) return std::string_view::npos;
    if (colon + 1 == text.size() || base::isBlank(text[colon + 1])) return colon;
  }
  return std::string_view::npos;
}

}  // namespace

Line lineOf(const Piece& piece, std::uint32_t offset) {
  const LineExtent extent = lineAt(piece, offset);
  Line line;
  line.begin = extent.begin;
  line.end = extent.end;
  line.text = textOf(piece, extent);
  std::size_t at = indentOf(line.text);
  line.indent = at;
  while (at < line.text.size() && line.text[at] == '-' &&
         (at + 1 == line.text.size() || line.text[at + 1] == ' ')) {
    line.dash = true;
    ++at;
    while (at < line.text.size() && line.text[at] == ' ') ++at;
  }
  line.content = at;
  const std::size_t colon = colonAfterKey(line.text, at);
  if (colon != std::string_view::npos) {
    line.hasKey = true;
    line.key = base::trimmed(line.text.substr(at, colon - at));
    at = colon + 1;
  }
  while (at < line.text.size() && base::isBlank(line.text[at])) ++at;
  line.value = base::trimmed(line.text.substr(at));
  line.valueAt = line.begin + static_cast<std::uint32_t>(at);
  return line;
}

bool looksLikeField(std::string_view key) {
  if (key.empty() || !(base::isLower(key[0]) || base::isDigit(key[0]))) return false;
  return std::all_of(key.begin(), key.end(),
                     [](char c) { return base::isLower(c) || base::isDigit(c) || c == '-'; });
}

std::string inQuotes(std::string_view text) {
  text = base::trimmed(text);
  const bool plain = text.find('"') == std::string_view::npos && text.find('\\') == std::string_view::npos;
  if (plain) return '"' + std::string(text) + '"';
  if (text.find('\'') == std::string_view::npos) return '\'' + std::string(text) + '\'';
  std::string out = "\"";
  for (char c : text) {
    if (c == '"' || c == '\\') out += '\\';
    out += c;
  }
  return out + '"';
}

std::string shown(std::string_view text) {
  return base::shortened(base::sanitizedUtf8(base::trimmed(text)), 80);
}

std::string hintToQuote(const Piece& piece, std::uint32_t begin, std::uint32_t end) {
  std::string_view text = piece.text.substr(begin, end - begin);
  if (const std::size_t comment = text.find(" #"); comment != std::string_view::npos)
    text = text.substr(0, comment);
  return "put it in quotes: `" + inQuotes(shown(text)) + "`";
}

bool quoteRunsOver(const Piece& piece, std::uint32_t open, std::uint32_t close) {
  const Line head = lineOf(piece, open);
  if (close <= head.end) return false;
  const bool alone = head.contentAt() == open && !head.dash && !head.hasKey;  // the quote begins its line
  const std::size_t limit = head.dash && head.contentAt() == open ? head.indent : head.content;
  for (std::uint32_t at = nextLine(piece, head.end); at < close;) {
    const Line line = lineOf(piece, at);
    at = nextLine(piece, line.end);
    if (!line.visible() || (!line.hasKey && !line.dash)) continue;
    if (line.dash ? line.indent <= limit + (alone ? 0 : 2) : line.content + (alone ? 1 : 0) <= limit)
      return true;
  }
  return false;
}

diagnostics::Finding openQuote(const Piece& piece, std::uint32_t open) {
  const Line line = lineOf(piece, open);
  const char quote = piece.text[open];
  std::string hint = "close it at the end of the value: `";
  if (line.hasKey && line.valueAt == open) hint += std::string(line.key) + ": ";
  hint += shown(piece.text.substr(open, line.end - open)) + quote + "`";
  if (quote == '\'') hint += "; an apostrophe inside single quotes is typed twice (`''`)";
  return {.rule = "quote-open"_rule,
          .span = {piece.file, open, std::max(line.end, open + 1)},
          .message = "a quotation mark opens here and is not closed before the next field",
          .hint = std::move(hint)};
}

}  // namespace saggar::reading
