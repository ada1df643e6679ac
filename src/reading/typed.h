#pragma once
#include <string_view>
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

  // A mapping whose first key is its kind. Gives false, with findings, if no record can be made of it; `lostId` is
  // then the id it seems to have had, so that nothing is reported missing because of it. `inGuideFile`: the mapping
  // of guide.yaml is wanted.
  bool readRecord(const Node& node, bool inGuideFile, records::Record& record, std::string_view& lostId);

  // A value of a field, evidence and all.
  records::Value readValue(const Node& node, const records::FieldSpec& spec);

  // Anything, kept as typed: text, lists, mappings with free keys.
  records::Value readTree(const Node& node);

 private:
  struct Where {  // what is being read, for messages
    std::string_view record;
    std::string_view field;
  };

  records::Value readBare(const Node& node, const records::FieldSpec& spec, bool listAllowed);
  records::Value readScalar(const Node& node, const records::FieldSpec& spec);
  records::Value readDate(const Node& node, const records::FieldSpec& spec);
  bool readBetween(const Node& node, records::Value& value);
  records::Value readReference(const Node& node, const records::FieldSpec& spec);
  records::Value readEvent(const Node& node);
  records::Value readList(const Node& node, const records::FieldSpec& spec);
  records::Value readStructure(const Node& node, const records::FieldSpec& spec);
  records::Value readStructureMap(const Node& node, const records::FieldSpec& spec);
  records::Value readLook(const Node& node, const records::FieldSpec& spec);
  records::Value readHeadings(const Node& node, const records::FieldSpec& spec);
  records::Value readMadeIn(const Node& node, const records::FieldSpec& spec);
  records::Value mappingOf(const Node& node, const std::vector<records::Entry>& entries);

  // evidence.cpp: what may stand beside a value
  static bool isEvidenceKey(std::string_view key);
  const records::Evidence* readEvidence(const Node& mapping, const records::FieldSpec& spec,
                                        std::span<const records::FieldSpec> own);
  std::vector<records::Citation> readCitations(const Node& node);
  void readCitation(const Node& node, bool inBrackets, std::vector<records::Citation>& out);
  bool citationId(const Node& node, records::Citation& citation);
  records::Alternative readAlternative(const Node& node, const records::FieldSpec& spec);

  records::Value start(const Node& node, records::ValueType type) const;
  records::Value unfit(const Node& node, std::string message, std::string hint);
  void report(diagnostics::Rule rule, std::uint32_t begin, std::uint32_t end, std::string message, std::string hint);
  bool keyOnce(const Node& mapping, const Node& key);
  std::string fieldInQuotes() const;

  source::FileId file_;
  std::string_view text_;
  base::Arena& arena_;
  DatePool& dates_;
  diagnostics::Findings& findings_;
  std::string recordName_;           // "treatment:jm-045" for findings
  std::string_view fieldName_;       // the field being read
  int depth_ = 0;
};

// [a-z0-9][a-z0-9-]*
bool isId(std::string_view text);

// What an id with capitals, blanks or dots could be: lower case, hyphens; empty if nothing is left.
std::string asId(std::string_view text);

}  // namespace saggar::reading
