#include "base/text.h"
#include "checks/rules.h"
#include "records/tables.h"

// A fact that a reader is asked to believe names who says so. One finding a record, naming its fields.
namespace saggar::checks {

using records::Entry;
using records::Evidence;
using records::Kind;
using records::Record;
using records::Value;
using records::ValueType;

namespace {

bool counts(const Evidence* evidence) {
  if (evidence == nullptr) return false;
  if (!evidence->judged.empty()) return true;
  for (const records::Citation& citation : evidence->cite)
    if (citation.says != records::Says::notFound) return true;
  return false;
}

// `not-found` is evidence for what is unknown or absent.
bool shown(const Value& value) {
  if (counts(value.evidence)) return true;
  if (value.type == ValueType::none && value.evidence != nullptr && !value.evidence->cite.empty()) return true;
  const bool members = value.type == ValueType::list ? !value.items().empty() : value.type == ValueType::mapping && !value.entries().empty();
  if (!members) return false;
  for (const Value& item : value.items())
    if (!shown(item) && item.type != ValueType::unknown) return false;
  if (value.type == ValueType::mapping)
    for (const Entry& entry : value.entries())
      if (!shown(entry.value) && entry.value.type != ValueType::unknown) return false;
  return true;
}

void report(const Record& record, const std::vector<const Entry*>& bare, diagnostics::Findings& findings) {
  std::vector<std::string> names;
  for (const Entry* entry : bare) names.push_back('`' + std::string(entry->key) + '`');
  const std::size_t count = names.size();
  if (count > 6) {
    names.resize(5);
    names.push_back(base::counted(count - 5, "further field"));
  }
  findings.add({.rule = "uncited"_rule,
                .span = record.span(bare.front()->keyPlace),
                .message = base::listedInWords(names) + (count == 1 ? " of " : " of ") + record.reference() + (count == 1 ? " has" : " have") + " no citation",
                .hint = "add `cite: source-id` to the record for all its fields, or beside one value; write `judged: reason` for what you infer",
                .record = record.reference(),
                .field = count == 1 ? std::string(bare.front()->key) : std::string()});
}

}  // namespace

void uncited(const Context& context, diagnostics::Findings& findings) {
  for (const Record& record : context.collection.records()) {
    if (record.broken || counts(record.evidence)) continue;
    std::vector<const Entry*> bare;
    for (const Entry& entry : record.fields) {
      if (!entry.known || entry.value.type == ValueType::unknown || entry.value.type == ValueType::unfit) continue;
      const bool held = record.kind == Kind::claim && entry.field == "says"_f && record.find("test"_f) == nullptr &&
                        (record.text("status"_f).empty() || record.text("status"_f) == "held");
      if (!held && !records::needsEvidence(record.kind, entry.field)) continue;
      if (!shown(entry.value)) bare.push_back(&entry);
    }
    if (!bare.empty()) report(record, bare, findings);
  }
}

}  // namespace saggar::checks
