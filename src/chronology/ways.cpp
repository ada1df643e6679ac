#include "chronology/ways.h"

#include <algorithm>
#include <unordered_map>

namespace saggar::chronology {
namespace {

constexpr std::uint64_t kAFact = std::uint64_t{1} << 42;
constexpr std::uint64_t kWeakness = std::uint64_t{1} << 22;

std::uint64_t costOf(const Arc& arc) {
  return arc.weakness == Arc::kUnstated ? 1 : kAFact + arc.weakness * kWeakness + 1;
}

// Made once for each direction: asked at every step, it would cost as much as the step.
template <Direction direction>
class Finder {
 public:
  Finder(const Network& network, const Selection& selection, const Order& order)
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
    ways_.days.set(kOrigin, 0);
    const std::size_t groups = order_.groups();
    std::size_t done = 0;
    for (std::size_t i = 0; i < groups; ++i) {
      const std::span<const Node> group = order_.group(kForwards ? i : groups - 1 - i);
      done += group.size();
      expectAfter(done);
      settle(group);
    }
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
        for (const Arc& arc : leadingOn(node))
          if (arc.other != kOrigin && selection_.has(arc.edge)) reach(order_.groupOf[arc.other]);
    std::sort(groups.begin(), groups.end());
    for (const std::uint32_t group : groups) settle(order_.group(group));
    return std::move(ways_);
  }

 private:
  static constexpr bool kForwards = direction == Direction::fromOrigin;
  std::span<const Arc> leadingHere(Node node) const {
    return kForwards ? network_.into(node) : network_.outOf(node);
  }
  std::span<const Arc> leadingOn(Node node) const {
    return kForwards ? network_.outOf(node) : network_.into(node);
  }

  // The order goes to and fro in a large network; what it will come to is known, so that nothing need wait for memory.
  void expectAfter(std::size_t done) const {
    constexpr std::size_t kAhead = 12;
    const std::vector<Node>& nodes = order_.nodes;
    if (done + 2 * kAhead >= nodes.size()) return;
    const auto coming = [&](std::size_t ahead) {
      return nodes[kForwards ? done + ahead : nodes.size() - 1 - done - ahead];
    };
    network_.expectPlace(coming(2 * kAhead), kForwards);
    const Node node = coming(kAhead);
    network_.expectRow(node, kForwards);
    prefetch(&ways_.via[node]);
    prefetch(&cost_[node]);
  }

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
    std::size_t woken = 0;
    for (const Arc& arc : leadingOn(node)) {
      const Node other = arc.other;
      if (other == kOrigin || waiting_[other] || order_.groupOf[other] != order_.groupOf[node] ||
          !selection_.has(arc.edge))
        continue;
      waiting_[other] = true;
      ++woken;
    }
    return woken;
  }

  bool pull(Node node) {
    if (node == start_) return false;
    const Days before = ways_.days.has(node) ? ways_.days.of(node) : kFar;
    Days best = before;
    const Arc* via = nullptr;
    std::uint64_t cost = kNotCounted;  // of `via`: nearly always only the last is asked for
    for (const Arc& arc : leadingHere(node)) {
      if (!selection_.has(arc.edge) || !ways_.days.has(arc.other)) continue;
      const Days days = network_.days(arc) + ways_.days.of(arc.other);
      if (days > best) continue;
      if (days == best) {
        if (cost == kNotCounted) cost = via == nullptr ? cost_[node] : costThrough(*via);
        const std::uint64_t same = costThrough(arc);
        if (same >= cost) continue;
        cost = same;
      } else {
        cost = kNotCounted;
      }
      best = days;
      via = &arc;
    }
    if (via == nullptr) return false;
    cost_[node] = cost == kNotCounted ? costThrough(*via) : cost;
    ways_.via[node] = via->edge;
    if (best != before) ways_.days.set(node, best);
    return true;
  }

  std::uint64_t costThrough(const Arc& arc) const { return costOf(arc) + cost_[arc.other]; }

  static constexpr std::uint64_t kNotCounted = 0;  // each costs a step at least

  const Network& network_;
  const Selection& selection_;
  const Order& order_;
  Node start_ = kOrigin;
  std::vector<bool> waiting_;
  // Facts, then their weakness, then steps: least among ways of equal length.
  std::vector<std::uint64_t> cost_;
  Ways ways_;
};

}  // namespace

Ways waysOf(const Network& network, const Selection& selection, const Order& order, Direction direction) {
  return direction == Direction::fromOrigin
             ? Finder<Direction::fromOrigin>(network, selection, order).fromOrigin()
             : Finder<Direction::toOrigin>(network, selection, order).fromOrigin();
}

Ways waysFrom(const Network& network, const Selection& selection, const Order& order, Node start) {
  return Finder<Direction::fromOrigin>(network, selection, order).fromPoint(start);
}

std::vector<EdgeId> shortWay(const Network& network, const Selection& selection, Node from, Node to,
                             Days most) {
  constexpr std::size_t kMostEdges = 500;
  struct Place {
    Days days;
    EdgeId via;
  };
  std::unordered_map<Node, Place> places{{from, {0, kNoEdge}}};
  std::vector<Node> line{from};
  std::size_t looked = 0;
  for (std::size_t i = 0; i < line.size(); ++i) {
    const Days days = places.at(line[i]).days;
    for (const Arc& arc : network.outOf(line[i])) {
      if (arc.other == kOrigin || arc.other == from || !selection.has(arc.edge)) continue;
      if (++looked > kMostEdges) return {};
      const Days reached = days + network.days(arc);
      const auto [place, fresh] = places.try_emplace(arc.other, Place{reached, arc.edge});
      if (!fresh && place->second.days <= reached) continue;
      place->second = {reached, arc.edge};
      line.push_back(arc.other);
    }
  }
  const auto found = places.find(to);
  if (found == places.end() || found->second.days > most) return {};
  std::vector<EdgeId> edges;
  for (Node at = to; at != from; at = network.edge(places.at(at).via).from)
    edges.push_back(places.at(at).via);
  std::reverse(edges.begin(), edges.end());
  return edges;
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
