#include "reading/yaml_mistakes.h"

#include <algorithm>

#include "base/text.h"
#include "base/utf8.h"
#include "reading/yaml_slip.h"
#include "records/kind.h"

namespace saggar::reading {

Slip slipAt(const Piece& piece, std::uint32_t begin, std::uint32_t end, std::string message,
            std::string hint) {
  end = std::max(end, std::min(begin + 1, piece.end));
  return {.rule = "yaml-broken"_rule,
          .span = {piece.file, begin, end},
          .message = std::move(message),
          .hint = std::move(hint)};
}

std::optional<Slip> signInFront(const Piece& piece, const Line& line, std::uint32_t valueAt,
                                std::uint32_t valueEnd, bool inBrackets) {
  const char sign = valueAt < piece.end ? piece.text[valueAt] : '\0';
  const char after = valueAt + 1 < piece.end ? piece.text[valueAt + 1] : '\n';
  const std::string_view word = piece.text.substr(valueAt, endOfWord(piece, valueAt) - valueAt);
  bool fits = false;
  switch (sign) {
    case '@':
    case '`':
    case '%': fits = true; break;
    case '*':
      fits = base::isBlank(after) ||
             piece.bytes().find("&" + std::string(word.substr(1))) == std::string_view::npos ||
             piece.bytes().find("&" + std::string(word.substr(1))) > valueAt - piece.begin;
      break;
    case '&': fits = base::isBlank(after); break;
    case '!': fits = after == '!' || after == '<' || after == '('; break;
    case '?': fits = base::isBlank(after); break;
    case ',': fits = !inBrackets; break;
    default: break;
  }
  if (!fits) return std::nullopt;
  const std::string_view value = base::trimmed(piece.text.substr(valueAt, valueEnd - valueAt));
  const std::string key =
      line.hasKey && line.valueAt == valueAt ? std::string(line.key) + ": " : std::string();
  return slipAt(piece, valueAt, valueEnd,
                std::string("a value cannot begin with `") + sign + "`: YAML keeps that sign for itself",
                "put the value in quotes: `" + key + inQuotes(shown(value)) + "`");
}

Slip behindQuote(const Piece& piece, const Line& line, std::uint32_t open, std::uint32_t end) {
  const char quote = piece.text[open];
  std::string_view whole = base::trimmed(piece.text.substr(open, end - open));
  const std::string key = line.hasKey && line.valueAt == open ? std::string(line.key) + ": " : std::string();
  const bool around = whole.size() > 2 && whole.back() == quote;
  const std::string_view inside = around && quote == '\'' ? whole.substr(1, whole.size() - 2) : whole;
  return slipAt(piece, open, end, "something follows the closing quotation mark",
                "put the whole value in one pair of quotes: `" + key + inQuotes(shown(inside)) + "`");
}

Slip tabAt(const Piece& piece, std::uint32_t at) {
  return slipAt(
      piece, at, at + 1, "a tab stands where only blanks may",
      "replace the tab by blanks, two for each step inwards, and let your editor do so from now on");
}

namespace {

// What remains when the lines show nothing: the kind of mistake by the parser's own words.
Slip byWords(const Piece& piece, std::uint32_t at, std::string_view words) {
  const Line line = lineOf(piece, at);
  auto says = [&](std::string_view part) { return words.find(part) != std::string_view::npos; };
  if (says("second document"))
    return slipAt(
        piece, at, at + 1, "a second mapping begins here",
        "one mapping stands in this file: take out the line with `---` or `...`, or what follows it");
  const std::string quoted = "put it in quotes: `" +
                             (line.hasKey ? std::string(line.key) + ": " : std::string()) +
                             inQuotes(shown(line.value)) + "`";
  if (says("map key"))
    return slipAt(piece, at, line.end,
                  "a value cannot begin with `?` and a blank: YAML keeps that sign for itself", quoted);
  if (says("alias") || says("anchor") || says("tag") || says("unknown token"))
    return slipAt(piece, at, line.end, "a sign stands here that YAML keeps for itself", quoted);
  if (says("unicode") || says("hex"))
    return slipAt(piece, at, line.end, "the figures after this backslash stand for no character",
                  "type the character itself, or the backslash twice, `\\\\`");
  return slipAt(piece, std::min(line.contentAt(), at), line.end, "this cannot be read as YAML from here on",
                "look at this line and the one above: each field is `word: value`, all fields of a record "
                "begin in the same column, and quotes and brackets are closed");
}

}  // namespace

Slip explainBroken(const Piece& piece, std::uint32_t at, std::string_view words) {
  // A parser that ran to the end of the piece stopped behind its last visible character.
  at = std::min(at, piece.end);
  const bool atEnd = base::trimmed(piece.text.substr(at, piece.end - at)).empty();
  while (atEnd && at > piece.begin && base::isBlank(piece.text[at - 1])) --at;
  if (at >= piece.end && at > piece.begin) --at;
  std::optional<Slip> found = lookAtLines(piece, at);
  if (!found) found = lookAtLines(piece, piece.end);
  Slip slip = found ? std::move(*found) : byWords(piece, at, words);
  slip.message = base::sanitizedUtf8(slip.message);
  slip.hint = base::sanitizedUtf8(slip.hint);
  return slip;
}

Slip explainStray(const Piece& piece) {
  std::uint32_t at = piece.begin;
  while (at < piece.end && !lineOf(piece, at).visible())
    at = std::max(at + 1, nextLine(piece, lineAt(piece, at).end));
  const Line line = lineOf(piece, at);
  const std::string_view text = line.text.substr(line.content);
  if (line.text.find('\t') < line.content || text.starts_with('\t'))
    return tabAt(piece, line.begin + static_cast<std::uint32_t>(line.text.find('\t')));
  if (text.size() > 1 && text[0] == '-' && text[1] != '-')
    return slipAt(piece, line.contentAt(), line.end, "`" + shown(text) + "` has no blank after the dash",
                  "write `- " + shown(text.substr(1)) + "`");
  if (line.hasKey && records::kindNamed(line.key))
    return slipAt(
        piece, line.contentAt(), line.end, "this record does not begin with a dash, as the others here do",
        "write `- " + shown(text) + "`, with the record's other fields under the first letter of `" +
            std::string(line.key) + "`");
  if (line.hasKey)
    return slipAt(piece, line.contentAt(), line.end,
                  "`" + shown(line.key) + ":` stands at the margin, outside any record",
                  "if it belongs to the record above, begin it with two blanks: `  " + shown(text) +
                      "`; a heading for yourself needs a `#` in front");
  return slipAt(piece, line.contentAt(), line.end,
                "`" + shown(text) + "` stands at the margin, outside any record",
                "if it continues the text above, indent it as far as that; a note for yourself needs a `#` "
                "in front: `# " +
                    shown(text) + "`");
}

Slip explainOutOfLine(const Piece& piece) {
  std::uint32_t at = piece.begin;
  while (at < piece.end && !lineOf(piece, at).visible())
    at = std::max(at + 1, nextLine(piece, lineAt(piece, at).end));
  const Line line = lineOf(piece, at);
  const std::uint32_t begin = line.begin + static_cast<std::uint32_t>(line.indent);
  return slipAt(piece, begin, line.end, "this record is out of line with the others in the list",
                "begin every record in the same column: `" + shown(line.text.substr(line.indent)) + "`");
}

}  // namespace saggar::reading
