#include "chronology/suspects.h"

#include <algorithm>
#include <future>

#include "chronology/rings.h"

namespace saggar::chronology {
namespace {

// The weakest fact of a ring, the later of two; kNoFact if nobody states any of it.
FactId weakestOf(const Network& network, const std::vector<EdgeId>& ring) {
  FactId weakest = kNoFact;
  for (const EdgeId id : ring) {
    const FactId fact = network.edge(id).fact;
    if (fact == kNoFact) continue;
    if (weakest == kNoFact || network.weakness(fact) > network.weakness(weakest) ||
        (network.weakness(fact) == network.weakness(weakest) && fact > weakest))
      weakest = fact;
  }
  return weakest;
}

class Looker {
 public:
  Looker(const Network& network, const Selection& selection) : network_(network), selection_(selection) {}

  Suspects run() {
    found_.base = selection_;
    found_.order = orderOf(network_, selection_);
    found_.torn.assign(network_.nodes(), false);
    for (const std::uint32_t group : groupsThatMayHoldRings()) cut(group);
    if (!found_.leftOut.empty()) found_.order = orderOf(network_, found_.base);
    markWalks();
    if (!found_.leftOut.empty()) markNear();
    return std::move(found_);
  }

 private:
  void cut(std::uint32_t group) {
    Rings rings(network_, found_.base, found_.order, group);
    for (auto found = rings.find(); !found.empty(); found = rings.find()) {
      for (const Node node : found_.order.group(group)) found_.torn[node] = true;
      for (std::vector<EdgeId>& ring : found) leaveOutOf(ring);
    }
  }

  // Those of several points, and of one that an edge leads back to.
  std::vector<std::uint32_t> groupsThatMayHoldRings() const {
    std::vector<std::uint32_t> groups;
    for (std::uint32_t group = 0; group < found_.order.groups(); ++group)
      if (found_.order.group(group).size() > 1) groups.push_back(group);
    for (const Node node : found_.order.loops)
      if (node != kOrigin) groups.push_back(found_.order.groupOf[node]);
    std::sort(groups.begin(), groups.end());
    groups.erase(std::unique(groups.begin(), groups.end()), groups.end());
    return groups;
  }

  void leaveOutOf(std::vector<EdgeId>& ring) {
    // A fact may have been left out for another ring a moment ago.
    if (!std::all_of(ring.begin(), ring.end(), [&](EdgeId id) { return found_.base.has(id); })) return;
    const FactId weakest = weakestOf(network_, ring);
    if (weakest ==
        kNoFact) {  // whoever filled the network in contradicts himself: the ring is cut all the same
      found_.base.set(ring.front(), false);
      return;
    }
    for (const EdgeId id : network_.edgesOf(weakest)) found_.base.set(id, false);
    found_.leftOut.push_back(weakest);
    found_.rings.push_back(std::move(ring));
  }

  // The latest days and the earliest owe each other nothing: of a large network they are found side by side.
  void findWays() {
    auto ways = [this](Direction direction) {
      return waysOf(network_, found_.base, found_.order, direction);
    };
    const auto how = network_.edges() < kWorthAThread ? std::launch::deferred : std::launch::async;
    std::future<Ways> to = std::async(how, ways, Direction::toOrigin);
    found_.from = ways(Direction::fromOrigin);
    found_.to = to.get();
  }

  // An edge on a way that is too short has ends whose latest day is before their earliest.
  bool mayClash() const {
    const auto& loops = found_.order.loops;
    if (std::find(loops.begin(), loops.end(), kOrigin) != loops.end()) return true;
    for (Node node = 1; node < network_.nodes(); ++node)
      if (found_.from.reaches(node) && found_.to.reaches(node) &&
          found_.from.of(node) + found_.to.of(node) < 0)
        return true;
    return false;
  }

  void markWalks() {
    findWays();
    if (!mayClash()) return;
    for (EdgeId id = 0; id < network_.edges(); ++id) {
      const Edge& edge = network_.edge(id);
      if (found_.base.has(id) && found_.from.reaches(edge.from) && found_.to.reaches(edge.to) &&
          found_.from.of(edge.from) + network_.days(id) + found_.to.of(edge.to) < 0)
        found_.edges.push_back(id);
    }
  }

  // What was left out may clash with dates as well, and those with what is near them: all edges at the points that are
  // nearest to the rings.
  void markNear() {
    std::vector<bool> suspect(network_.edges(), false);
    for (const EdgeId id : found_.edges) suspect[id] = true;
    std::vector<bool> near = found_.torn;
    std::vector<Node> line;
    for (Node node = 1; node < network_.nodes(); ++node)
      if (near[node]) line.push_back(node);
    const std::size_t most = line.size() + kMostNear;
    for (std::size_t i = 0; i < line.size(); ++i) {
      auto reach = [&](const Arc& arc) {
        if (!selection_.has(arc.edge)) return;
        suspect[arc.edge] = true;
        if (arc.other == kOrigin || near[arc.other] || line.size() >= most) return;
        near[arc.other] = true;
        line.push_back(arc.other);
      };
      for (const Arc& arc : network_.into(line[i])) reach(arc);
      for (const Arc& arc : network_.outOf(line[i])) reach(arc);
    }
    found_.edges.clear();
    for (EdgeId id = 0; id < network_.edges(); ++id)
      if (suspect[id]) found_.edges.push_back(id);
  }

  static constexpr std::size_t kMostNear = 200;
  static constexpr std::size_t kWorthAThread = 100'000;  // edges
  const Network& network_;
  const Selection& selection_;
  Suspects found_;
};

}  // namespace

Suspects suspectsOf(const Network& network, const Selection& selection) {
  return Looker(network, selection).run();
}

}  // namespace saggar::chronology
