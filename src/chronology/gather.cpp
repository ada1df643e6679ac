#include "chronology/gather.h"

#include <algorithm>

#include "chronology/builder.h"

namespace saggar::chronology {

const ShapeChoice* Gathered::choiceOfShapes(FactId fact) const {
  const auto found = std::lower_bound(shapes.begin(), shapes.end(), fact,
                                      [](const ShapeChoice& one, FactId id) { return one.fact < id; });
  return found != shapes.end() && found->fact == fact ? &*found : nullptr;
}

Gathered gather(const linking::Collection& collection, const evidence::Weights& weights, const Events& events,
                const CodeDates& codes) {
  Gathered gathered;
  gathered.network.addNodes(events.count() - 1);
  // More than there will be, as a rule: memory that is not touched costs nothing, and growing would cost it twice.
  constexpr std::size_t kFactsARecord = 12;
  constexpr std::size_t kEdgesARecord = 24;
  gathered.facts.reserve(collection.size() * kFactsARecord);
  gathered.uses.reserve(collection.size() * kEdgesARecord);
  gathered.network.reserve(collection.size() * kFactsARecord, collection.size() * kEdgesARecord);
  Builder builder(collection, weights, events, gathered);
  for (RecordIndex record = 0; record < collection.size(); ++record) {
    // Of a record that could not be read whole, a field that is missing may say otherwise.
    if (collection[record].broken || Events::slotsOf(collection[record].kind).empty()) continue;
    gatherDates(builder, record);
    gatherRelations(builder, record);
    gatherCitations(builder, record);
  }
  gatherCodes(builder, codes);
  gathered.network.finish();
  return gathered;
}

}  // namespace saggar::chronology
