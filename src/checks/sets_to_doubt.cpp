#include "checks/sets_to_doubt.h"

#include <algorithm>
#include <tuple>

#include "checks/clash_findings.h"
#include "study/hitting_sets.h"

namespace saggar::checks {

using chronology::FactId;
using study::Item;
using study::ItemSet;

namespace {

// The facts that take part, the weakest first: an item is a fact's place among them.
std::vector<FactId> weakestFirst(const Context& context) {
  std::vector<FactId> facts;
  for (const chronology::Clash& clash : context.chronology.clashes())
    if (!clash.atFaceValue) facts.insert(facts.end(), clash.facts.begin(), clash.facts.end());
  std::sort(facts.begin(), facts.end());
  facts.erase(std::unique(facts.begin(), facts.end()), facts.end());
  std::erase_if(facts, [&](FactId fact) { return !canBeCause(context.chronology.fact(fact)); });
  std::stable_sort(facts.begin(), facts.end(), [&](FactId a, FactId b) { return isWeaker(context, a, b); });
  return facts;
}

}  // namespace

std::vector<std::vector<diagnostics::FactNote>> setsToDoubt(const Context& context) {
  const std::vector<FactId> facts = weakestFirst(context);
  if (facts.empty()) return {};
  std::vector<std::pair<FactId, Item>> places;
  for (Item item = 0; item < facts.size(); ++item) places.emplace_back(facts[item], item);
  std::sort(places.begin(), places.end());
  std::vector<ItemSet> family;
  for (const chronology::Clash& clash : context.chronology.clashes()) {
    if (clash.atFaceValue) continue;
    ItemSet set;
    for (const FactId fact : clash.facts) {
      const auto place = std::lower_bound(places.begin(), places.end(), std::pair(fact, Item{0}));
      if (place != places.end() && place->first == fact) set.push_back(place->second);
    }
    std::sort(set.begin(), set.end());
    family.push_back(std::move(set));
  }
  study::HittingLimits limits;
  limits.mostItems = kMostDoubted;
  limits.mostSets = 20'000;
  std::vector<ItemSet> sets = study::minimalHittingSets(std::move(family), limits).all;
  const auto keyOf = [&](const ItemSet& set) {
    const auto best = context.chronology.fact(facts[set.back()]).standing;
    return std::tuple(-static_cast<int>(best), set.size(), ItemSet(set.rbegin(), set.rend()));
  };
  std::sort(sets.begin(), sets.end(),
            [&](const ItemSet& a, const ItemSet& b) { return keyOf(a) < keyOf(b); });
  if (sets.size() > kMostSetsToDoubt) sets.resize(kMostSetsToDoubt);
  const chronology::Reasons reasons(context.collection, context.weights, context.chronology,
                                    chronology::Reasons::Naming::ids);
  std::vector<std::vector<diagnostics::FactNote>> out;
  for (const ItemSet& set : sets)
    for (auto& notes = out.emplace_back(); const Item item : set)
      notes.push_back(noteOf(reasons, facts[item]));
  return out;
}

}  // namespace saggar::checks
