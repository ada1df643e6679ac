#include "chronology/gather.h"

#include <algorithm>

#include "chronology/builder.h"

namespace saggar::chronology {

std::optional<std::size_t> ShapeChoice::Side::onlyOne() const {
  const auto left = std::find(ruledOut.begin(), ruledOut.end(), false);
  if (left == ruledOut.end() || std::find(left + 1, ruledOut.end(), false) != ruledOut.end()) return {};
  return static_cast<std::size_t>(left - ruledOut.begin());
}

bool ShapeChoice::restsOnAll(EdgeId edge) const {
  return std::any_of(std::begin(edges), std::end(edges),
                     [&](const auto& own) { return own[0] == edge || own[1] == edge; });
}

const ShapeChoice::Side& ShapeChoice::sideOf(EdgeId edge) const {
  const auto& first = sides[0].alone;
  const bool ofFirst =
      std::find(first.begin(), first.end(), edge) != first.end() ||
      std::any_of(std::begin(edges), std::end(edges), [&](const auto& own) { return own[0] == edge; });
  return sides[ofFirst ? 0 : 1];
}

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
