#include "chronology/ways.h"

#include <algorithm>

namespace saggar::chronology {
namespace {

constexpr std::uint64_t kAFact = std::uint64_t{1} << 42;
constexpr std::uint64_t kWeakness = std::uint64_t{1} << 22;

std::uint64_t costOf(const Network& network, const Edge& edge) {
  return edge.fact == kNoFact ? 1 : kAFact + network.weakness(edge.fact) * kWeakness + 1;
}

class Finder {
 public:
  Finder(const Network& network, const Selection& selection, const Order& order, Direction direction)
      : network_(network),
        selection_(selection),
        order_(order),
        waiting_(network.nodes(), false),
        cost_(network.nodes(), 0) {
    ways_.direction = direction;
    ways_.days = DayList(network.nodes());
    ways_.via.assign(network.nodes(), kNoEdge);
  }

  Ways fromOrigin() {
    const std::size_t groups = order_.groups();
    const bool forwards = ways_.direction == Direction::fromOrigin;
    for (std::size_t i = 0; i < groups; ++i) settle(order_.group(forwards ? i : groups - 1 - i));
    return std::move(ways_);
  }

  // From a point without the origin: only what can be reached is looked at, nearly always a small part.
  Ways fromPoint(Node start) {
    start_ = start;
    ways_.days.set(start, 0);
    std::vector<std::uint32_t> groups;
    std::vector<bool> seen(order_.groups(), false);
    auto reach = [&](std::uint32_t group) {
      if (seen[group]) return;
      seen[group] = true;
      groups.push_back(group);
    };
    reach(order_.groupOf[start]);
    for (std::size_t i = 0; i < groups.size(); ++i)
      for (const Node node : order_.group(groups[i]))
        for (const EdgeId id : network_.outOf(node))
          if (network_.edge(id).to != kOrigin && selection_.has(id))
            reach(order_.groupOf[network_.edge(id).to]);
    std::sort(groups.begin(), groups.end());
    for (const std::uint32_t group : groups) settle(order_.group(group));
    return std::move(ways_);
  }

 private:
  void settle(std::span<const Node> group) {
    if (group.size() == 1) {
      pull(group[0]);
      return;
    }
    // Only what a change can reach is looked at again.
    std::size_t waiting = group.size();
    for (const Node node : group) waiting_[node] = true;
    auto look = [&](Node node) {
      if (!waiting_[node]) return;
      waiting_[node] = false;
      --waiting;
      if (pull(node)) waiting += wakeBehind(node);
    };
    while (waiting > 0) {
      for (const Node node : group) look(node);
      for (auto node = group.rbegin(); waiting > 0 && node != group.rend(); ++node) look(*node);
    }
  }
  std::size_t wakeBehind(Node node) {
    const bool forwards = ways_.direction == Direction::fromOrigin;
    std::size_t woken = 0;
    for (const EdgeId id : forwards ? network_.outOf(node) : network_.into(node)) {
      const Node other = forwards ? network_.edge(id).to : network_.edge(id).from;
      if (other == kOrigin || waiting_[other] || order_.groupOf[other] != order_.groupOf[node] ||
          !selection_.has(id))
        continue;
      waiting_[other] = true;
      ++woken;
    }
    return woken;
  }

  bool pull(Node node) {
    if (node == start_) return false;
    const bool forwards = ways_.direction == Direction::fromOrigin;
    const Days before = ways_.days.has(node) ? ways_.days.of(node) : kFar;
    Days best = before;
    bool changed = false;
    for (const EdgeId id : forwards ? network_.into(node) : network_.outOf(node)) {
      if (!selection_.has(id)) continue;
      const Edge& edge = network_.edge(id);
      const Node other = forwards ? edge.from : edge.to;
      std::uint64_t cost = costOf(network_, edge);
      Days days = network_.days(id);
      if (other != start_) {
        if (other == kOrigin || !ways_.days.has(other) || other == node) continue;
        days += ways_.days.of(other);
        cost += cost_[other];
      }
      if (days > best || (days == best && cost >= cost_[node])) continue;
      best = days;
      cost_[node] = cost;
      ways_.via[node] = id;
      changed = true;
    }
    if (best != before) ways_.days.set(node, best);
    return changed;
  }

  const Network& network_;
  const Selection& selection_;
  const Order& order_;
  Node start_ = kOrigin;
  std::vector<bool> waiting_;
  std::vector<std::uint64_t>
      cost_;  // facts, then their weakness, then steps: least among ways of equal length
  Ways ways_;
};

}  // namespace

Ways waysOf(const Network& network, const Selection& selection, const Order& order, Direction direction) {
  return Finder(network, selection, order, direction).fromOrigin();
}

Ways waysFrom(const Network& network, const Selection& selection, const Order& order, Node start) {
  return Finder(network, selection, order, Direction::fromOrigin).fromPoint(start);
}

std::vector<EdgeId> edgesOf(const Network& network, const Ways& ways, Node node) {
  std::vector<EdgeId> edges;
  const bool forwards = ways.direction == Direction::fromOrigin;
  while (node != kOrigin && ways.via[node] != kNoEdge) {
    const EdgeId id = ways.via[node];
    edges.push_back(id);
    node = forwards ? network.edge(id).from : network.edge(id).to;
  }
  if (forwards) std::reverse(edges.begin(), edges.end());
  return edges;
}

}  // namespace saggar::chronology
