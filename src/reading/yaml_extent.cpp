#include "reading/yaml_extent.h"

#include <algorithm>

#include "base/text.h"

namespace saggar::reading {
namespace {

bool isLineEnd(char c) {
  return c == '\n' || c == '\r';
}

// `|2` says how much further in than its key the text stands; 0 if the sign does not say.
std::size_t writtenIndent(const Piece& piece, LineExtent head, std::uint32_t sign) {
  std::size_t further = 0;
  for (std::uint32_t at = sign + 1; at < head.end && at < sign + 3; ++at)
    if (base::isDigit(piece.text[at])) further = static_cast<std::size_t>(piece.text[at] - '0');
  if (further == 0) return 0;
  const std::string_view before = piece.text.substr(head.begin, sign - head.begin);
  std::size_t column = indentOf(before);
  for (std::size_t at = column; at < before.size() && before[at] == '-';) {
    at = std::min(before.find_first_not_of(' ', at + 1), before.size());
    if (at < before.size()) column = at;
  }
  return column + further;
}

}  // namespace

LineExtent lineAt(const Piece& piece, std::uint32_t offset) {
  offset = std::min(offset, piece.end);
  std::uint32_t begin = offset;
  while (begin > piece.begin && !isLineEnd(piece.text[begin - 1])) --begin;
  std::uint32_t end = offset;
  while (end < piece.end && !isLineEnd(piece.text[end])) ++end;
  return {begin, end};
}

std::string_view textOf(const Piece& piece, LineExtent line) {
  return piece.text.substr(line.begin, line.end - line.begin);
}

std::uint32_t nextLine(const Piece& piece, std::uint32_t end) {
  if (end >= piece.end) return piece.end;
  const bool two = piece.text[end] == '\r' && end + 1 < piece.end && piece.text[end + 1] == '\n';
  return end + (two ? 2 : 1);
}

std::size_t indentOf(std::string_view line) {
  return std::min(line.find_first_not_of(' '), line.size());
}

std::uint32_t closingQuote(const Piece& piece, std::uint32_t open) {
  const char quote = piece.text[open];
  for (std::uint32_t at = open + 1; at < piece.end; ++at) {
    const char c = piece.text[at];
    if (quote == '"' && c == '\\') {
      ++at;
    } else if (c == quote) {
      const bool twice = quote == '\'' && at + 1 < piece.end && piece.text[at + 1] == '\'';
      if (!twice) return at;
      ++at;
    }
  }
  return piece.end;
}

std::uint32_t endOfBlockText(const Piece& piece, std::uint32_t sign) {
  const LineExtent head = lineAt(piece, sign);
  std::uint32_t end = head.end;
  std::size_t least = writtenIndent(piece, head, sign);  // else that of its first line
  for (std::uint32_t at = nextLine(piece, head.end); at < piece.end;) {
    const LineExtent line = lineAt(piece, at);
    const std::string_view text = textOf(piece, line);
    const std::size_t indent = indentOf(text);
    if (indent < text.size()) {
      if (least == 0) least = indent;
      if (indent < least || indent == 0) break;
      end = line.end;
    }
    at = nextLine(piece, line.end);
  }
  return end;
}

std::uint32_t endOfPlainText(const Piece& piece, std::uint32_t begin, std::string_view value) {
  std::uint32_t at = begin;
  for (char c : value) {
    if (base::isBlank(c)) continue;
    while (at < piece.end && base::isBlank(piece.text[at])) ++at;
    if (at < piece.end) ++at;
  }
  return at;
}

std::uint32_t endOfWord(const Piece& piece, std::uint32_t begin) {
  std::uint32_t at = begin + 1;
  while (at < piece.end && !base::isBlank(piece.text[at]) && piece.text[at] != ',' && piece.text[at] != ']' &&
         piece.text[at] != '}')
    ++at;
  return at;
}

}  // namespace saggar::reading
