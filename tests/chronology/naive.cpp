#include "naive.h"

#include <algorithm>
#include <bit>
#include <numeric>
#include <set>

namespace saggar::chronology::naive {

std::optional<Table> allPairs(const Network& network, const Selection& selection) {
  const std::uint32_t n = network.nodes();
  Table table(n, std::vector<Days>(n, kFar));
  for (std::uint32_t i = 0; i < n; ++i) table[i][i] = 0;
  for (EdgeId id = 0; id < network.edges(); ++id) {
    if (!selection.has(id)) continue;
    Days& days = table[network.edge(id).from][network.edge(id).to];
    days = std::min(days, network.days(id));
  }
  for (std::uint32_t k = 0; k < n; ++k)
    for (std::uint32_t i = 0; i < n; ++i)
      for (std::uint32_t j = 0; j < n; ++j)
        if (table[i][k] < kFar && table[k][j] < kFar)
          table[i][j] = std::min(table[i][j], table[i][k] + table[k][j]);
  for (std::uint32_t i = 0; i < n; ++i)
    if (table[i][i] < 0) return std::nullopt;
  return table;
}

Selection only(const Network& network, const Selection& selection, const std::vector<FactId>& facts) {
  Selection some(network.edges(), false);
  for (EdgeId id = 0; id < network.edges(); ++id) {
    const FactId fact = network.edge(id).fact;
    some.set(id, selection.has(id) &&
                     (fact == kNoFact || std::find(facts.begin(), facts.end(), fact) != facts.end()));
  }
  return some;
}

std::vector<std::vector<FactId>> allConflicts(const Network& network, const Selection& selection) {
  const auto count = static_cast<unsigned>(network.facts());
  std::vector<std::vector<FactId>> found;
  std::vector<unsigned> masks;
  std::vector<unsigned> sets(1U << count);
  std::iota(sets.begin(), sets.end(), 0U);
  std::stable_sort(sets.begin(), sets.end(),
                   [](unsigned a, unsigned b) { return std::popcount(a) < std::popcount(b); });
  for (const unsigned set : sets) {
    if (std::any_of(masks.begin(), masks.end(), [&](unsigned small) { return (set & small) == small; }))
      continue;
    std::vector<FactId> facts;
    for (FactId fact = 0; fact < count; ++fact)
      if ((set >> fact & 1) != 0) facts.push_back(fact);
    if (allPairs(network, only(network, selection, facts))) continue;
    masks.push_back(set);
    found.push_back(facts);
  }
  std::sort(found.begin(), found.end());
  return found;
}

std::vector<EdgeId> edgesInRings(const Network& network, const Selection& selection,
                                 const std::vector<FactId>& facts, Days& shortest) {
  const Selection some = only(network, selection, facts);
  std::set<EdgeId> edges;
  std::vector<EdgeId> path;
  std::vector<bool> on(network.nodes(), false);
  shortest = 0;
  auto go = [&](auto&& self, Node start, Node at, Days sum) -> void {
    on[at] = true;
    for (const Arc& arc : at == kOrigin ? network.outOfOrigin() : network.outOf(at)) {
      const EdgeId id = arc.edge;
      const Node to = arc.other;
      if (!some.has(id) || to < start || (to != start && on[to])) continue;
      path.push_back(id);
      const Days next = sum + network.days(id);
      if (to != start) {
        self(self, start, to, next);
      } else if (next < 0) {
        shortest = std::min(shortest, next);
        for (const EdgeId edge : path)
          if (network.edge(edge).fact != kNoFact) edges.insert(edge);
      }
      path.pop_back();
    }
    on[at] = false;
  };
  for (Node start = 0; start < network.nodes(); ++start) go(go, start, start, 0);
  return {edges.begin(), edges.end()};
}

std::vector<FactId> leftOut(const Network& network, const Selection& selection) {
  std::vector<FactId> order(network.facts());
  std::iota(order.begin(), order.end(), 0U);
  std::stable_sort(order.begin(), order.end(),
                   [&](FactId a, FactId b) { return network.weakness(a) < network.weakness(b); });
  std::vector<FactId> kept;
  std::vector<FactId> out;
  for (const FactId fact : order) {
    kept.push_back(fact);
    if (allPairs(network, only(network, selection, kept))) continue;
    kept.pop_back();
    out.push_back(fact);
  }
  std::sort(out.begin(), out.end());
  return out;
}

}  // namespace saggar::chronology::naive
