#include <algorithm>

#include "evidence/evidence.h"

namespace saggar::evidence {
namespace {

bool inDocuments(const records::Evidence* evidence) {
  return evidence != nullptr &&
         std::any_of(evidence->cite.begin(), evidence->cite.end(), [](const Citation& citation) {
           return citation.kind == records::Kind::source && citation.says != records::Says::notFound;
         });
}

bool inDocuments(const Value& value) {
  if (inDocuments(value.evidence)) return true;
  for (const Value& item : value.items())
    if (inDocuments(item)) return true;
  for (const Entry& entry : value.entries())
    if (inDocuments(entry.value)) return true;
  return false;
}

}  // namespace

bool Weights::isDocumented(RecordIndex record) const {
  const Record& own = collection_[record];
  return inDocuments(own.evidence) ||
         std::any_of(own.fields.begin(), own.fields.end(),
                     [](const Entry& field) { return inDocuments(field.value); });
}

KnownBy Weights::knownBy(RecordIndex treatment) const {
  Seen best = Seen::notSeen;
  for (const linking::BackReference& back : collection_.referredBy(treatment)) {
    const Record& specimen = collection_[back.from];
    if (specimen.kind == records::Kind::specimen && back.field == "treatment"_f)
      best = std::min(best, bestSeen(specimen.find("seen"_f)));
  }
  if (best == Seen::inHand) return KnownBy::inHand;
  if (best == Seen::pictured) return KnownBy::pictured;
  if (isDocumented(treatment)) return KnownBy::documents;
  return best == Seen::reported ? KnownBy::reports : KnownBy::nothing;
}

}  // namespace saggar::evidence
