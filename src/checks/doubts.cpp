#include "checks/doubts.h"

#include "base/text.h"
#include "records/tables.h"

namespace saggar::checks {

using records::Entry;
using records::Kind;
using records::Record;

namespace {

bool isSaid(const Record& record, const Entry& field) {
  return record.kind == Kind::claim && field.field == "says"_f;
}

}  // namespace

bool wantsEvidence(const Record& record, const Entry& field) {
  if (!isSaid(record, field)) return records::needsEvidence(record.kind, field.field);
  const std::string_view status = record.text("status"_f);
  return (status.empty() || status == "held") && record.find("test"_f) == nullptr;
}

bool isPutForward(const Record& record, const Entry& field, bool ownEvidence) {
  if (record.kind != Kind::claim) return ownEvidence || records::needsEvidence(record.kind, field.field);
  const std::string_view status = record.text("status"_f);
  return isSaid(record, field) && (status.empty() || status == "held" || status == "supposed");
}

source::Span placeOf(const Record& record, records::Field field) {
  for (const Entry& entry : record.fields)
    if (entry.known && entry.field == field) return record.span(entry.keyPlace);
  return record.span();
}

std::string fieldsInWords(const Record& record, const std::vector<Doubt>& doubts) {
  std::vector<std::string> names;
  for (const Doubt& one : doubts) names.push_back('`' + std::string(one.field->key) + '`');
  if (const std::size_t count = names.size(); count > 6) {
    names.resize(5);
    names.push_back(base::counted(count - 5, "further field"));
  }
  return base::listedInWords(names) + " of " + record.reference();
}

std::string oneField(const std::vector<Doubt>& doubts) {
  return doubts.size() == 1 ? std::string(doubts.front().field->key) : std::string();
}

std::vector<diagnostics::FactNote> factNotes(const Record& record, const std::vector<Doubt>& doubts) {
  constexpr std::size_t kMost = 10;
  std::vector<diagnostics::FactNote> notes;
  for (const Doubt& one : doubts) {
    if (notes.size() == kMost) break;
    notes.push_back({record.reference(), std::string(one.field->key), std::string(one.part->text),
                     std::string(one.weighed.word()), record.span(one.part->place)});
  }
  return notes;
}

}  // namespace saggar::checks
