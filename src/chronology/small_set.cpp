#include "chronology/small_set.h"

#include <algorithm>
#include <unordered_map>
#include <unordered_set>

namespace saggar::chronology {
namespace {

constexpr std::size_t kFewEdges = 16;   // of a fact: the points at all of them are looked at
constexpr std::size_t kFewPoints = 14;  // every ring is gone through
constexpr std::size_t kMostSteps = 20'000;
constexpr std::size_t kLongRing = 2'000;  // longer ones are made smallest only by what their own edges show

}  // namespace

SmallSets::SmallSets(const Network& network, const Selection& selection)
    : network_(network), selection_(selection) {}

SmallSets::Local SmallSets::localOf(const std::vector<EdgeId>& ring, const std::vector<FactId>& facts) {
  std::vector<Node> nodes;
  std::unordered_map<Node, std::uint32_t> places;
  auto add = [&](Node node) {
    if (places.emplace(node, static_cast<std::uint32_t>(nodes.size())).second) nodes.push_back(node);
  };
  for (const EdgeId id : ring) {
    add(network_.edge(id).from);
    add(network_.edge(id).to);
  }
  for (const FactId fact : facts) {
    const auto edges = network_.edgesOf(fact);
    if (edges.size() > kFewEdges) continue;
    for (const EdgeId id : edges) {
      if (!selection_.has(id)) continue;
      add(network_.edge(id).from);
      add(network_.edge(id).to);
    }
  }
  Local local;
  local.points = static_cast<std::uint32_t>(nodes.size());
  auto take = [&](EdgeId id) {
    const Edge& edge = network_.edge(id);
    if (!selection_.has(id)) return;
    if (edge.fact != kNoFact && !std::binary_search(facts.begin(), facts.end(), edge.fact)) return;
    const auto from = places.find(edge.from);
    const auto to = places.find(edge.to);
    if (from == places.end() || to == places.end()) return;
    local.edges.push_back({from->second, to->second, id, edge.fact, network_.days(id)});
  };
  for (const Node node : nodes) {
    if (node == kOrigin) continue;
    for (const Arc& arc : network_.into(node)) take(arc.edge);
    for (const Arc& arc : network_.outOf(node))
      if (arc.other == kOrigin) take(arc.edge);
  }
  return local;
}

std::optional<std::vector<std::uint32_t>> SmallSets::ringIn(const Local& local,
                                                            const std::vector<bool>& use) {
  std::vector<Days> days(local.points, 0);
  std::vector<std::uint32_t> via(local.points, UINT32_MAX);
  const auto count = static_cast<std::uint32_t>(local.edges.size());
  for (std::uint32_t sweep = 0; sweep <= local.points; ++sweep) {
    bool changed = false;
    for (std::uint32_t step = 0; step < count; ++step) {
      const std::uint32_t i = sweep % 2 == 0 ? step : count - 1 - step;
      const LocalEdge& edge = local.edges[i];
      if (!use[i] || days[edge.from] + edge.days >= days[edge.to]) continue;
      days[edge.to] = days[edge.from] + edge.days;
      via[edge.to] = i;
      changed = true;
    }
    if (!changed) return std::nullopt;
    if (sweep % 4 != 3 && sweep < local.points) continue;
    std::vector<std::uint32_t> seen(local.points, 0);
    for (std::uint32_t start = 0; start < local.points; ++start) {
      std::uint32_t at = start;
      while (seen[at] == 0 && via[at] != UINT32_MAX) {
        seen[at] = start + 1;
        at = local.edges[via[at]].from;
      }
      if (seen[at] != start + 1 || via[at] == UINT32_MAX) continue;
      std::vector<std::uint32_t> ring;
      const std::uint32_t first = at;
      do {
        ring.push_back(via[at]);
        at = local.edges[via[at]].from;
      } while (at != first);
      return ring;
    }
  }
  return std::nullopt;
}

// Every edge on a simple ring of less than nothing takes part; the shortest ring says by how much.
void SmallSets::tellRings(const Local& local, const std::vector<bool>& use, Conflict& conflict) const {
  auto tell = [&](const std::vector<std::uint32_t>& ring) {
    Days sum = 0;
    for (const std::uint32_t i : ring) sum += local.edges[i].days;
    if (sum >= 0) return;
    conflict.shortBy = std::max(conflict.shortBy, -sum);
    for (const std::uint32_t i : ring)
      if (local.edges[i].fact != kNoFact) conflict.edges.push_back(local.edges[i].id);
  };
  if (local.points <= kFewPoints) {
    std::vector<std::vector<std::uint32_t>> out(local.points);
    for (std::uint32_t i = 0; i < local.edges.size(); ++i)
      if (use[i]) out[local.edges[i].from].push_back(i);
    std::size_t steps = 0;
    std::vector<std::uint32_t> path;
    std::vector<bool> on(local.points, false);
    auto go = [&](auto&& self, std::uint32_t start, std::uint32_t at) -> void {
      if (++steps > kMostSteps) return;
      on[at] = true;
      for (const std::uint32_t i : out[at]) {
        const std::uint32_t to = local.edges[i].to;
        if (to < start || (to != start && on[to])) continue;
        path.push_back(i);
        if (to == start) {
          tell(path);
        } else {
          self(self, start, to);
        }
        path.pop_back();
      }
      on[at] = false;
    };
    for (std::uint32_t start = 0; start < local.points; ++start) go(go, start, start);
  }
  if (conflict.shortBy == 0)
    if (const auto ring = ringIn(local, use)) tell(*ring);
  std::sort(conflict.edges.begin(), conflict.edges.end());
  conflict.edges.erase(std::unique(conflict.edges.begin(), conflict.edges.end()), conflict.edges.end());
}

Conflict SmallSets::make(const std::vector<EdgeId>& ring, FactId keep) {
  std::vector<FactId> facts;
  for (const EdgeId id : ring)
    if (network_.edge(id).fact != kNoFact) facts.push_back(network_.edge(id).fact);
  std::sort(facts.begin(), facts.end());
  facts.erase(std::unique(facts.begin(), facts.end()), facts.end());
  const Local local = localOf(ring, facts);
  std::vector<bool> use(local.edges.size(), true);
  const bool more = local.edges.size() > ring.size();
  if (more && facts.size() > 1 && facts.size() <= kLongRing) {
    std::unordered_map<FactId, std::vector<std::uint32_t>> of;
    for (std::uint32_t i = 0; i < local.edges.size(); ++i) of[local.edges[i].fact].push_back(i);
    // Later facts first; the one to keep last.
    std::vector<FactId> turns(facts.rbegin(), facts.rend());
    std::stable_partition(turns.begin(), turns.end(), [&](FactId fact) { return fact != keep; });
    for (const FactId fact : turns) {
      for (const std::uint32_t i : of[fact]) use[i] = false;
      if (ringIn(local, use)) {
        std::erase(facts, fact);
      } else {
        for (const std::uint32_t i : of[fact]) use[i] = true;
      }
    }
  }
  Conflict conflict;
  conflict.facts = std::move(facts);
  tellRings(local, use, conflict);
  return conflict;
}

}  // namespace saggar::chronology
