#include "reading/yaml_lost.h"

#include <algorithm>
#include <vector>

#include "base/text.h"
#include "reading/yaml_lines.h"

namespace saggar::reading {
namespace {

using Texts = std::vector<std::pair<std::uint32_t, std::uint32_t>>;

// Where texts stand, in order. What an alias stands for is not walked again: it stands before the alias.
void gatherTexts(Node& node, Texts& texts, std::vector<Node*>& empty) {
  if (node.isScalar()) texts.emplace_back(node.begin, node.end);
  if (node.type == NodeType::empty) empty.push_back(&node);
  for (Node* child = const_cast<Node*>(node.first); child != nullptr; child = const_cast<Node*>(child->next))
    if (child->begin >= node.begin) gatherTexts(*child, texts, empty);
}

bool isLetterOrFigure(char c) {
  return base::isLower(c) || base::isUpper(c) || base::isDigit(c) || static_cast<unsigned char>(c) >= 0x80;
}

}  // namespace

bool colonBehind(const Piece& piece, const Node& key) {
  std::uint32_t at = key.end;
  while (at < piece.end && (piece.text[at] == ' ' || piece.text[at] == '\t')) ++at;
  return at < piece.end && piece.text[at] == ':';
}

void reportLostComments(const Piece& piece, Node& root, diagnostics::Findings& findings) {
  const std::string_view bytes = piece.bytes();
  if (bytes.find('#') == std::string_view::npos) return;
  Texts texts;
  std::vector<Node*> empty;
  gatherTexts(root, texts, empty);
  std::sort(texts.begin(), texts.end());
  auto inText = [&](std::uint32_t offset) {
    const auto next = std::upper_bound(texts.begin(), texts.end(), std::pair(offset, UINT32_MAX));
    return next != texts.begin() && std::prev(next)->second > offset;
  };
  for (std::uint32_t at = piece.begin; at < piece.end;) {
    const std::size_t found = piece.text.substr(0, piece.end).find('#', at);
    if (found == std::string_view::npos) return;
    const auto hash = static_cast<std::uint32_t>(found);
    at = hash + 1;
    const bool blankBefore = hash == piece.begin || base::isBlank(piece.text[hash - 1]);
    if (!blankBefore || inText(hash)) continue;
    const LineExtent line = lineAt(piece, hash);
    at = std::max(at, line.end);  // the rest of the line is the comment
    const bool alone = base::trimmed(piece.text.substr(line.begin, hash - line.begin)).empty();
    if (alone || at == hash + 1 || !isLetterOrFigure(piece.text[hash + 1])) continue;
    const std::string comment = shown(piece.text.substr(hash, line.end - hash));
    for (Node* node : empty) {
      if (node->end <= hash && base::trimmed(piece.text.substr(node->end, hash - node->end)).empty())
        node->told = true;
    }
    const Line whole = lineOf(piece, hash);
    const std::string key =
        whole.hasKey && whole.valueAt <= hash ? std::string(whole.key) + ": " : std::string();
    const std::string value =
        key.empty() && !whole.dash
            ? comment
            : std::string(base::trimmed(piece.text.substr(whole.valueAt, line.end - whole.valueAt)));
    const bool simple = value.find_first_of("\"'[]{}") == std::string::npos;
    findings.add({.rule = "value-lost"_rule,
                  .span = {piece.file, hash, line.end},
                  .message = "`" + comment + "` is taken for a comment: it is no part of the value",
                  .hint = (simple ? "put the whole value in quotes: `" + key + inQuotes(shown(value)) + "`"
                                  : std::string("put the whole value in quotes")) +
                          "; if it is a comment, leave a blank after the `#`"});
  }
}

std::optional<LineExtent> escapedControl(const Piece& piece, std::uint32_t open, std::uint32_t close) {
  for (std::uint32_t at = open + 1; at + 1 < close; ++at) {
    if (piece.text[at] != '\\') continue;
    const char kind = piece.text[++at];
    if (std::string_view("0abvfe").find(kind) != std::string_view::npos) return LineExtent{at - 1, at + 1};
    const std::uint32_t figures = kind == 'x' ? 2 : kind == 'u' ? 4 : kind == 'U' ? 8 : 0;
    if (figures == 0 || at + figures >= close) continue;
    unsigned long code = 0;
    for (std::uint32_t i = 1; i <= figures; ++i) {
      const char c = piece.text[at + i];
      code = code * 16 + static_cast<unsigned long>(base::isDigit(c) ? c - '0' : (c | 0x20) - 'a' + 10);
    }
    const bool control = (code < 0x20 && code != '\t' && code != '\n' && code != '\r') ||
                         (code >= 0x7F && code < 0xA0 && code != 0x85);
    if (control || code == 0xFEFF || (code >= 0xFFFE && code <= 0xFFFF))
      return LineExtent{at - 1, at + 1 + figures};
    at += figures;
  }
  return std::nullopt;
}

diagnostics::Finding keysWithoutColon(const Piece& piece, const Node& mapping, std::uint32_t without) {
  const Node* before = nullptr;  // the value in front of the first such key
  const Node* beforeKey = nullptr;
  const Node* key = mapping.first;
  for (; key != nullptr; key = key->next->next) {
    if (key->next->type == NodeType::empty && !key->next->told && key->isScalar() &&
        !colonBehind(piece, *key))
      break;
    beforeKey = key;
    before = key->next;
  }
  const std::string word = shown(key->text);
  diagnostics::Finding finding{
      .rule = "value-lost"_rule, .span = {piece.file, key->begin, key->end}, .message = {}};
  const std::size_t colon = key->text.find(':');
  if (colon != std::string_view::npos && colon + 1 < key->text.size()) {
    finding.rule = "yaml-broken"_rule;
    finding.message = "`" + word + "` has no blank after the colon";
    finding.hint =
        "write `" +
        shown(std::string(key->text.substr(0, colon)) + ": " + std::string(key->text.substr(colon + 1))) +
        "`";
    return finding;
  }
  if (mapping.style != NodeStyle::flow) {
    finding.rule = "yaml-broken"_rule;
    finding.message = "`" + word + "` is neither `word: value` nor an item of a list";
    const std::size_t blank = key->text.find(' ');
    finding.hint =
        "if it continues the text above, indent it further; a field needs a colon and a blank: `" +
        shown(std::string(key->text.substr(0, blank)) + ": " +
              (blank == std::string_view::npos ? "…" : std::string(base::trimmed(key->text.substr(blank))))) +
        "`";
    return finding;
  }
  if (without * 2 == mapping.count) {
    finding.rule = "yaml-broken"_rule;
    finding.span = {piece.file, mapping.begin, mapping.end};
    finding.message = "braces hold fields, as `{word: value}`; here are words alone";
    std::string list = "[";
    for (const Node* one = mapping.first; one != nullptr; one = one->next->next)
      list += (list.size() > 1 ? ", " : "") + std::string(one->text);
    finding.hint = "a list stands in square brackets: `" + shown(list) + "]`";
    return finding;
  }
  finding.message =
      "inside braces a comma ends the value, and `" + word + "` is left over as a key without a value";
  if (before != nullptr && before->isScalar()) {
    finding.hint = "put the value that holds the comma in quotes: `" + shown(beforeKey->text) + ": " +
                   inQuotes(shown(piece.text.substr(before->begin, key->end - before->begin))) + "`";
  } else {
    finding.hint = "a value that holds a comma needs quotes round it; a field needs its colon and value: `" +
                   word + ": …`";
  }
  return finding;
}

}  // namespace saggar::reading
