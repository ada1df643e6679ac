#pragma once
#include <string>
#include <vector>

#include "checks/check.h"

// The facts for whose evidence a rule has something to say: one finding a record, naming its fields.
namespace saggar::checks {

struct Doubt {
  const records::Entry* field = nullptr;
  const records::Value* part = nullptr;  // of its value: the first with the fault
  evidence::Weighed weighed;
};

// A reader is asked to believe it, so that somebody must be named who says so (SEMANTICS, "Needs evidence").
bool wantsEvidence(const records::Record& record, const records::Entry& field);

// A fact that is put before readers: one that wants evidence, one with evidence of its own, and whatever a claim says
// that its author has not given up.
bool isPutForward(const records::Record& record, const records::Entry& field, bool ownEvidence);

// "`introduced`, `place` and 2 further fields of shape:jessamount".
std::string fieldsInWords(const records::Record& record, const std::vector<Doubt>& doubts);

// The one field's name; empty for several.
std::string oneField(const std::vector<Doubt>& doubts);

// Where a field stands, whole with its name; the record's own place if it has none.
source::Span placeOf(const records::Record& record, records::Field field);

// The facts as the JSON output shows them.
std::vector<diagnostics::FactNote> factNotes(const records::Record& record, const std::vector<Doubt>& doubts);

// Tells each record that could be read whole, with those of its facts that are so: tell(record, doubts). Of the fields
// that are wanted(record, field), a fact is(record, field, part, weighed).
template <class Wanted, class Is, class Tell>
void eachInDoubt(const Context& context, Wanted&& wanted, Is&& is, Tell&& tell) {
  std::vector<Doubt> doubts;
  for (records::RecordIndex index = 0; index < context.collection.size(); ++index) {
    const records::Record& record = context.collection[index];
    if (record.broken) continue;
    doubts.clear();
    context.weights.eachFact(
        index, [&](const records::Entry& field) { return wanted(record, field); },
        [&](const records::Entry& field, const records::Value& part, const evidence::Weighed& weighed) {
          if (!doubts.empty() && doubts.back().field == &field) return;
          // That nobody knows it wants no evidence.
          if (part.type == records::ValueType::unfit || part.type == records::ValueType::unknown) return;
          if (!is(record, field, part, weighed)) return;
          doubts.push_back({&field, &part, weighed});
        });
    if (!doubts.empty()) tell(record, doubts);
  }
}

}  // namespace saggar::checks
