#include "reading/pieces.h"

#include <algorithm>
#include <cstring>
#include <optional>

#include "base/text.h"
#include "records/kind.h"

namespace saggar::reading {
namespace {

bool isDocumentMark(std::string_view line) {
  if (!line.starts_with("---") && !line.starts_with("...")) return false;
  return line.size() == 3 || base::isBlank(line[3]);
}

// One line as the cutter sees it; blank lines and comments are passed over.
struct Line {
  std::string_view text;  // without its end
  std::size_t begin = 0;
  std::size_t next = 0;    // where the next line begins
  std::size_t indent = 0;  // blanks in front
  char first = '\0';       // the first visible character, or NUL

  bool visible() const { return first != '\0' && first != '#'; }
  // "- " or a dash alone.
  bool dash() const {
    return first == '-' && (indent + 1 == text.size() || text[indent + 1] == ' ' || text[indent + 1] == '\t');
  }
  std::string_view body() const { return base::trimmed(text); }
  // The column of what follows the dash, if something does.
  std::size_t contentColumn() const {
    const std::size_t at = text.find_first_not_of(' ', indent + 1);
    return at == std::string_view::npos || text[at] == '#' ? indent + 2 : at;
  }
};

class Lines {
 public:
  explicit Lines(std::string_view text) : text_(text), returns_(text.find('\r') != std::string_view::npos) {}

  // Lines are asked for from front to back: what was found is kept, so that no stretch is searched twice.
  Line at(std::size_t begin) {
    Line line;
    line.begin = begin;
    std::size_t end = newline_ = nextOf('\n', newline_, begin);
    line.next = std::min(end + 1, text_.size());
    if (returns_) {
      return_ = nextOf('\r', return_, begin);
      if (return_ < end) {
        if (return_ + 1 != newline_ || newline_ == text_.size())
          line.next = return_ + 1;  // it ends the line alone
        end = return_;
      }
    }
    line.text = text_.substr(begin, end - begin);
    while (line.indent < line.text.size() && line.text[line.indent] == ' ') ++line.indent;
    if (line.indent < line.text.size() && !base::trimmed(line.text.substr(line.indent)).empty())
      line.first = line.text[line.indent];
    return line;
  }

 private:
  std::size_t nextOf(char c, std::size_t known, std::size_t from) const {
    if (known != kUnknown && known >= from) return known;
    const void* found = std::memchr(text_.data() + from, c, text_.size() - from);
    return found == nullptr ? text_.size()
                            : static_cast<std::size_t>(static_cast<const char*>(found) - text_.data());
  }

  static constexpr std::size_t kUnknown = static_cast<std::size_t>(-1);
  std::string_view text_;
  bool returns_;
  std::size_t newline_ = kUnknown;
  std::size_t return_ = kUnknown;
};

// "shape: x" → "shape"; empty if the line does not begin with a word and a colon.
std::string_view keyOf(std::string_view body) {
  std::size_t at = 0;
  while (at < body.size() && (base::isLower(body[at]) || base::isUpper(body[at]) || body[at] == '-')) ++at;
  if (at == 0 || at >= body.size() || body[at] != ':') return {};
  if (at + 1 < body.size() && !base::isBlank(body[at + 1])) return {};
  return body.substr(0, at);
}

bool endsInColon(std::string_view body) {
  if (const std::size_t comment = body.find(" #"); comment != std::string_view::npos)
    body = base::trimmed(body.substr(0, comment));
  return body.ends_with(':');
}

class Cutter {
 public:
  explicit Cutter(std::string_view text) : text_(text), lines_(text) {}

  std::vector<CutPiece> run() {
    std::size_t at = text_.starts_with("\xEF\xBB\xBF") ? 3 : 0;
    while (at < text_.size()) {
      const Line line = lines_.at(at);
      if (isDocumentMark(line.text)) {
        mark(line);
      } else if (line.visible()) {
        see(line);
      }
      at = line.next;
    }
    close(text_.size());
    return std::move(pieces_);
  }

 private:
  void close(std::size_t end) {
    if (open_) pieces_.back().end = static_cast<std::uint32_t>(end);
    open_ = false;
  }
  void begin(std::size_t start, PieceType type) {
    close(start);
    pieces_.push_back({static_cast<std::uint32_t>(start), 0, type, false, false});
    open_ = true;
  }

  void mark(const Line& line) {
    close(line.begin);
    decided_ = list_ = false;
    const std::string_view rest = base::trimmed(line.text.substr(3));
    if (rest.empty() || rest[0] == '#') return;
    begin(line.begin + 3, PieceType::whole);  // "--- shape: x" and the like: one piece, whatever it is
    decided_ = true;
  }

  void see(const Line& line) {
    if (!decided_) {
      if (line.first == '%' && line.indent == 0) return;  // a YAML directive says nothing to us
      decided_ = true;
      if (line.dash()) {
        list_ = true;
        margin_ = line.indent;
        firstItem_ = pieces_.size();
        beginItem(line, PieceType::item);
      } else {
        const auto margin = marginOfListAfter(line);
        list_ = margin.has_value();
        margin_ = margin.value_or(0);
        firstItem_ = pieces_.size() + 1;
        begin(line.begin, list_ ? PieceType::stray : PieceType::whole);
      }
      return;
    }
    if (!list_) return;
    if (line.dash() && line.indent == margin_) return beginItem(line, PieceType::item);
    if (line.dash() && line.indent < content_ && beginsRecord(line)) return beginOutOfLine(line);
    if (line.indent > margin_ || line.first == '\t') return;  // a tab in front is the record's own mistake
    // A stray line; further ones that follow it belong to the same mistake.
    if (pieces_.back().type == PieceType::stray && !line.text.substr(line.indent).starts_with('-')) return;
    if (pieces_.back().type != PieceType::stray) pieces_.back().cutShort = true;
    begin(line.begin, PieceType::stray);
  }

  static bool beginsRecord(const Line& line) {
    return records::kindNamed(keyOf(base::trimmed(line.text.substr(line.indent + 1)))).has_value();
  }

  void beginItem(const Line& line, PieceType type) {
    content_ = line.contentColumn();
    begin(line.begin, type);
  }

  void beginOutOfLine(const Line& line) {
    const bool theFirstWas =
        line.indent < margin_ && pieces_.size() == firstItem_ + 1 && pieces_.back().type == PieceType::item;
    if (theFirstWas) {
      pieces_.back().type = PieceType::outOfLine;
      margin_ = line.indent;
      return beginItem(line, PieceType::item);
    }
    const bool again = pieces_.back().type == PieceType::outOfLine && line.indent == outOfLineAt_;
    outOfLineAt_ = line.indent;
    beginItem(line, PieceType::outOfLine);
    pieces_.back().silent = again;
  }

  // Where a document does not begin with "- ", it is one record, in which lists may stand at the margin under their
  // key; or a list of records in front of which something stands: a heading, or a first record without its dash.
  std::optional<std::size_t> marginOfListAfter(const Line& first) const {
    Line above = first;
    const bool beginsWithKind = [&] {
      const std::string_view key = keyOf(first.body());
      return key == "guide" || records::kindNamed(key);
    }();
    Lines lines(text_);
    for (std::size_t at = first.next; at < text_.size();) {
      const Line line = lines.at(at);
      at = line.next;
      if (isDocumentMark(line.text)) return std::nullopt;
      if (!line.visible()) continue;
      if (line.dash() && line.indent <= first.indent) {
        const bool underItsKey = above.indent == first.indent && endsInColon(above.body());
        if (underItsKey && (beginsWithKind || !beginsRecord(line))) return std::nullopt;
        return line.indent;
      }
      above = line;
    }
    return std::nullopt;
  }

  std::string_view text_;
  Lines lines_;
  std::vector<CutPiece> pieces_;
  bool open_ = false;          // the last piece has not ended
  bool decided_ = false;       // the document's first line has been seen
  bool list_ = false;          // the document is a list of records
  std::size_t margin_ = 0;     // the column of its dashes
  std::size_t content_ = 0;    // the column of the fields of the current item
  std::size_t firstItem_ = 0;  // index of the list's first piece
  std::size_t outOfLineAt_ = 0;
};

FirstLine firstLineIn(const Piece& piece, std::string_view line) {
  FirstLine first;
  const std::size_t colon = line.find(':');
  if (colon == std::string_view::npos) return first;
  first.kind = base::trimmed(line.substr(0, colon));
  std::string_view id = base::trimmed(line.substr(colon + 1));
  if (!id.empty() && (id.front() == '"' || id.front() == '\'')) id.remove_prefix(1);
  std::size_t length = 0;
  while (length < id.size() &&
         (base::isLower(id[length]) || base::isDigit(id[length]) || (length > 0 && id[length] == '-')))
    ++length;
  first.id = id.substr(0, length);
  if (length != 0) {
    first.idBegin = static_cast<std::uint32_t>(first.id.data() - piece.text.data());
    first.idEnd = first.idBegin + static_cast<std::uint32_t>(length);
  }
  return first;
}

}  // namespace

std::vector<CutPiece> cutIntoPieces(std::string_view text) {
  return Cutter(text).run();
}

FirstLine firstLineOf(const Piece& piece) {
  const std::string_view bytes = piece.text.substr(0, piece.end);
  Lines lines(bytes);
  for (std::size_t at = piece.begin; at < bytes.size();) {
    const Line line = lines.at(at);
    at = line.next;
    if (!line.visible()) continue;
    std::string_view body = line.body();
    while (body.starts_with('-')) body = base::trimmed(body.substr(1));
    if (!body.empty() && body[0] != '#') return firstLineIn(piece, body);
  }
  return {};
}

std::vector<std::uint32_t> marginKeysIn(const Piece& piece) {
  std::vector<std::uint32_t> keys;
  const std::string_view bytes = piece.text.substr(0, piece.end);
  Lines lines(bytes);
  for (std::size_t at = piece.begin; at < bytes.size();) {
    const Line line = lines.at(at);
    at = line.next;
    if (isDocumentMark(line.text) && !keys.empty()) return {};
    if (line.indent == 0 && !keyOf(line.text).empty()) keys.push_back(static_cast<std::uint32_t>(line.begin));
  }
  return keys;
}

std::vector<std::string_view> recordIdsIn(const Piece& piece) {
  std::vector<std::string_view> ids;
  const std::string_view bytes = piece.text.substr(0, piece.end);
  Lines lines(bytes);
  for (std::size_t at = piece.begin; at < bytes.size();) {
    const Line line = lines.at(at);
    at = line.next;
    std::string_view body = line.body();
    if (!body.starts_with('-') && line.indent != 0) continue;
    while (body.starts_with('-')) body = base::trimmed(body.substr(1));
    const FirstLine first = firstLineIn(piece, body);
    if (!first.id.empty() && records::kindNamed(first.kind)) ids.push_back(first.id);
  }
  return ids;
}

}  // namespace saggar::reading
