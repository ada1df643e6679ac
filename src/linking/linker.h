#pragma once
#include <map>
#include <string>
#include <vector>

#include "diagnostics/report.h"
#include "linking/collection.h"
#include "records/tables.h"

// The work of linking, in steps; not for other rooms.
namespace saggar::linking {

// What one thread finds while it resolves a run of records.
struct Resolved {
  diagnostics::Findings findings;
  struct Link {
    RecordIndex target;
    BackReference from;
  };
  struct Missing {  // a finding that wants a suggestion
    std::size_t finding;
    std::string id;
    records::KindSet kinds;
  };
  std::vector<Missing> missing;
  std::vector<Link> references;
  std::vector<Link> citations;
};

class Linker {
 public:
  explicit Linker(records::ReadGuide guide);

  void index(diagnostics::Findings& findings);
  void resolveAll(diagnostics::Findings& findings);
  void readSettings(diagnostics::Findings& findings, diagnostics::Settings& rules);
  void findMentions(diagnostics::Findings& findings);
  Collection done() { return std::move(collection_); }

 private:
  struct Walk {
    RecordIndex from;
    Record* record;
    records::Field field;
    Resolved& out;
  };
  void resolveRecord(RecordIndex index, Resolved& out);
  void resolveValue(records::Value& value, const records::FieldSpec& spec, Walk& walk);
  void resolveReference(records::Value& value, records::KindSet kinds, Walk& walk);
  void resolveEvent(records::Value& value, Walk& walk);
  void resolveLook(records::Entry& entry, Walk& walk);
  void checkLookValue(const records::Entry& entry, const records::Value& value, Walk& walk);
  void resolveEvidence(const records::Evidence& evidence, const records::FieldSpec* spec, Walk& walk);
  void resolveCitation(records::Citation& citation, Walk& walk);
  void missing(std::string_view id, records::KindSet kinds, source::Span span, const Record& from,
               std::string_view field, Resolved& out);
  void suggestAll(Resolved& resolved);
  bool isLost(std::string_view id) const;
  std::string suggestion(std::string_view id, records::KindSet kinds);
  static Collection::Lists rows(std::vector<Resolved>& parts, std::vector<Resolved::Link> Resolved::*which,
                                std::size_t records);

  Collection collection_;
  // A suggestion looks at every id: more different ones than are printed, and bounded in time.
  static constexpr std::size_t kMostSuggestions = 300;
  std::map<std::string, std::string> suggestions_;  // id and kinds: what was found near, empty for nothing
};

}  // namespace saggar::linking
