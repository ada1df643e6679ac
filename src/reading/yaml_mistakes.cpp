#include "reading/yaml_mistakes.h"

#include <algorithm>
#include <cstring>

#include "base/text.h"
#include "base/utf8.h"

// The ten commonest slips of an author who is no programmer, told from where the parser stopped and from the lines
// around it. Each message prints what to type instead.
namespace saggar::reading {
namespace {

using diagnostics::Finding;

std::string inQuotes(std::string_view text) {
  std::string out = "\"";
  for (char c : base::trimmed(text)) {
    if (c == '"' || c == '\\') out += '\\';
    out += c;
  }
  return out + '"';
}

struct Line {
  std::string_view text;      // without its end
  std::uint32_t begin = 0;
  std::size_t indent = 0;     // of its first visible character
  std::string_view key;       // "name" of "name: …" or "- name: …"; empty if it has none
  std::string_view value;     // what follows the key, trimmed
  std::uint32_t valueAt = 0;  // its offset in the file
};

Line dissect(const Piece& piece, std::uint32_t offset) {
  const LineExtent extent = lineAt(piece, offset);
  Line line;
  line.begin = extent.begin;
  line.text = piece.text.substr(extent.begin, extent.end - extent.begin);
  std::size_t at = 0;
  while (at < line.text.size() && (line.text[at] == ' ' || line.text[at] == '\t')) ++at;
  line.indent = at;
  while (at + 1 < line.text.size() && line.text[at] == '-' && line.text[at + 1] == ' ') {
    at += 2;
    while (at < line.text.size() && line.text[at] == ' ') ++at;
  }
  const std::size_t colon = line.text.find(": ", at);
  const bool atEnd = !line.text.empty() && line.text.back() == ':' && colon == std::string_view::npos;
  if (colon != std::string_view::npos || atEnd) {
    const std::size_t stop = atEnd ? line.text.size() - 1 : colon;
    line.key = line.text.substr(at, stop - at);
    if (line.key.find_first_of("\"'[]{},#") != std::string_view::npos) line.key = {};
    at = std::min(line.text.size(), stop + 1);
  }
  while (at < line.text.size() && line.text[at] == ' ') ++at;
  line.value = base::trimmed(line.text.substr(at));
  line.valueAt = line.begin + static_cast<std::uint32_t>(at);
  return line;
}

// The nearest line above that holds something; its own line if there is none.
Line lineAbove(const Piece& piece, std::uint32_t lineBegin) {
  std::uint32_t at = lineBegin;
  while (at > piece.begin) {
    const Line line = dissect(piece, at - 1);
    if (!base::trimmed(line.text).empty()) return line;
    if (line.begin >= at || line.begin <= piece.begin) break;
    at = line.begin;
  }
  return dissect(piece, lineBegin);
}

struct Slip {
  std::string message;
  std::string hint;
  std::uint32_t begin = 0;
  std::uint32_t end = 0;
};

Slip colonInText(const Piece& piece, std::uint32_t at) {
  const Line line = dissect(piece, at);
  if (!line.key.empty() && line.value.find(": ") != std::string_view::npos) {
    const std::string key(line.key);
    Slip slip{"there is a second colon in the value of `" + key + "`", {}, line.valueAt,
              line.begin + static_cast<std::uint32_t>(line.text.size())};
    if (key == "cite" || key == "source") {
      slip.message = "a citation with its place in the source cannot stand on the line of `" + key + ":`";
      slip.hint = "leave `" + key + ":` alone on its line and write, on the next line and two blanks further in, `" +
                  std::string(line.value) + "`";
    } else {
      slip.hint = "put the value in quotes: `" + key + ": " + inQuotes(line.value) + "`";
    }
    return slip;
  }
  if (!line.key.empty() && !line.value.empty() && line.value.back() == ':') {
    const std::string key(line.key);
    return {"the value of `" + key + "` ends in a colon",
            "put the value in quotes: `" + key + ": " + inQuotes(line.value) + "`", line.valueAt,
            line.begin + static_cast<std::uint32_t>(line.text.size())};
  }
  const Line above = lineAbove(piece, line.begin);
  const std::uint32_t end = line.begin + static_cast<std::uint32_t>(line.text.size());
  if (above.begin != line.begin && above.key.empty())
    return {"the line above, `" + std::string(base::trimmed(above.text)) + "`, has no colon after its first word",
            "write `word: value`, with a blank after the colon", above.begin + static_cast<std::uint32_t>(above.indent),
            above.begin + static_cast<std::uint32_t>(above.text.size())};
  return {"this line stands further in than the one it belongs with",
          "begin it exactly under the first letter of the line above's key, `" + std::string(above.key) + ":`",
          line.begin + static_cast<std::uint32_t>(line.indent), end};
}

Slip signInFront(const Piece& piece, std::uint32_t at, char sign) {
  const Line line = dissect(piece, at);
  const std::string value(line.value.empty() || line.value[0] != sign
                              ? base::trimmed(piece.text.substr(at, line.begin + line.text.size() - at))
                              : line.value);
  return {std::string("a value cannot begin with `") + sign + "`: YAML keeps that sign for itself",
          "put the value in quotes: `" + (line.key.empty() ? std::string() : std::string(line.key) + ": ") +
              inQuotes(value) + "`",
          at, line.begin + static_cast<std::uint32_t>(line.text.size())};
}

Slip openBracket(const Piece& piece, char open, std::uint32_t stop) {
  // The last bracket of that kind before the parser gave up that has no partner.
  int depth = 0;
  const char close = open == '[' ? ']' : '}';
  std::uint32_t found = piece.begin;
  for (std::uint32_t at = std::min(stop, piece.end); at > piece.begin; --at) {
    const char c = piece.text[at - 1];
    if (c == close) ++depth;
    if (c != open) continue;
    if (depth == 0) {
      found = at - 1;
      break;
    }
    --depth;
  }
  const Line line = dissect(piece, found);
  return {std::string("`") + open + "` opens here and is not closed",
          std::string("close it with `") + close + "`; inside brackets put text that holds a comma, a colon or a bracket in quotes",
          found, std::max(found + 1, line.begin + static_cast<std::uint32_t>(line.text.size()))};
}

Slip outOfLine(const Piece& piece, std::uint32_t at) {
  const Line line = dissect(piece, at);
  const Line above = lineAbove(piece, line.begin);
  const std::uint32_t begin = line.begin + static_cast<std::uint32_t>(line.indent);
  const std::uint32_t end = line.begin + static_cast<std::uint32_t>(line.text.size());
  const bool quoteClosedEarly = at > begin && line.value.size() > 1 && (line.value[0] == '"' || line.value[0] == '\'');
  if (quoteClosedEarly)
    return {"something follows the closing quotation mark",
            "put the whole value in one pair of quotes; inside double quotes write `\\\"` for a quotation mark, inside "
            "single quotes `''` for an apostrophe",
            line.valueAt, end};
  if (base::trimmed(line.text).starts_with("- "))
    return {"this list item is out of line with the items above it",
            "begin every item of a list in the same column", begin, end};
  if (line.key.empty())
    return {"`" + base::shortened(base::trimmed(line.text), 60) + "` is neither `word: value` nor an item of a list",
            "if it continues the text above, indent it further than `" + std::string(above.key) +
                ":`; a key needs a colon and a blank",
            begin, end};
  return {"`" + std::string(line.key) + ":` is out of line with the fields above it",
          "begin all fields of a record in the same column", begin, end};
}

Slip tab(const Piece& piece, std::uint32_t at) {
  const LineExtent line = lineAt(piece, at);
  const std::string_view text = piece.text.substr(line.begin, line.end - line.begin);
  const std::size_t found = text.find('\t');
  const std::uint32_t begin = line.begin + static_cast<std::uint32_t>(found == std::string_view::npos ? 0 : found);
  return {"a tab stands where only blanks may", "replace the tab by two blanks, and let your editor do so from now on",
          begin, begin + 1};
}

Slip recognise(const Piece& piece, std::uint32_t at, std::string_view words) {
  const LineExtent extent = lineAt(piece, at);
  const std::string_view line = piece.text.substr(extent.begin, extent.end - extent.begin);
  const std::size_t firstVisible = line.find_first_not_of(" \t-");
  const bool tabInFront = line.substr(0, std::min(firstVisible, line.size())).find('\t') != std::string_view::npos;
  if (tabInFront || words.find("tab") != std::string_view::npos) return tab(piece, at);
  const char here = at < piece.end ? piece.text[at] : '\0';
  auto says = [&](std::string_view part) { return words.find(part) != std::string_view::npos; };
  if (says("unknown token") && here != '\0' && std::strchr("@`%", here) != nullptr) return signInFront(piece, at, here);
  if (says("anchor is not defined") || says("after *") || says("own anchor")) {
    const std::size_t star = line.find('*');
    return signInFront(piece, star == std::string_view::npos ? at : extent.begin + static_cast<std::uint32_t>(star), '*');
  }
  if (says("after &") || says("anchor")) {
    const std::size_t sign = line.find('&');
    return signInFront(piece, sign == std::string_view::npos ? at : extent.begin + static_cast<std::uint32_t>(sign), '&');
  }
  if (says("tag")) {
    const std::size_t sign = line.find('!');
    return signInFront(piece, sign == std::string_view::npos ? at : extent.begin + static_cast<std::uint32_t>(sign), '!');
  }
  if (says("sequence flow")) return openBracket(piece, '[', at);
  if (says("map flow")) return openBracket(piece, '{', at);
  if (says("flow end"))
    return {std::string("`") + here + "` closes a bracket that was never opened", "take it out, or put the text in quotes",
            at, std::min(at + 1, piece.end)};
  if (says("illegal map value") || says("map value")) return colonInText(piece, at);
  if (says("block entry"))
    return {"a list cannot begin on the line of its key",
            "put each item on a line of its own, two blanks further in than the key, or write `[one, two]`", at, extent.end};
  if (says("escape character"))
    return {"inside double quotes a backslash begins a special sign, and this one is none",
            "use single quotes, or write the backslash twice", at == 0 ? at : at - 1, std::min(at + 1, piece.end)};
  if (says("block scalar"))
    return {"nothing may follow `|` or `>` on its line", "begin the text on the next line, two blanks further in", at, extent.end};
  if (says("quoted scalar") || says("end of scalar"))
    return {"a quotation mark opens and is not closed", "close it at the end of the value", extent.begin, extent.end};
  return outOfLine(piece, at);
}

}  // namespace

LineExtent lineAt(const Piece& piece, std::uint32_t offset) {
  offset = std::min(offset, piece.end);
  std::uint32_t begin = offset;
  while (begin > piece.begin && piece.text[begin - 1] != '\n' && piece.text[begin - 1] != '\r') --begin;
  std::uint32_t end = offset;
  while (end < piece.end && piece.text[end] != '\n' && piece.text[end] != '\r') ++end;
  return {begin, end};
}

Finding explainBroken(const Piece& piece, std::uint32_t at, std::string_view words) {
  // A parser that ran to the end of the piece stopped behind its last visible character.
  while (at > piece.begin && (at >= piece.end || base::isBlank(piece.text[at])) && base::isBlank(piece.text[at - 1])) --at;
  if (at >= piece.end && at > piece.begin) --at;
  Slip slip = recognise(piece, at, words);
  slip.end = std::max(slip.end, std::min(slip.begin + 1, piece.end));
  const bool quote = slip.message.starts_with("a quotation mark opens");
  return {.rule = quote ? "quote-open"_rule : "yaml-broken"_rule,
          .span = {piece.file, slip.begin, slip.end},
          .message = base::shortened(base::sanitizedUtf8(slip.message), 300),
          .hint = base::shortened(base::sanitizedUtf8(slip.hint), 400)};
}

}  // namespace saggar::reading
