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

bool cites(const Evidence* evidence) {
  return evidence != nullptr && !evidence->cite.empty();
}

bool counts(const Evidence* evidence) {
  if (evidence == nullptr) return false;
  if (!evidence->judged.empty()) return true;
  for (const records::Citation& citation : evidence->cite)
    if (citation.says != records::Says::notFound) return true;
  return false;
}

// What stands behind a value: its own evidence, else that of what it is part of. `not-found` is evidence for what is
// unknown or absent.
bool shown(const Value& value, const Evidence* outer) {
  const Evidence* own = cites(value.evidence) || counts(value.evidence) ? value.evidence : outer;
  if (value.type == ValueType::unknown) return true;
  if (value.type == ValueType::none && cites(own)) return true;
  const bool members = value.type == ValueType::list      ? !value.items().empty()
                       : value.type == ValueType::mapping ? !value.entries().empty()
                                                          : false;
  if (!members) return counts(own);
  for (const Value& item : value.items())
    if (!shown(item, own)) return false;
  for (const Entry& entry : value.entries())
    if (!shown(entry.value, own)) return false;
  return true;
}

// Every citation it has says that it was not found there.
bool onlyNotFound(const Value& value, const Evidence* outer) {
  const Evidence* own = cites(value.evidence) ? value.evidence : outer;
  return cites(own) && !counts(own);
}

void report(const Record& record, const std::vector<const Entry*>& bare, diagnostics::Findings& findings) {
  std::vector<std::string> names;
  bool looked = true;
  for (const Entry* entry : bare) {
    names.push_back('`' + std::string(entry->key) + '`');
    looked &= onlyNotFound(entry->value, record.evidence);
  }
  const std::size_t count = names.size();
  if (count > 6) {
    names.resize(5);
    names.push_back(base::counted(count - 5, "further field"));
  }
  const std::string which = base::listedInWords(names) + " of " + record.reference();
  findings.add({.rule = "uncited"_rule,
                .span = record.span(bare.front()->keyPlace),
                .message = looked ? which + (count == 1 ? " is" : " are") +
                                        " cited only from where it was looked for in vain"
                                  : which + (count == 1 ? " has" : " have") + " no citation",
                .hint = "add `cite: source-id` to the record for all its fields, or beside one value; write "
                        "`judged: reason` for what you infer",
                .record = record.reference(),
                .field = count == 1 ? std::string(bare.front()->key) : std::string()});
}

}  // namespace

void uncited(const Context& context, diagnostics::Findings& findings) {
  for (const Record& record : context.collection.records()) {
    if (record.broken) continue;
    const bool whole = counts(record.evidence);
    std::vector<const Entry*> bare;
    for (const Entry& entry : record.fields) {
      const bool members = entry.value.type == ValueType::list || entry.value.type == ValueType::mapping;
      if (whole && !members && entry.value.evidence == nullptr) continue;
      if (!entry.known || entry.value.type == ValueType::unknown || entry.value.type == ValueType::unfit)
        continue;
      const bool held = record.kind == Kind::claim && entry.field == "says"_f &&
                        record.find("test"_f) == nullptr &&
                        (record.text("status"_f).empty() || record.text("status"_f) == "held");
      if (!held && !records::needsEvidence(record.kind, entry.field)) continue;
      if (!shown(entry.value, record.evidence)) bare.push_back(&entry);
    }
    if (!bare.empty()) report(record, bare, findings);
  }
}

}  // namespace saggar::checks
