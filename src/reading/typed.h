#pragma once
#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

#include "base/arena.h"
#include "diagnostics/finding.h"
#include "reading/date_pool.h"
#include "reading/yaml_tree.h"
#include "records/record.h"
#include "records/tables.h"

// From the light tree to records: every key looked up in the table, every value read as the table says, everything
// that does not fit reported where it stands, and reading goes on.
namespace saggar::reading {

class TypedReader {
 public:
  TypedReader(source::FileId file, std::string_view text, base::Arena& arena, DatePool& dates,
              diagnostics::Findings& findings)
      : file_(file), text_(text), arena_(arena), dates_(dates), findings_(findings) {}

  // A mapping whose first key is its kind. Gives false, with findings, if no record can be made of it. `lostId` is the
  // id of a record that is there but cannot be read, so that nothing is reported missing because of it: this one's,
  // or that of one that ran into it. `inGuideFile`: the mapping
  // of guide.yaml is wanted.
  bool readRecord(const Node& node, bool inGuideFile, records::Record& record, std::string_view& lostId);

  // A value of a field, evidence and all.
  records::Value readValue(const Node& node, const records::FieldSpec& spec);

  // Anything, kept as typed: text, lists, mappings with free keys.
  records::Value readTree(const Node& node);

 private:
  // Members of a list or mapping while it is being read: the top of a stack that all levels share.
  template <class T>
  class Gathered {
   public:
    explicit Gathered(std::vector<T>& stack) : stack_(stack), from_(stack.size()) {}
    ~Gathered() { stack_.resize(from_); }
    Gathered(const Gathered&) = delete;
    Gathered& operator=(const Gathered&) = delete;
    void add(const T& one) { stack_.push_back(one); }
    std::span<const T> all() const { return std::span<const T>(stack_).subspan(from_); }

   private:
    std::vector<T>& stack_;
    std::size_t from_;
  };

  records::Value readBare(const Node& node, const records::FieldSpec& spec, bool listAllowed);
  records::Value readScalar(const Node& node, const records::FieldSpec& spec);
  records::Value readChoice(const Node& node, const records::FieldSpec& spec);
  records::Value readDate(const Node& node);
  records::Value readMoment(const Node& node);
  bool readBetween(const Node& node, records::Value& value);
  records::Value readReference(const Node& node, const records::FieldSpec& spec);
  records::Value readEvent(const Node& node);
  records::Value readList(const Node& node, const records::FieldSpec& spec);
  records::Value readStructure(const Node& node, const records::FieldSpec& spec);
  records::Value readFirstOf(const Node& node, const records::FieldSpec& spec);
  records::Value readStructureMap(const Node& node, const records::FieldSpec& spec);
  records::Value readLook(const Node& node, const records::FieldSpec& spec);
  records::Value readHeadings(const Node& node);
  records::Value readMadeIn(const Node& node, const records::FieldSpec& spec);
  records::Value plainWanted(const Node& mapping, const records::FieldSpec& spec);
  records::Value listOf(const Node& node, std::span<const records::Value> items);
  records::Value mappingOf(const Node& node, std::span<const records::Entry> entries);

  // typed_record.cpp
  void readField(const Node& key, const Node& child, records::Record& record,
                 Gathered<records::Entry>& entries);
  void needsAll(const Node& node, const records::Record& record);
  bool beginsAnother(const Node& mapping, const Node& key, const Node& child, records::Kind kind,
                     std::string_view& lostId);
  bool noRecord(const Node& node, bool inGuideFile, std::string_view& lostId);
  bool noKind(const Node& node, bool inGuideFile, std::string_view& lostId);
  bool noId(const Node& idNode, records::Kind kind, std::string_view id, std::string_view& lostId);

  // typed_evidence.cpp: what may stand beside a value
  static bool isEvidenceKey(std::string_view key);
  const records::Evidence* readEvidence(const Node& mapping, const records::FieldSpec& spec,
                                        std::span<const records::FieldSpec> own);
  void readEvidenceKey(const Node& key, const Node& child, const records::FieldSpec& spec,
                       records::Evidence& evidence, records::Evidence::Rest& rest);
  std::span<records::Citation> readCitations(const Node& node);
  void readCitation(const Node& node, bool inBrackets, Gathered<records::Citation>& out);
  void readShortCitations(const Node& node, Gathered<records::Citation>& out);
  void readFullCitation(const Node& node, Gathered<records::Citation>& out);
  bool citationId(const Node& node, records::Citation& citation);
  records::Alternative readAlternative(const Node& node, const records::FieldSpec& spec);

  template <class T>
  std::span<T> kept(std::span<const T> items) {
    static_assert(std::is_trivially_destructible_v<T>);
    if (items.empty()) return {};
    T* to = static_cast<T*>(arena_.allocate(items.size_bytes(), alignof(T)));
    std::uninitialized_copy(items.begin(), items.end(), to);
    return {to, items.size()};
  }
  // Members with their number in front of them, as Value has it.
  template <class T>
  T* keptMembers(std::span<const T> items) {
    static_assert(alignof(T) == 8 && std::is_trivially_destructible_v<T>);
    if (items.empty()) return nullptr;
    auto* number = static_cast<std::uint32_t*>(arena_.allocate(8 + items.size_bytes(), alignof(T)));
    number[0] = static_cast<std::uint32_t>(items.size());
    number[1] = 0;
    T* to = reinterpret_cast<T*>(number + 2);
    std::uninitialized_copy(items.begin(), items.end(), to);
    return to;
  }
  records::Value start(const Node& node, records::ValueType type) const;
  records::Value unfit(const Node& node, std::string message, std::string hint);
  void report(diagnostics::Rule rule, std::uint32_t begin, std::uint32_t end, std::string message,
              std::string hint);
  void keysOnce(const Node& mapping);
  bool isWord(const Node& key);
  std::string fieldInQuotes() const;
  std::string_view typed(const Node& node) const { return text_.substr(node.begin, node.end - node.begin); }

  source::FileId file_;
  std::string_view text_;
  base::Arena& arena_;
  DatePool& dates_;
  diagnostics::Findings& findings_;
  const records::Record* record_ = nullptr;  // the record being read, for findings
  std::string_view fieldName_;               // the field being read
  std::vector<records::Entry> entries_;
  std::vector<records::Value> values_;
  std::vector<records::Citation> citations_;
};

// [a-z0-9][a-z0-9-]*
bool isId(std::string_view text);

// What an id with capitals, blanks or dots could be: lower case, hyphens; empty if nothing is left.
std::string asId(std::string_view text);

}  // namespace saggar::reading
