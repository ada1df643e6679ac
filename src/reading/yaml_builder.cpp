#include "reading/yaml_builder.h"

#include <yaml-cpp/exceptions.h>

#include <algorithm>

#include "base/text.h"
#include "reading/yaml_extent.h"
#include "reading/yaml_lines.h"
#include "reading/yaml_lost.h"

namespace saggar::reading {
namespace {

// Enough for any record; a record repeats itself through aliases no more than this, whatever they stand for.
constexpr std::uint32_t kMostBorrowed = 1'000;
constexpr std::size_t kDeepest = 60;

bool sameText(std::string_view source, const std::string& value) {
  if (source.size() != value.size()) return false;
  if (source == value) return true;
  for (std::size_t i = 0; i < source.size(); ++i)
    if (source[i] != value[i] && !(source[i] == '?' && value[i] == kHiddenMark)) return false;
  return true;
}

}  // namespace

void Builder::report(diagnostics::Rule rule, std::uint32_t begin, std::uint32_t end, std::string message,
                     std::string hint) {
  if (findings_ == nullptr) throw OutOfTheOrdinary{};
  if (gaveUp_) return;
  findings_->add({.rule = rule,
                  .span = {piece_.file, begin, std::max(begin, end)},
                  .message = std::move(message),
                  .hint = std::move(hint)});
}

Node* Builder::make(NodeType type, const YAML::Mark& mark) {
  Node* node = nodes_.make<Node>();
  node->type = type;
  node->begin = node->end =
      std::min(piece_.begin + static_cast<std::uint32_t>(std::max(0, mark.pos)), piece_.end);
  return node;
}

void Builder::OnDocumentEnd() {
  for (const Anchor& anchor : anchors_) {
    if (anchor.used || anchor.reported || anchor.node == nullptr) continue;
    const LineExtent line = lineAt(piece_, anchor.begin);
    report("value-lost"_rule, anchor.begin, endOfWord(piece_, anchor.begin),
           "`" + std::string(typed(anchor.begin, endOfWord(piece_, anchor.begin))) +
               "` is taken by YAML for a sign of its own, and is lost",
           hintToQuote(piece_, anchor.begin, line.end));
  }
}

void Builder::OnNull(const YAML::Mark& mark, YAML::anchor_t anchor) {
  Node* node = make(NodeType::empty, mark);
  const std::string_view rest = piece_.text.substr(node->begin, std::min(piece_.end - node->begin, 8u));
  for (std::string_view word : {"~", "null", "Null", "NULL"}) {
    if (!rest.starts_with(word)) continue;
    const char after = rest.size() > word.size() ? rest[word.size()] : '\n';
    if (!base::isBlank(after) && after != ',' && after != ']' && after != '}') continue;
    node->type = NodeType::scalar;  // every plain value is text
    node->text = rest.substr(0, word.size());
    node->end = node->begin + static_cast<std::uint32_t>(word.size());
  }
  if (anchor != 0 && takeProperties(*node, anchor) && node->type == NodeType::empty) {
    const std::uint32_t end = endOfWord(piece_, anchors_[anchor].begin);
    report("value-lost"_rule, anchors_[anchor].begin, end,
           "a value that begins with `&` is taken by YAML for a sign of its own, and is lost",
           hintToQuote(piece_, anchors_[anchor].begin, end));
    anchors_[anchor].reported = true;
    node->told = true;
  }
  keep(node, anchor);
}

void Builder::OnScalar(const YAML::Mark& mark, const std::string&, YAML::anchor_t anchor,
                       const std::string& value) {
  Node* node = make(NodeType::scalar, mark);
  const char first = node->begin < piece_.end ? piece_.text[node->begin] : '\0';
  if (first == '!' || first == '&') takeProperties(*node, anchor);
  setText(*node, value);
  keep(node, anchor);
}

void Builder::OnAlias(const YAML::Mark& mark, YAML::anchor_t anchor) {
  if (findings_ == nullptr) throw OutOfTheOrdinary{};
  Node* node = make(NodeType::empty, mark);
  const std::uint32_t begin = node->begin;
  if (anchor >= anchors_.size() || anchors_[anchor].node == nullptr)
    throw YAML::ParserException(mark, "alias within its own anchor");
  anchors_[anchor].used = true;
  *node = *anchors_[anchor].node;
  node->begin = begin;
  node->end = endOfWord(piece_, begin);
  node->next = nullptr;
  borrowed_ += node->weight;
  if (borrowed_ > kMostBorrowed) throw TooBig{begin};
  keep(node, 0);
}

void Builder::OnSequenceStart(const YAML::Mark& mark, const std::string&, YAML::anchor_t anchor,
                              YAML::EmitterStyle::value style) {
  open(NodeType::sequence, mark, anchor, style);
}

void Builder::OnMapStart(const YAML::Mark& mark, const std::string&, YAML::anchor_t anchor,
                         YAML::EmitterStyle::value style) {
  open(NodeType::mapping, mark, anchor, style);
}

// A tag or an anchor stands in front of a value: moves the node's place to the value. A tag is always lost; whether
// an anchor is shows when the piece has been read.
bool Builder::takeProperties(Node& node, YAML::anchor_t anchor) {
  if (findings_ == nullptr) throw OutOfTheOrdinary{};
  std::uint32_t at = node.begin;
  bool found = false;
  while (at < piece_.end && (piece_.text[at] == '!' || piece_.text[at] == '&')) {
    found = true;
    const std::uint32_t end = endOfWord(piece_, at);
    if (piece_.text[at] == '!') {
      std::uint32_t stop = lineAt(piece_, at).end;
      if (!stack_.empty() && stack_.back().node->style == NodeStyle::flow)
        stop = std::min(stop, at + static_cast<std::uint32_t>(std::min<std::size_t>(
                                       piece_.text.substr(at, stop - at).find_first_of(",]}"), stop - at)));
      report("value-lost"_rule, at, stop,
             "a value that begins with `!` is taken by YAML for a sign of its own, and the word is lost",
             hintToQuote(piece_, at, stop));
      node.told = true;
    } else if (anchor != 0) {
      if (anchors_.size() <= anchor) anchors_.resize(anchor + 1);
      anchors_[anchor].begin = at;
    }
    at = end;
    while (at < piece_.end && piece_.text[at] == ' ') ++at;
  }
  node.begin = node.end = at;
  return found;
}

void Builder::setText(Node& node, const std::string& value) {
  const std::string_view rest = piece_.text.substr(node.begin, piece_.end - node.begin);
  const char first = rest.empty() ? '\0' : rest[0];
  if (first == '"' || first == '\'') {
    setQuotedText(node, value);
  } else if (first == '|' || first == '>') {
    node.style = first == '|' ? NodeStyle::literal : NodeStyle::folded;
    node.end = endOfBlockText(piece_, node.begin);
    keepOwnText(node, value);
  } else if (rest.size() >= value.size() && sameText(rest.substr(0, value.size()), value)) {
    node.text = rest.substr(0, value.size());
    node.end = node.begin + static_cast<std::uint32_t>(value.size());
  } else {
    node.end = endOfPlainText(piece_, node.begin, value);
    keepOwnText(node, value);
    lookAtJoinedLines(node);
  }
}

void Builder::keepOwnText(Node& node, std::string_view value) {
  node.text = texts_.copy(value);
  if (value.find(kHiddenMark) == std::string_view::npos) return;
  char* own = const_cast<char*>(node.text.data());  // the copy that was just made
  std::replace(own, own + node.text.size(), kHiddenMark, '?');
}

void Builder::setQuotedText(Node& node, const std::string& value) {
  node.style = piece_.text[node.begin] == '"' ? NodeStyle::doubleQuoted : NodeStyle::singleQuoted;
  const std::uint32_t close = closingQuote(piece_, node.begin);
  if (close >= piece_.end || quoteRunsOver(piece_, node.begin, close)) {
    if (!gaveUp_) {
      if (findings_ == nullptr) throw OutOfTheOrdinary{};
      findings_->add(openQuote(piece_, node.begin));
    }
    gaveUp_ = true;
    node.end = std::min(close + 1, piece_.end);
    keepOwnText(node, value);
    return;
  }
  node.end = close + 1;
  const std::string_view inside = typed(node.begin + 1, close);
  if (sameText(inside, value)) {
    node.text = inside;
    return;
  }
  keepOwnText(node, value);
  if (node.style != NodeStyle::doubleQuoted) return;
  if (const auto escape = escapedControl(piece_, node.begin, close)) {
    report("text-unfit"_rule, escape->begin, escape->end,
           "`" + std::string(typed(escape->begin, escape->end)) +
               "` stands for a character that cannot be printed",
           "take it out; for a backslash type it twice, `\\\\`");
    node.told = true;
  }
}

// YAML joins the lines of a plain text, and an item that stands a little too far in is joined to the one above.
void Builder::lookAtJoinedLines(Node& node) {
  LineExtent line = lineAt(piece_, node.begin);
  for (std::uint32_t at = nextLine(piece_, line.end); at < node.end; at = nextLine(piece_, line.end)) {
    line = lineAt(piece_, at);
    const std::string_view text = base::trimmed(textOf(piece_, line));
    if (!text.starts_with("- ")) continue;
    const auto begin = static_cast<std::uint32_t>(text.data() - piece_.text.data());
    report("yaml-broken"_rule, begin, line.end,
           "this item does not stand under the one before it, and is taken for more of its text",
           "begin every item of a list in the same column; a text that goes on with a dash needs quotes "
           "round it");
    node.told = true;
    return;
  }
}

void Builder::open(NodeType type, const YAML::Mark& mark, YAML::anchor_t anchor,
                   YAML::EmitterStyle::value style) {
  Node* node = make(type, mark);
  if (stack_.size() >= kDeepest) throw TooDeep{node->begin};
  node->style = style == YAML::EmitterStyle::Flow ? NodeStyle::flow : NodeStyle::block;
  const char first = node->begin < piece_.end ? piece_.text[node->begin] : '\0';
  // (The anchor of a mapping's first key begins where the mapping does.)
  if ((first == '!' || first == '&') && (anchor != 0 || node->style == NodeStyle::flow))
    takeProperties(*node, anchor);
  stack_.push_back({node, nullptr, anchor});
}

void Builder::close() {
  const Open done = stack_.back();
  stack_.pop_back();
  Node& node = *done.node;
  if (done.last != nullptr) node.end = std::max(node.end, done.last->end);
  const char first = node.begin < piece_.end ? piece_.text[node.begin] : '\0';
  if (first == '[' || first == '{') {  // up to its bracket
    std::uint32_t at = node.end;
    while (at < piece_.end && (base::isBlank(piece_.text[at]) || piece_.text[at] == ',')) ++at;
    if (at == node.begin) ++at;  // an empty one
    while (at < piece_.end && base::isBlank(piece_.text[at])) ++at;
    if (at < piece_.end && (piece_.text[at] == ']' || piece_.text[at] == '}')) node.end = at + 1;
  }
  if (node.type == NodeType::mapping) lookAtEmptyValues(node);
  keep(&node, done.anchor);
}

// A key that has no value, and not because its line was left unfinished: there is no colon behind it. Inside braces
// that is most often a comma that ended the value before: `{is: rose, green or blue, used: 1939}`.
void Builder::lookAtEmptyValues(Node& mapping) {
  std::uint32_t without = 0;
  for (const Node* key = mapping.first; key != nullptr && key->next != nullptr; key = key->next->next) {
    if (key->next->type != NodeType::empty || key->next->told || !key->isScalar()) continue;
    if (!colonBehind(piece_, *key)) ++without;
  }
  if (without == 0) return;
  if (findings_ == nullptr) throw OutOfTheOrdinary{};
  if (gaveUp_) return;
  findings_->add(keysWithoutColon(piece_, mapping, without));
  const bool broken = findings_->all().back().rule == "yaml-broken"_rule;
  for (Node* key = const_cast<Node*>(mapping.first); key != nullptr && key->next != nullptr;
       key = const_cast<Node*>(key->next->next)) {
    if (key->next->type == NodeType::empty && !key->next->told)
      key->told = key->told || !colonBehind(piece_, *key);
  }
  // What is left of a mapping in braces says too little to be judged.
  if (without * 2 == mapping.count || (broken && mapping.style == NodeStyle::flow)) mapping.told = true;
}

// Puts an empty value where it should have been typed: yaml-cpp gives the place of whatever comes next.
void Builder::placeEmpty(Node& node) const {
  if (stack_.empty()) return;
  const Open& parent = stack_.back();
  const bool inMapping = parent.node->type == NodeType::mapping;
  std::uint32_t at = parent.last != nullptr ? parent.last->end : parent.node->begin;
  const char wanted = inMapping ? ':' : '-';
  if (!inMapping && parent.node->style == NodeStyle::flow) return;
  bool comment = false;
  for (; at < node.begin; ++at) {
    const char c = piece_.text[at];
    if (c == '#') comment = true;
    if (c == '\n' || c == '\r') comment = false;
    if (!comment && c == wanted) break;
  }
  if (at >= node.begin || at >= piece_.end || piece_.text[at] != wanted) return;
  node.begin = inMapping ? at + 1 : at;
  node.end = at + 1;
}

void Builder::keep(Node* node, YAML::anchor_t anchor) {
  if (anchor != 0) {
    if (findings_ == nullptr) throw OutOfTheOrdinary{};
    if (anchors_.size() <= anchor) anchors_.resize(anchor + 1);
    anchors_[anchor].node = node;
  }
  if (node->type == NodeType::empty && !node->told) placeEmpty(*node);
  if (stack_.empty()) {
    root_ = node;
    return;
  }
  Open& parent = stack_.back();
  if (parent.last == nullptr) {
    parent.node->first = node;
  } else {
    parent.last->next = node;
  }
  parent.last = node;
  parent.node->count += 1;
  parent.node->weight += node->weight;
}

}  // namespace saggar::reading
