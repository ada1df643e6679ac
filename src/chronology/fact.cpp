#include "chronology/fact.h"

namespace saggar::chronology {

RecordIndex otherOf(const linking::Collection& collection, const Fact& fact) {
  if (fact.cites()) return fact.citation->target;
  if (fact.says == Says::look) {
    const Value* look = collection[fact.record].find("look"_f);
    if (look == nullptr) return records::kNoRecord;
    for (const records::Entry& entry : look->entries())
      if (&entry.value == fact.value) return entry.feature;
    return records::kNoRecord;
  }
  const auto each = fact.value->each();
  return each.empty() ? records::kNoRecord : each[0].target();
}

}  // namespace saggar::chronology
