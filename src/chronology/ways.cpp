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
      : network_(network), selection_(selection), order_(order) {
    ways_.direction = direction;
    ways_.days.assign(network.nodes(), kFar);
    ways_.cost.assign(network.nodes(), 0);
    ways_.via.assign(network.nodes(), kNoEdge);
  }

  // From the origin; or, if `start` is another point, from there without the origin.
  Ways run(Node start) {
    start_ = start;
    const std::size_t groups = order_.groups();
    std::size_t first = 0;
    if (start != kOrigin) {
      ways_.days[start] = 0;
      first = order_.groupOf[start];
    }
    for (std::size_t i = first; i < groups; ++i) {
      const bool forwards = ways_.direction == Direction::fromOrigin;
      settle(order_.group(forwards ? i : groups - 1 - i));
    }
    return std::move(ways_);
  }

 private:
  void settle(std::span<const Node> group) {
    if (group.size() == 1) {
      pull(group[0]);
      return;
    }
    for (bool changed = true; changed;) {
      changed = false;
      for (const Node node : group) changed |= pull(node);
      if (!changed) return;
      changed = false;
      for (auto node = group.rbegin(); node != group.rend(); ++node) changed |= pull(*node);
    }
  }

  bool pull(Node node) {
    if (node == start_) return false;
    const bool forwards = ways_.direction == Direction::fromOrigin;
    Days& best = ways_.days[node];
    bool changed = false;
    for (const EdgeId id : forwards ? network_.into(node) : network_.outOf(node)) {
      if (!selection_.has(id)) continue;
      const Edge& edge = network_.edge(id);
      const Node other = forwards ? edge.from : edge.to;
      std::uint64_t cost = costOf(network_, edge);
      Days days = network_.days(id);
      if (other != start_) {
        if (other == kOrigin || ways_.days[other] >= kFar || other == node) continue;
        days += ways_.days[other];
        cost += ways_.cost[other];
      }
      if (days > best || (days == best && cost >= ways_.cost[node])) continue;
      best = days;
      ways_.cost[node] = cost;
      ways_.via[node] = id;
      changed = true;
    }
    return changed;
  }

  const Network& network_;
  const Selection& selection_;
  const Order& order_;
  Node start_ = kOrigin;
  Ways ways_;
};

// Whether some ring of shorter and shorter ways has come about: the edges of it.
class Rings {
 public:
  Rings(const Network& network, const Selection& selection, const Order& order, std::size_t group)
      : network_(network), selection_(selection), order_(order), group_(order.group(group)), number_(group) {
    place_.reserve(group_.size());
    days_.assign(group_.size(), 0);
    via_.assign(group_.size(), kNoEdge);
  }

  std::optional<std::vector<EdgeId>> find() {
    for (std::uint32_t i = 0; i < group_.size(); ++i) place_.emplace(group_[i], i);
    if (!anyNegative()) return std::nullopt;
    for (std::size_t sweeps = 0;; ++sweeps) {
      if (!sweep(sweeps % 2 == 1)) return std::nullopt;
      if (sweeps < 3 || (sweeps & (sweeps - 1)) == 0 || sweeps > group_.size())
        if (auto ring = ringOfVias()) return ring;
    }
  }

 private:
  bool inside(const Edge& edge) const {
    return edge.from != kOrigin && edge.to != kOrigin && order_.groupOf[edge.from] == number_ &&
           order_.groupOf[edge.to] == number_;
  }

  bool anyNegative() const {
    for (const Node node : group_)
      for (const EdgeId id : network_.outOf(node))
        if (selection_.has(id) && inside(network_.edge(id)) && network_.days(id) < 0) return true;
    return false;
  }

  bool sweep(bool backwards) {
    bool changed = false;
    for (std::size_t step = 0; step < group_.size(); ++step) {
      const std::size_t at = backwards ? group_.size() - 1 - step : step;
      for (const EdgeId id : network_.into(group_[at])) {
        const Edge& edge = network_.edge(id);
        if (!selection_.has(id) || !inside(edge)) continue;
        const Days days = days_[place_.at(edge.from)] + network_.days(id);
        if (days >= days_[at]) continue;
        days_[at] = days;
        via_[at] = id;
        changed = true;
      }
    }
    return changed;
  }

  std::optional<std::vector<EdgeId>> ringOfVias() const {
    std::vector<std::uint32_t> seen(group_.size(), 0);
    std::uint32_t round = 0;
    for (std::uint32_t start = 0; start < group_.size(); ++start) {
      ++round;
      std::uint32_t at = start;
      while (seen[at] == 0 && via_[at] != kNoEdge) {
        seen[at] = round;
        at = place_.at(network_.edge(via_[at]).from);
      }
      if (seen[at] != round || via_[at] == kNoEdge) continue;
      std::vector<EdgeId> ring;
      const std::uint32_t first = at;
      do {
        ring.push_back(via_[at]);
        at = place_.at(network_.edge(via_[at]).from);
      } while (at != first);
      std::reverse(ring.begin(), ring.end());
      return ring;
    }
    return std::nullopt;
  }

  const Network& network_;
  const Selection& selection_;
  const Order& order_;
  std::span<const Node> group_;
  std::size_t number_;
  std::unordered_map<Node, std::uint32_t> place_;
  std::vector<Days> days_;
  std::vector<EdgeId> via_;
};

}  // namespace

Ways waysOf(const Network& network, const Selection& selection, const Order& order, Direction direction) {
  return Finder(network, selection, order, direction).run(kOrigin);
}

Ways waysFrom(const Network& network, const Selection& selection, const Order& order, Node start) {
  return Finder(network, selection, order, Direction::fromOrigin).run(start);
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

std::optional<std::vector<EdgeId>> cycleIn(const Network& network, const Selection& selection,
                                           const Order& order, std::size_t group) {
  return Rings(network, selection, order, group).find();
}

}  // namespace saggar::chronology
