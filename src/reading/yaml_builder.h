#pragma once
#include <yaml-cpp/eventhandler.h>

#include <string>
#include <vector>

#include "reading/yaml_tree.h"

namespace saggar::reading {

// Makes nodes of yaml-cpp's events: the source's places and texts put back, and what YAML bends or drops in silence
// reported. Not for other rooms.
class Builder final : public YAML::EventHandler {
 public:
  struct TooBig {
    std::uint32_t at;
  };
  struct TooDeep {
    std::uint32_t at;
  };
  struct OutOfTheOrdinary {};

  // Findings null: throws OutOfTheOrdinary at whatever would need one, and at anchors and aliases.
  Builder(const Piece& piece, base::Arena& nodes, base::Arena& texts, diagnostics::Findings* findings)
      : piece_(piece), nodes_(nodes), texts_(texts), findings_(findings) {}

  const Node* root() const { return root_; }
  // A finding has been made that costs the record: what follows in the piece is guesswork.
  bool gaveUp() const { return gaveUp_; }

  void OnDocumentStart(const YAML::Mark&) override {}
  void OnDocumentEnd() override;
  void OnNull(const YAML::Mark& mark, YAML::anchor_t anchor) override;
  void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                const std::string& value) override;
  void OnAlias(const YAML::Mark& mark, YAML::anchor_t anchor) override;
  void OnSequenceStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                       YAML::EmitterStyle::value style) override;
  void OnSequenceEnd() override { close(); }
  void OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                  YAML::EmitterStyle::value style) override;
  void OnMapEnd() override { close(); }

 private:
  struct Open {
    Node* node;
    Node* last;
    YAML::anchor_t anchor;
  };
  struct Anchor {
    const Node* node = nullptr;
    std::uint32_t begin = 0;
    bool used = false;
    bool reported = false;
  };

  Node* make(NodeType type, const YAML::Mark& mark);
  bool takeProperties(Node& node, YAML::anchor_t anchor);
  void setText(Node& node, const std::string& value);
  void setQuotedText(Node& node, const std::string& value);
  void keepOwnText(Node& node, std::string_view value);
  void placeEmpty(Node& node) const;
  void lookAtJoinedLines(Node& node);
  void open(NodeType type, const YAML::Mark& mark, YAML::anchor_t anchor, YAML::EmitterStyle::value style);
  void close();
  void lookAtEmptyValues(Node& mapping);
  void keep(Node* node, YAML::anchor_t anchor);
  void report(diagnostics::Rule rule, std::uint32_t begin, std::uint32_t end, std::string message,
              std::string hint);
  std::string_view typed(std::uint32_t begin, std::uint32_t end) const {
    return piece_.text.substr(begin, end - begin);
  }

  const Piece& piece_;
  base::Arena& nodes_;
  base::Arena& texts_;
  diagnostics::Findings* findings_;
  std::vector<Open> stack_;
  std::vector<Anchor> anchors_;
  const Node* root_ = nullptr;
  std::uint32_t borrowed_ = 0;  // nodes reached through aliases
  bool gaveUp_ = false;
};

inline constexpr char kHiddenMark = '\x01';  // stands for a `?` that yaml-cpp must not see

}  // namespace saggar::reading
