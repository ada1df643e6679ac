#include <algorithm>
#include <vector>

#include "base/text.h"
#include "reading/yaml_slip.h"

// The commonest slips in the layout of lines, and in the values that stand on them.
namespace saggar::reading {
namespace {

// Goes through the lines of a piece as an author lays them out.
class BlockWalk {
 public:
  BlockWalk(const Piece& piece, std::uint32_t stop) : piece_(piece), stop_(lineAt(piece, stop).end) {}

  std::optional<Slip> run() {
    for (std::uint32_t at = piece_.begin; at < piece_.end && at <= stop_;) {
      const Line line = lineOf(piece_, at);
      next_ = nextLine(piece_, line.end);
      if (auto slip = look(line)) return slip;
      at = std::max(next_, at + 1);
    }
    return std::nullopt;
  }

 private:
  struct Level {
    std::size_t column;
    bool list;
  };
  enum class Above {
    nothing,
    text,
    closed,
    open
  };  // the value above: none yet, plain text, quoted or in brackets, still to come

  std::optional<Slip> look(const Line& line) {
    const std::size_t firstSign = line.text.find_first_not_of(" \t");
    if (firstSign == std::string_view::npos || line.text[firstSign] == '#') return std::nullopt;
    const std::size_t tab = line.text.substr(0, firstSign).find('\t');
    if (tab != std::string_view::npos) return tabAt(piece_, line.begin + static_cast<std::uint32_t>(tab));
    if (!line.visible()) return std::nullopt;
    const bool joined = above_ == Above::text && line.content > column_ && line.indent > columnOfItem_;
    if (joined && !line.dash) {
      if (comment_)
        return slipAt(piece_, line.contentAt(), line.end,
                      "a comment ends the text above, and this line belongs to nothing",
                      "put the comment on a line of its own above the field; a `#` that is part of a text "
                      "needs quotes round the whole text");
      if (!line.hasKey) return std::nullopt;
      return furtherIn(line);
    }
    if (line.dash) {
      // `- - x` and `- key: x`: each dash opens a list, in its own column
      for (std::size_t at = line.indent; at < line.content;) {
        if (!enter(at, true)) return itemOutOfLine(line);
        columnOfItem_ = at;
        above_ = Above::open;
        at = std::min(line.text.find_first_not_of(' ', at + 1), line.text.size());
      }
      column_ = columnOfItem_;
    }
    if (line.hasKey) {
      const char sign = line.text[line.content];
      if (std::string_view("]}{[|>@`%,").find(sign) != std::string_view::npos ||
          (sign == '?' && base::isBlank(line.text[line.content + 1])))
        return slipAt(piece_, line.contentAt(), line.contentAt() + 1,
                      std::string("a line cannot begin with `") + sign + "`: YAML keeps that sign for itself",
                      "take the sign out: `" + shown(line.text.substr(line.content + 1)) + "`");
      if (!enter(line.content, false)) return fieldOutOfLine(line);
      column_ = line.content;
      if (!line.dash) columnOfItem_ = line.content;
      above_ = Above::open;
      lastKey_ = std::string(line.key);
    } else if (!line.dash) {
      if (above_ == Above::open && line.content > (levels_.empty() ? 0 : levels_.back().column)) {
        column_ = levels_.empty() ? 0 : levels_.back().column;
      } else {
        return neither(line);
      }
    }
    return lookAtValue(line);
  }

  // Moves to the level in that column; false if there is none.
  bool enter(std::size_t column, bool list) {
    shut_ = levels_;
    while (!levels_.empty() && levels_.back().column > column) levels_.pop_back();
    if (levels_.empty()) {
      const bool first = shut_.empty();
      levels_.push_back({column, list});
      return first;
    }
    const Level back = levels_.back();
    if (back.column == column) {
      if (back.list == list) return true;
      if (list) {  // a list under its key, in the key's own column
        levels_.push_back({column, true});
        return above_ == Above::open;
      }
      levels_.pop_back();
      return !levels_.empty() && levels_.back().column == column;
    }
    if (above_ != Above::open) return false;
    levels_.push_back({column, list});
    return true;
  }

  std::string withBlanks(std::size_t column, std::string_view text) const {
    return "begin it with " + (column == 0 ? std::string("no blank") : base::counted(column, "blank")) +
           ": `" + std::string(column, ' ') + shown(text) + "`";
  }

  // The nearest column of that sort among those that were open.
  std::optional<std::size_t> nearestColumn(std::size_t column, bool list) const {
    std::optional<std::size_t> best;
    auto distance = [&](std::size_t one) { return one > column ? one - column : column - one; };
    for (const Level& level : shut_)
      if (level.list == list && (!best || distance(level.column) <= distance(*best))) best = level.column;
    return best;
  }

  Slip itemOutOfLine(const Line& line) const {
    const std::uint32_t begin = line.begin + static_cast<std::uint32_t>(line.indent);
    const std::string_view item = line.text.substr(line.indent);
    const auto column = nearestColumn(line.indent, true);
    const bool onlyTheRecord = column && shut_.front().list && *column == shut_.front().column;
    if (!column || (onlyTheRecord && line.indent > *column))
      return slipAt(piece_, begin, line.end,
                    "an item of a list stands here, and the field above has its value already",
                    "leave the field's colon at the end of its line and put all its values below, each after "
                    "a dash: `" +
                        lastKey_ + ":` and `- one`, `- two`");
    return slipAt(piece_, begin, line.end, "this list item is out of line with the items above it",
                  withBlanks(*column, item));
  }

  Slip fieldOutOfLine(const Line& line) const {
    const auto column = nearestColumn(line.content, false);
    const std::string_view field = line.text.substr(line.content);
    return slipAt(piece_, line.contentAt(), line.end,
                  "`" + shown(line.key) + ":` is out of line with the fields above it",
                  column ? withBlanks(*column, field) : "begin all fields of a record in the same column");
  }

  Slip furtherIn(const Line& line) const {
    if (looksLikeField(line.key))
      return slipAt(
          piece_, line.contentAt(), line.end,
          "`" + shown(line.key) + ":` stands further in than the field above it, which has its value already",
          withBlanks(column_, line.text.substr(line.content)));
    return slipAt(
        piece_, line.contentAt(), line.end, "there is a colon in a text that runs over several lines",
        "write `" + lastKey_ + ": |` and the text on the lines below it, or put the whole text in quotes");
  }

  Slip neither(const Line& line) const {
    const std::string_view text = line.text.substr(line.content);
    if (const std::size_t colon = text.find(':');
        colon != std::string_view::npos && looksLikeField(text.substr(0, colon)) && colon + 1 < text.size())
      return slipAt(
          piece_, line.contentAt(), line.end, "`" + shown(text) + "` has no blank after the colon",
          "write `" + shown(std::string(text.substr(0, colon)) + ": " + std::string(text.substr(colon + 1))) +
              "`");
    if (text.starts_with('-') && text.size() > 1)
      return slipAt(piece_, line.contentAt(), line.end, "`" + shown(text) + "` has no blank after the dash",
                    "write `- " + shown(text.substr(1)) + "`");
    const std::size_t blank = text.find(' ');
    std::string hint = "if it continues the text above, indent it further than `" + lastKey_ +
                       ":`; a field needs a colon and a blank: `" + shown(text.substr(0, blank)) + ": " +
                       (blank == std::string_view::npos ? "…" : shown(text.substr(blank))) + "`";
    if (lastKey_.empty())
      hint = "a field needs a colon and a blank: `" + shown(text.substr(0, blank)) + ": …`";
    return slipAt(piece_, line.contentAt(), line.end,
                  "`" + shown(text) + "` is neither `word: value` nor an item of a list", hint);
  }

  std::optional<Slip> lookAtValue(const Line& line) {
    const std::string_view value = line.value;
    comment_ = false;
    if (value.empty() || value[0] == '#') return std::nullopt;
    const std::size_t word = std::min(value.find_first_of(" \t"), value.size());
    const bool property = value.size() > 1 && (value[0] == '&' || value[0] == '!') && word > 1;
    if (property && (word == value.size() || base::trimmed(value.substr(word)).starts_with('#')))
      return std::nullopt;  // the value is still to come
    above_ = Above::closed;
    const std::uint32_t front =
        line.hasKey ? static_cast<std::uint32_t>(line.key.data() - piece_.text.data() + line.key.size())
                    : line.contentAt();
    if (const std::size_t tab = piece_.text.substr(front, line.valueAt - front).find('\t');
        tab != std::string_view::npos && line.end == stop_)
      return tabAt(piece_, front + static_cast<std::uint32_t>(tab));
    if (line.hasKey && (value.starts_with("- ") || value == "-"))
      return slipAt(piece_, line.valueAt, line.end, "a list cannot begin on the line of its key",
                    "put each item on a line of its own, two blanks further in than `" + shown(line.key) +
                        ":`, or write `[one, two]`");
    switch (value[0]) {
      case '|':
      case '>': return lookAtBlockText(line);
      case '"':
      case '\'': return lookAtQuoted(line);
      case '[':
      case '{': return lookAtBrackets(line);
      case ']':
      case '}':
        return slipAt(piece_, line.valueAt, line.end,
                      std::string("`") + value[0] + "` closes a bracket that was never opened",
                      "take it out, or put the value in quotes: `" + inQuotes(shown(value)) + "`");
      default: break;
    }
    if (auto slip = signInFront(piece_, line, line.valueAt, line.end, false)) return slip;
    if (auto slip = closerAlone(line)) return slip;
    above_ = Above::text;
    std::string_view text = value;
    if (const std::size_t hash = text.find(" #"); hash != std::string_view::npos) {
      comment_ = true;
      text = base::trimmed(text.substr(0, hash));
    }
    const bool second =
        text.find(": ") != std::string_view::npos || text.find(":\t") != std::string_view::npos;
    if (line.hasKey && (second || text.ends_with(':'))) return colonInText(line, text, second);
    return std::nullopt;
  }

  // `marks: k4, k5]`
  std::optional<Slip> closerAlone(const Line& line) const {
    const char last = line.value.back();
    if (last != ']' && last != '}') return std::nullopt;
    const char open = last == ']' ? '[' : '{';
    if (std::count(line.value.begin(), line.value.end(), last) <=
        std::count(line.value.begin(), line.value.end(), open))
      return std::nullopt;
    return slipAt(
        piece_,
        line.end -
            static_cast<std::uint32_t>(line.text.size() - base::trimmed(line.text).size() - line.indent) - 1,
        line.end, std::string("`") + last + "` closes a bracket that was never opened",
        "open it in front of the values, `" + (line.hasKey ? std::string(line.key) + ": " : std::string()) +
            open + shown(line.value) + "`, or take it out");
  }

  Slip colonInText(const Line& line, std::string_view text, bool second) const {
    const std::string key(line.key);
    const std::uint32_t end = line.valueAt + static_cast<std::uint32_t>(text.size());
    if (key == "cite" && second)
      return slipAt(
          piece_, line.valueAt, end,
          "a citation with its place in the source cannot stand on the line of `cite:`",
          "leave `cite:` alone on its line and write, on the next line and two blanks further in, `" +
              shown(text) + "`");
    return slipAt(piece_, line.valueAt, end,
                  second ? "there is a second colon in the value of `" + shown(key) + "`"
                         : "the value of `" + shown(key) + "` ends in a colon",
                  "put the value in quotes: `" + shown(key) + ": " + inQuotes(shown(text)) + "`");
  }

  std::optional<Slip> lookAtBlockText(const Line& line) {
    std::size_t signs = 1;
    while (signs < line.value.size() &&
           std::string_view("+-123456789").find(line.value[signs]) != std::string_view::npos)
      ++signs;
    const std::string_view rest = base::trimmed(line.value.substr(signs));
    if (!rest.empty() && rest[0] != '#') {
      const std::string sign(1, line.value[0]);
      const bool text = line.value.size() > signs && line.value[signs] == ' ';
      return slipAt(piece_, line.valueAt, line.end, "nothing may follow `" + sign + "` on its line",
                    text ? "begin the text on the next line, two blanks further in than its field"
                         : "put the value in quotes: `" + inQuotes(shown(line.value)) + "`");
    }
    std::size_t least = 0;
    for (std::uint32_t at = next_; at < piece_.end;) {
      const LineExtent extent = lineAt(piece_, at);
      const std::string_view text = textOf(piece_, extent);
      const std::size_t indent = indentOf(text);
      if (indent < text.size()) {
        if (indent <= column_ && !(least == 0 && indent > columnOfItem_)) break;
        if (least == 0) least = indent;
        if (indent < least && !base::trimmed(text).starts_with('#') && extent.begin <= stop_) {
          const auto begin = extent.begin + static_cast<std::uint32_t>(indent);
          return slipAt(piece_, begin, extent.end,
                        "this line stands further out than the first line of its text",
                        withBlanks(least, text));
        }
      }
      at = next_ = nextLine(piece_, extent.end);
    }
    return std::nullopt;
  }

  std::optional<Slip> lookAtQuoted(const Line& line) {
    const std::uint32_t close = closingQuote(piece_, line.valueAt);
    if (close >= piece_.end || quoteRunsOver(piece_, line.valueAt, close))
      return openQuote(piece_, line.valueAt);
    if (auto escape = badEscape(line.valueAt, close)) return escape;
    const LineExtent last = lineAt(piece_, close);
    const std::string_view rest = piece_.text.substr(close + 1, last.end - close - 1);
    const std::string_view behind = base::trimmed(rest);
    if (!behind.empty() && !(behind[0] == '#' && rest[0] != '#'))
      return behindQuote(piece_, line, line.valueAt, last.end);
    next_ = nextLine(piece_, last.end);
    return std::nullopt;
  }

  std::optional<Slip> badEscape(std::uint32_t open, std::uint32_t close) const {
    if (piece_.text[open] != '"') return std::nullopt;
    for (std::uint32_t at = open + 1; at < close; ++at) {
      if (piece_.text[at] != '\\') continue;
      const char kind = piece_.text[++at];
      std::uint32_t figures = kind == 'x' ? 2 : kind == 'u' ? 4 : kind == 'U' ? 8 : 0;
      bool known = std::string_view("0abtnvfre \t\"/\\N_LP\n\rxuU").find(kind) != std::string_view::npos;
      for (; figures > 0 && known; --figures)
        known = at + figures < close &&
                std::string_view("0123456789abcdefABCDEF").find(piece_.text[at + figures]) !=
                    std::string_view::npos;
      if (known) continue;
      const std::string_view inside = piece_.text.substr(open + 1, close - open - 1);
      const bool quotes = inside.find('\'') != std::string_view::npos;
      return slipAt(piece_, at - 1, at + 1,
                    "inside double quotes a backslash begins a special sign, and this is none",
                    "type the backslash twice, `\\\\`" +
                        (quotes ? std::string() : ", or use single quotes: `'" + shown(inside) + "'`"));
    }
    return std::nullopt;
  }

  std::optional<Slip> lookAtBrackets(const Line& line) {
    FlowLook look = lookInBrackets(piece_, line.valueAt, column_);
    if (look.slip) return std::move(look.slip);
    const LineExtent last = lineAt(piece_, look.end);
    const std::string_view rest = piece_.text.substr(look.end, last.end - look.end);
    const std::string_view behind = base::trimmed(rest);
    next_ = nextLine(piece_, last.end);
    if (behind.empty() || (behind[0] == '#' && rest[0] != '#')) return std::nullopt;
    const auto begin = static_cast<std::uint32_t>(behind.data() - piece_.text.data());
    if (behind[0] == ']' || behind[0] == '}')
      return slipAt(piece_, begin, begin + 1,
                    std::string("`") + behind[0] + "` closes a bracket that was never opened", "take it out");
    return slipAt(piece_, begin, last.end, "something follows the closing bracket",
                  "if the brackets are part of a text, put the whole text in quotes: `" +
                      (line.hasKey ? std::string(line.key) + ": " : std::string()) +
                      inQuotes(shown(piece_.text.substr(line.valueAt, last.end - line.valueAt))) + "`");
  }

  const Piece& piece_;
  std::uint32_t stop_;
  std::uint32_t next_ = 0;     // where to go on
  std::vector<Level> levels_;  // columns of the lists and mappings that are open here
  std::vector<Level> shut_;    // those that were open before this line
  std::size_t column_ = 0;     // of the field or dash that the value above belongs to
  std::size_t columnOfItem_ = 0;
  Above above_ = Above::nothing;
  bool comment_ = false;  // the plain text above has a comment behind it
  std::string lastKey_;
};

}  // namespace

std::optional<Slip> lookAtLines(const Piece& piece, std::uint32_t stop) {
  return BlockWalk(piece, stop).run();
}

}  // namespace saggar::reading
