#include "reading/yaml_tree.h"

#include <yaml-cpp/depthguard.h>
#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/parser.h>

#include <algorithm>
#include <istream>
#include <optional>
#include <streambuf>
#include <vector>

#include "base/text.h"
#include "reading/yaml_mistakes.h"

namespace saggar::reading {
namespace {

constexpr char kStandIn = '\x01';  // hides a `?` from yaml-cpp; no author's file holds it (text-unfit otherwise)
constexpr std::uint32_t kMostNodes = 200'000;
constexpr std::size_t kDeepest = 60;

class MemoryBuffer : public std::streambuf {
 public:
  explicit MemoryBuffer(std::string_view bytes) {
    char* start = const_cast<char*>(bytes.data());  // streambuf's interface; nothing is ever put back into it
    setg(start, start, start + bytes.size());
  }
};

// yaml-cpp ends plain text at any `?` inside brackets, against YAML 1.2. Where a `?` cannot be the sign of a key it
// is replaced, same length, and turned back below. Empty if there is none to hide.
std::string withHiddenMarks(std::string_view bytes) {
  std::string hidden;
  for (std::size_t at = bytes.find('?'); at != std::string_view::npos; at = bytes.find('?', at + 1)) {
    const char before = at == 0 ? '\n' : bytes[at - 1];
    if (base::isBlank(before) || before == '[' || before == '{' || before == ',') continue;
    if (hidden.empty()) hidden.assign(bytes);
    hidden[at] = kStandIn;
  }
  return hidden;
}

struct TooBig {};
struct TooDeep {};

class Builder final : public YAML::EventHandler {
 public:
  Builder(const Piece& piece, base::Arena& nodes, base::Arena& texts, diagnostics::Findings& findings)
      : piece_(piece), nodes_(nodes), texts_(texts), findings_(findings) {}

  const Node* root() const { return root_; }
  bool quoteOpen() const { return quoteOpen_; }

  void OnDocumentStart(const YAML::Mark&) override {}
  void OnDocumentEnd() override {}

  void OnNull(const YAML::Mark& mark, YAML::anchor_t anchor) override {
    Node* node = make(NodeType::empty, mark);
    const std::string_view rest = piece_.text.substr(node->begin, piece_.end - node->begin);
    for (std::string_view word : {"~", "null", "Null", "NULL"}) {
      if (!rest.starts_with(word)) continue;
      const char after = rest.size() > word.size() ? rest[word.size()] : '\n';
      if (!base::isBlank(after) && after != ',' && after != ']' && after != '}') continue;
      node->type = NodeType::scalar;  // every plain value is text
      node->text = rest.substr(0, word.size());
      node->end = node->begin + static_cast<std::uint32_t>(word.size());
    }
    keep(node, anchor);
  }

  void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                const std::string& value) override {
    Node* node = make(NodeType::scalar, mark);
    skipProperties(*node, tag, anchor);
    setText(*node, value);
    keep(node, anchor);
  }

  void OnAlias(const YAML::Mark& mark, YAML::anchor_t anchor) override {
    Node* node = make(NodeType::empty, mark);
    const std::uint32_t begin = node->begin;
    const Node* original = anchor < anchors_.size() ? anchors_[anchor] : nullptr;
    if (original == nullptr) {
      brokenAlias_ = true;
      throw YAML::ParserException(mark, "alias within its own anchor");
    }
    *node = *original;
    node->begin = begin;
    node->end = begin + 1;
    node->next = nullptr;
    keep(node, 0);
  }

  void OnSequenceStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                       YAML::EmitterStyle::value style) override {
    open(NodeType::sequence, mark, tag, anchor, style);
  }
  void OnSequenceEnd() override { close(); }
  void OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                  YAML::EmitterStyle::value style) override {
    open(NodeType::mapping, mark, tag, anchor, style);
  }
  void OnMapEnd() override { close(); }

 private:
  struct Open {
    Node* node;
    Node* last = nullptr;
    YAML::anchor_t anchor;
  };

  Node* make(NodeType type, const YAML::Mark& mark) {
    Node* node = nodes_.make<Node>();
    node->type = type;
    const std::uint32_t at = piece_.begin + static_cast<std::uint32_t>(std::max(0, mark.pos));
    node->begin = node->end = std::min(at, piece_.end);
    return node;
  }

  // A tag or an anchor stands in front of a value: moves the node's place to the value and says what is lost.
  void skipProperties(Node& node, const std::string& tag, YAML::anchor_t anchor) {
    const bool tagged = !tag.empty() && tag != "?" && tag != "!";
    if (!tagged && anchor == 0 && !(node.begin < piece_.end && piece_.text[node.begin] == '!')) return;
    std::uint32_t at = node.begin;
    while (at < piece_.end && (piece_.text[at] == '!' || piece_.text[at] == '&')) {
      while (at < piece_.end && !base::isBlank(piece_.text[at])) ++at;
      while (at < piece_.end && piece_.text[at] == ' ') ++at;
    }
    if (piece_.text[node.begin] == '!' || tagged) {
      const LineExtent line = lineAt(piece_, node.begin);
      const std::string typed(base::trimmed(piece_.text.substr(node.begin, line.end - node.begin)));
      findings_.add({.rule = "value-lost"_rule,
                     .span = {piece_.file, node.begin, line.end},
                     .message = "a value that begins with `!` is taken by YAML for a sign of its own, and the word is lost",
                     .hint = "put it in quotes: `\"" + typed + "\"`"});
    } else if (at < piece_.end && (piece_.text[at] == '\n' || piece_.text[at] == '\r')) {
      findings_.add({.rule = "value-lost"_rule,
                     .span = {piece_.file, node.begin, at},
                     .message = "a value that begins with `&` is taken by YAML for a sign of its own, and the word is lost",
                     .hint = "put it in quotes: `\"" + std::string(base::trimmed(piece_.text.substr(node.begin, at - node.begin))) + "\"`"});
    }
    node.begin = node.end = at;
  }

  void setText(Node& node, const std::string& value) {
    const std::string_view rest = piece_.text.substr(node.begin, piece_.end - node.begin);
    const char first = rest.empty() ? '\0' : rest[0];
    if (first == '"' || first == '\'') {
      node.style = first == '"' ? NodeStyle::doubleQuoted : NodeStyle::singleQuoted;
      const std::size_t close = closingQuote(rest);
      if (close == std::string_view::npos) {
        if (!quoteOpen_) {
          const LineExtent line = lineAt(piece_, node.begin);
          findings_.add({.rule = "quote-open"_rule,
                         .span = {piece_.file, node.begin, line.end},
                         .message = "a quotation mark opens here and is not closed before the next record",
                         .hint = "close it at the end of the value, or leave the quotation mark out; inside "
                                 "single quotes write an apostrophe twice (`''`)"});
        }
        quoteOpen_ = true;
        node.end = piece_.end;
        node.text = texts_.copy(std::string_view(value));
        return;
      }
      node.end = node.begin + static_cast<std::uint32_t>(close) + 1;
      if (sameText(rest.substr(1, close - 1), value)) {
        node.text = rest.substr(1, close - 1);
        return;
      }
    } else if (first == '|' || first == '>') {
      node.style = first == '|' ? NodeStyle::literal : NodeStyle::folded;
      node.end = endOfBlockText(node.begin);
    } else if (rest.size() >= value.size() && sameText(rest.substr(0, value.size()), value)) {
      node.text = rest.substr(0, value.size());
      node.end = node.begin + static_cast<std::uint32_t>(value.size());
      return;
    } else {
      node.end = endOfPlainText(node.begin, value);
    }
    std::string own = value;
    std::replace(own.begin(), own.end(), kStandIn, '?');
    node.text = texts_.copy(std::string_view(own));
  }

  static bool sameText(std::string_view source, const std::string& value) {
    if (source.size() != value.size()) return false;
    if (source == value) return true;
    for (std::size_t i = 0; i < source.size(); ++i)
      if (source[i] != value[i] && !(source[i] == '?' && value[i] == kStandIn)) return false;
    return true;
  }

  static std::size_t closingQuote(std::string_view rest) {
    const char quote = rest[0];
    for (std::size_t i = 1; i < rest.size(); ++i) {
      if (quote == '"' && rest[i] == '\\') {
        ++i;
      } else if (rest[i] == quote) {
        if (quote == '\'' && i + 1 < rest.size() && rest[i + 1] == '\'') {
          ++i;
        } else {
          return i;
        }
      }
    }
    return std::string_view::npos;
  }

  // One past the last line of a `|` or `>` text: the lines that stand as far in as its first.
  std::uint32_t endOfBlockText(std::uint32_t begin) const {
    std::uint32_t at = lineAt(piece_, begin).end;
    std::uint32_t end = at;
    std::optional<std::uint32_t> indent;
    while (at < piece_.end) {
      while (at < piece_.end && (piece_.text[at] == '\r' || piece_.text[at] == '\n')) ++at;
      std::uint32_t start = at;
      while (start > 0 && piece_.text[start - 1] != '\n' && piece_.text[start - 1] != '\r') --start;
      const LineExtent line = lineAt(piece_, at);
      std::uint32_t in = line.begin;
      while (in < line.end && piece_.text[in] == ' ') ++in;
      if (in < line.end) {
        if (!indent) indent = in - line.begin;
        if (in - line.begin < *indent) break;
        end = line.end;
      }
      if (line.end <= at && line.end >= piece_.end) break;
      at = line.end;
    }
    return end;
  }

  // Follows the letters of a plain text that runs over several lines.
  std::uint32_t endOfPlainText(std::uint32_t begin, const std::string& value) const {
    std::uint32_t at = begin;
    for (char c : value) {
      if (base::isBlank(c)) continue;
      while (at < piece_.end && base::isBlank(piece_.text[at])) ++at;
      if (at < piece_.end) ++at;
    }
    return at;
  }

  void open(NodeType type, const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
            YAML::EmitterStyle::value style) {
    if (stack_.size() >= kDeepest) throw TooDeep{};
    Node* node = make(type, mark);
    if (!tag.empty() && tag != "?" && tag != "!") skipProperties(*node, tag, anchor);
    node->style = style == YAML::EmitterStyle::Flow ? NodeStyle::flow : NodeStyle::block;
    stack_.push_back({node, nullptr, anchor});
  }

  void close() {
    const Open done = stack_.back();
    stack_.pop_back();
    if (done.last != nullptr) done.node->end = std::max(done.node->end, done.last->end);
    if (done.node->type == NodeType::mapping && done.node->style == NodeStyle::flow) reportLostKeys(*done.node);
    keep(done.node, done.anchor);
  }

  // `{is: rose, green or blue, used: 1939}`: the comma ended the value, and the words behind it are a key without one.
  void reportLostKeys(const Node& mapping) {
    for (const Node* key = mapping.first; key != nullptr && key->next != nullptr; key = key->next->next) {
      if (key->next->type != NodeType::empty) continue;
      findings_.add({.rule = "value-lost"_rule,
                     .span = {piece_.file, key->begin, key->end},
                     .message = "inside braces a comma ends the value, and `" + base::shortened(key->text, 60) +
                                "` is left over as a key without a value",
                     .hint = "put a value that holds a comma in quotes"});
    }
  }

  void keep(Node* node, YAML::anchor_t anchor) {
    if (anchor != 0) {
      if (anchors_.size() <= anchor) anchors_.resize(anchor + 1, nullptr);
      anchors_[anchor] = node;
    }
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
    if (parent.node->weight > kMostNodes) throw TooBig{};
  }

  const Piece& piece_;
  base::Arena& nodes_;
  base::Arena& texts_;
  diagnostics::Findings& findings_;
  std::vector<Open> stack_;
  std::vector<const Node*> anchors_;
  const Node* root_ = nullptr;
  bool quoteOpen_ = false;
  bool brokenAlias_ = false;
};

// What follows ` #` vanishes in YAML; right before a letter or figure it was hardly meant as a comment.
void findLostNumbers(const Piece& piece, const Node& node, diagnostics::Findings& findings,
                     std::vector<std::pair<std::uint32_t, std::uint32_t>>& texts) {
  if (node.isScalar()) texts.emplace_back(node.begin, node.end);
  for (const Node* child = node.first; child != nullptr; child = child->next)
    if (child->begin >= node.begin) findLostNumbers(piece, *child, findings, texts);
}

void reportLostComments(const Piece& piece, const Node& root, diagnostics::Findings& findings) {
  const std::string_view bytes = piece.bytes();
  std::size_t at = bytes.find('#');
  if (at == std::string_view::npos) return;
  std::vector<std::pair<std::uint32_t, std::uint32_t>> texts;
  findLostNumbers(piece, root, findings, texts);
  std::sort(texts.begin(), texts.end());
  for (; at != std::string_view::npos; at = bytes.find('#', at + 1)) {
    const std::uint32_t offset = piece.begin + static_cast<std::uint32_t>(at);
    if (at == 0 || (bytes[at - 1] != ' ' && bytes[at - 1] != '\t')) continue;
    const char after = at + 1 < bytes.size() ? bytes[at + 1] : ' ';
    if (!base::isDigit(after) && !base::isLower(after) && !base::isUpper(after)) continue;
    const auto next = std::upper_bound(texts.begin(), texts.end(), std::pair(offset, UINT32_MAX));
    if (next != texts.begin() && std::prev(next)->second > offset) continue;  // inside a text: kept
    const LineExtent line = lineAt(piece, offset);
    if (base::trimmed(piece.text.substr(line.begin, offset - line.begin)).empty()) continue;  // a comment line
    const auto hash = piece.text.rfind('#', offset - 1);
    if (hash != std::string_view::npos && hash >= line.begin &&
        (next == texts.begin() || hash > std::prev(next)->second))
      continue;  // inside a comment that began before
    findings.add({.rule = "value-lost"_rule,
                  .span = {piece.file, offset, line.end},
                  .message = "YAML takes `" + std::string(piece.text.substr(offset, line.end - offset)) +
                             "` for a comment: it is not part of the value",
                  .hint = "put the whole value in quotes, or, if it is a comment, leave a blank after the `#`"});
    at = line.end - piece.begin;
    if (at >= bytes.size()) break;
  }
}

}  // namespace

TreeResult readTree(const Piece& piece, base::Arena& nodes, base::Arena& texts, diagnostics::Findings& findings) {
  const std::string hidden = withHiddenMarks(piece.bytes());
  MemoryBuffer buffer(hidden.empty() ? piece.bytes() : std::string_view(hidden));
  std::istream stream(&buffer);
  Builder builder(piece, nodes, texts, findings);
  auto tooMuch = [&](diagnostics::Rule rule, std::string message, std::string hint) {
    const LineExtent line = lineAt(piece, piece.begin);
    findings.add({.rule = rule, .span = {piece.file, line.begin, line.end}, .message = std::move(message), .hint = std::move(hint)});
    return TreeResult{nullptr, true};
  };
  try {
    YAML::Parser parser(stream);
    if (!parser.HandleNextDocument(builder)) return {};
    const Node* root = builder.root();
    if (builder.quoteOpen()) return {root, true};
    class Rest final : public YAML::EventHandler {
     public:
      explicit Rest(std::optional<YAML::Mark>& at) : at_(at) {}
      void OnDocumentStart(const YAML::Mark& mark) override { at_ = mark; }
      void OnDocumentEnd() override {}
      void OnNull(const YAML::Mark&, YAML::anchor_t) override {}
      void OnAlias(const YAML::Mark&, YAML::anchor_t) override {}
      void OnScalar(const YAML::Mark&, const std::string&, YAML::anchor_t, const std::string&) override {}
      void OnSequenceStart(const YAML::Mark&, const std::string&, YAML::anchor_t, YAML::EmitterStyle::value) override {}
      void OnSequenceEnd() override {}
      void OnMapStart(const YAML::Mark&, const std::string&, YAML::anchor_t, YAML::EmitterStyle::value) override {}
      void OnMapEnd() override {}

     private:
      std::optional<YAML::Mark>& at_;
    };
    std::optional<YAML::Mark> more;
    Rest rest(more);
    if (parser.HandleNextDocument(rest) && more) {
      findings.add(explainBroken(piece, piece.begin + static_cast<std::uint32_t>(std::max(0, more->pos)), "second document"));
      return {root, true};
    }
    if (root != nullptr) reportLostComments(piece, *root, findings);
    return {root, false};
  } catch (const TooBig&) {
    return tooMuch("yaml-too-big"_rule, "with its aliases followed, this record holds more than 200,000 values",
                   "write the values out where they are needed, without `&` and `*`");
  } catch (const TooDeep&) {
    return tooMuch("yaml-too-deep"_rule, "values are nested more than 60 deep here",
                   "a record needs five or six levels at most: look for brackets that were never closed");
  } catch (const YAML::DeepRecursion&) {
    return tooMuch("yaml-too-deep"_rule, "values are nested more than 60 deep here",
                   "a record needs five or six levels at most: look for brackets that were never closed");
  } catch (const YAML::ParserException& error) {
    if (builder.quoteOpen()) return {nullptr, true};
    const int pos = error.mark.pos < 0 ? 0 : error.mark.pos;
    findings.add(explainBroken(piece, std::min(piece.begin + static_cast<std::uint32_t>(pos), piece.end), error.msg));
    return {nullptr, true};
  }
}

}  // namespace saggar::reading
