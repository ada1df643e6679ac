#include "reading/yaml_tree.h"

#include <yaml-cpp/depthguard.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/parser.h>

#include <algorithm>
#include <istream>
#include <optional>
#include <streambuf>

#include "base/text.h"
#include "reading/yaml_builder.h"
#include "reading/yaml_lost.h"
#include "reading/yaml_mistakes.h"

namespace saggar::reading {
namespace {

constexpr std::uint32_t kLargestRecord = 4u * 1024 * 1024;

class MemoryBuffer : public std::streambuf {
 public:
  explicit MemoryBuffer(std::string_view bytes) {
    char* start = const_cast<char*>(bytes.data());  // streambuf's interface; nothing is ever put back into it
    setg(start, start, start + bytes.size());
  }
};

// Sees whether anything follows the document.
class Another final : public YAML::EventHandler {
 public:
  std::optional<int> at;

  void OnDocumentStart(const YAML::Mark& mark) override { at = mark.pos; }
  void OnDocumentEnd() override {}
  void OnNull(const YAML::Mark&, YAML::anchor_t) override {}
  void OnAlias(const YAML::Mark&, YAML::anchor_t) override {}
  void OnScalar(const YAML::Mark&, const std::string&, YAML::anchor_t, const std::string&) override {}
  void OnSequenceStart(const YAML::Mark&, const std::string&, YAML::anchor_t,
                       YAML::EmitterStyle::value) override {}
  void OnSequenceEnd() override {}
  void OnMapStart(const YAML::Mark&, const std::string&, YAML::anchor_t, YAML::EmitterStyle::value) override {
  }
  void OnMapEnd() override {}
};

}  // namespace

// yaml-cpp ends plain text at any `?` inside brackets, against YAML 1.2: where a `?` cannot be the sign of a key, it is
// replaced, same length, and turned back by the builder. A carriage return alone is a line end in YAML and none to
// yaml-cpp: it is shown a line feed.
std::string_view TreeReader::withStandIns(std::string_view bytes) {
  bool copied = false;
  auto put = [&](std::size_t at, char c) {
    if (!copied) hidden_.assign(bytes);
    copied = true;
    hidden_[at] = c;
  };
  for (std::size_t at = bytes.find('?'); at != std::string_view::npos; at = bytes.find('?', at + 1)) {
    const char before = at == 0 ? '\n' : bytes[at - 1];
    if (!base::isBlank(before) && before != '[' && before != '{' && before != ',') put(at, kHiddenMark);
  }
  for (std::size_t at = bytes.find('\r'); at != std::string_view::npos; at = bytes.find('\r', at + 1))
    if (at + 1 == bytes.size() || bytes[at + 1] != '\n') put(at, '\n');
  return copied ? std::string_view(hidden_) : bytes;
}

TreeResult TreeReader::read(const Piece& piece, diagnostics::Findings& findings) {
  auto tooMuch = [&](diagnostics::Rule rule, std::uint32_t at, std::string message, std::string hint) {
    findings.add({.rule = rule,
                  .span = {piece.file, at, std::min(at + 1, piece.end)},
                  .message = std::move(message),
                  .hint = std::move(hint)});
    return TreeResult{nullptr, true};
  };
  if (piece.end - piece.begin > kLargestRecord)
    return tooMuch(
        "yaml-too-big"_rule, piece.begin, "this record is larger than 4 MB",
        "a record holds a few lines of facts: a long text goes into a file of its own under `prose/`");
  MemoryBuffer buffer(withStandIns(piece.bytes()));
  std::istream stream(&buffer);
  Builder builder(piece, nodes_, texts_, &findings);
  const std::size_t before = findings.all().size();
  try {
    YAML::Parser parser(stream);
    if (!parser.HandleNextDocument(builder)) return {};
    if (builder.gaveUp()) return {nullptr, true};
    Another another;
    if (parser.HandleNextDocument(another) && another.at) {
      findings.all().resize(before, diagnostics::Finding{});
      findings.add(explainBroken(piece, piece.begin + static_cast<std::uint32_t>(std::max(0, *another.at)),
                                 "second document"));
      return {nullptr, true};
    }
    Node* root = const_cast<Node*>(builder.root());
    if (root != nullptr) reportLostComments(piece, *root, findings);
    return {root, false};
  } catch (const Builder::TooBig& big) {
    return tooMuch("yaml-too-big"_rule, big.at,
                   "through `&` and `*` this record repeats more than 1,000 values",
                   "write the values out where they are needed, without `&` and `*`");
  } catch (const Builder::TooDeep& deep) {
    return tooMuch("yaml-too-deep"_rule, deep.at, "values are nested more than 60 deep here",
                   "a record needs five or six levels at most: look for brackets or dashes too many");
  } catch (const YAML::Exception& error) {
    if (builder.gaveUp()) return {nullptr, true};
    // What was seen on the way is told by the mistake itself.
    findings.all().resize(before, diagnostics::Finding{});
    const auto at = piece.begin + static_cast<std::uint32_t>(std::max(0, error.mark.pos));
    findings.add(explainBroken(piece, std::min(at, piece.end), error.msg));
    return {nullptr, true};
  }
}

bool TreeReader::readTogether(const Piece& pieces, std::span<const std::uint32_t> starts,
                              std::vector<const Node*>& items) {
  items.clear();
  MemoryBuffer buffer(withStandIns(pieces.bytes()));
  std::istream stream(&buffer);
  Builder builder(pieces, nodes_, texts_, nullptr);
  try {
    YAML::Parser parser(stream);
    Another another;
    if (!parser.HandleNextDocument(builder) || parser.HandleNextDocument(another)) return false;
  } catch (const YAML::Exception&) {
    return false;
  } catch (const Builder::TooDeep&) {
    return false;
  } catch (const Builder::OutOfTheOrdinary&) {
    return false;
  }
  Node* root = const_cast<Node*>(builder.root());
  if (root == nullptr || root->type != NodeType::sequence || root->count != starts.size()) return false;
  std::size_t i = 0;
  for (const Node* item = root->first; item != nullptr; item = item->next, ++i) {
    const std::uint32_t end = i + 1 < starts.size() ? starts[i + 1] : pieces.end;
    if (item->begin < starts[i] || item->begin >= end || item->end > end) return false;
    items.push_back(item);
  }
  diagnostics::Findings lost;
  reportLostComments(pieces, *root, lost);
  return lost.empty();
}

}  // namespace saggar::reading
