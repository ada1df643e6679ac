#include "reading/pieces.h"

#include <cstring>

#include "base/text.h"

namespace saggar::reading {
namespace {

// One past the line's end.
std::size_t nextLine(std::string_view text, std::size_t at) {
  const void* found = at < text.size() ? std::memchr(text.data() + at, '\n', text.size() - at) : nullptr;
  return found == nullptr ? text.size() : static_cast<std::size_t>(static_cast<const char*>(found) - text.data()) + 1;
}

bool isDocumentMark(std::string_view text, std::size_t at) {
  const std::string_view rest = text.substr(at, 4);
  if (!rest.starts_with("---") && !rest.starts_with("...")) return false;
  return rest.size() == 3 || base::isBlank(rest[3]);
}

}  // namespace

std::vector<CutPiece> cutIntoPieces(std::string_view text) {
  std::vector<CutPiece> pieces;
  std::size_t at = text.starts_with("\xEF\xBB\xBF") ? 3 : 0;
  bool open = false;      // a piece has begun
  bool list = false;      // the document is a list of records
  bool decided = false;   // the document's first line has been seen
  std::size_t margin = 0;
  auto close = [&](std::size_t end) {
    if (open) pieces.back().end = static_cast<std::uint32_t>(end);
    open = false;
  };
  auto begin = [&](std::size_t start, bool item, bool stray) {
    pieces.push_back({static_cast<std::uint32_t>(start), 0, item, stray});
    open = true;
  };
  while (at < text.size()) {
    const std::size_t lineStart = at;
    const std::size_t next = nextLine(text, at);
    if (isDocumentMark(text, lineStart)) {
      close(lineStart);
      decided = false;
      list = false;
      const std::string_view rest = base::trimmed(text.substr(lineStart + 3, next - lineStart - 3));
      if (!rest.empty() && rest[0] != '#') {  // "--- - shape: x" and the like: one piece, whatever it is
        begin(lineStart + 3, false, false);
        decided = true;
      }
      at = next;
      continue;
    }
    std::size_t first = lineStart;
    while (first < next && text[first] == ' ') ++first;
    const char c = first < next ? text[first] : '\n';
    const bool empty = c == '\n' || c == '\r' || c == '#' || first >= next;
    if (!empty) {
      const bool dash = c == '-' && (first + 1 >= next || base::isBlank(text[first + 1]));
      if (!decided) {
        if (c == '%' && first == lineStart) {  // a YAML directive says nothing to us
          at = next;
          continue;
        }
        decided = true;
        list = dash;
        margin = first - lineStart;
        begin(lineStart, dash, false);
      } else if (list && first - lineStart <= margin) {
        close(lineStart);
        begin(lineStart, dash && first - lineStart == margin, !(dash && first - lineStart == margin));
      }
    }
    at = next;
  }
  close(text.size());
  return pieces;
}

FirstLine firstLineOf(const Piece& piece) {
  FirstLine first;
  std::string_view text = piece.bytes();
  std::size_t at = text.find_first_not_of(" \r\n-");
  if (at == std::string_view::npos) return first;
  while (text[at] == '#') {  // comments in front
    at = text.find('\n', at);
    if (at == std::string_view::npos) return first;
    at = text.find_first_not_of(" \r\n-", at);
    if (at == std::string_view::npos) return first;
  }
  const std::string_view line = text.substr(at, text.find_first_of("\r\n", at) - at);
  const std::size_t colon = line.find(':');
  if (colon == std::string_view::npos) return first;
  first.kind = base::trimmed(line.substr(0, colon));
  std::string_view id = line.substr(colon + 1);
  if (const std::size_t comment = id.find(" #"); comment != std::string_view::npos) id = id.substr(0, comment);
  id = base::trimmed(id);
  if (id.size() >= 2 && (id.front() == '"' || id.front() == '\'') && id.back() == id.front()) id = id.substr(1, id.size() - 2);
  first.id = id;
  if (!id.empty()) {
    first.idBegin = piece.begin + static_cast<std::uint32_t>(id.data() - text.data());
    first.idEnd = first.idBegin + static_cast<std::uint32_t>(id.size());
  }
  return first;
}

}  // namespace saggar::reading
