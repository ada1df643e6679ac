#include "chronology/strongest.h"

#include <algorithm>
#include <numeric>
#include <queue>
#include <unordered_map>
#include <unordered_set>

// The problem: to add each of 400,000 facts to a growing network costs more than to solve it. The choice: only facts
// that may clash are taken one by one, each part of the network that holds together by itself; all others are in from
// the start. What came of it is solved as a whole, and if other facts clash with what is new, they are taken one by one
// as well. The cost: seldom a second round.
namespace saggar::chronology {
namespace {

constexpr std::size_t kMostWork = 60'000'000;

// A network that grows edge by edge, with a length for every point that no edge contradicts (Cotton, Maler, "Fast and
// flexible difference constraint propagation for DPLL(T)", SAT 2006).
class Growing {
 public:
  // `lengths`: any at all; the better they fit what is to be added, the less there is to do.
  explicit Growing(std::vector<Days> lengths)
      : out_(lengths.size()),
        length_(std::move(lengths)),
        change_(length_.size(), 0),
        done_(length_.size(), 0) {}

  struct Part {
    std::uint32_t from, to;
    Days days;
  };

  // Adds them all, or, if they clash with what is there, none.
  bool add(const std::vector<Part>& parts, std::size_t& work) {
    undo_.clear();
    for (std::size_t i = 0; i < parts.size(); ++i) {
      if (addOne(parts[i], work)) continue;
      for (auto it = undo_.rbegin(); it != undo_.rend(); ++it) length_[it->first] = it->second;
      while (i-- > 0) out_[parts[i].from].pop_back();
      return false;
    }
    return true;
  }

 private:
  bool addOne(const Part& part, std::size_t& work) {
    if (part.from == part.to) {
      if (part.days < 0) return false;
      out_[part.from].push_back(part);
      return true;
    }
    const Days first = length_[part.from] + part.days - length_[part.to];
    if (first >= 0) {
      out_[part.from].push_back(part);
      return true;
    }
    ++round_;
    std::priority_queue<std::pair<Days, std::uint32_t>> waiting;  // the greatest fall first
    std::vector<std::uint32_t> touched{part.to};
    change_[part.to] = first;
    waiting.push({-first, part.to});
    bool fits = true;
    while (!waiting.empty() && fits) {
      const auto [fall, at] = waiting.top();
      waiting.pop();
      if (done_[at] == round_ || change_[at] != -fall) continue;
      if (at == part.from) {
        fits = false;
        break;
      }
      done_[at] = round_;
      undo_.push_back({at, length_[at]});
      length_[at] -= fall;
      for (const Part& next : out_[at]) {
        ++work;
        if (done_[next.to] == round_) continue;
        const Days change = length_[at] + next.days - length_[next.to];
        if (change >= change_[next.to]) continue;
        if (change_[next.to] == 0) touched.push_back(next.to);
        change_[next.to] = change;
        waiting.push({-change, next.to});
      }
    }
    for (const std::uint32_t at : touched) change_[at] = 0;
    if (fits) out_[part.from].push_back(part);
    return fits;
  }

  std::vector<std::vector<Part>> out_;
  std::vector<Days> length_;
  std::vector<Days> change_;
  std::vector<std::uint32_t> done_;
  std::uint32_t round_ = 0;
  std::vector<std::pair<std::uint32_t, Days>> undo_;
};

// Points that facts hold together.
class Islands {
 public:
  explicit Islands(std::size_t nodes) : up_(nodes) { std::iota(up_.begin(), up_.end(), 0U); }
  Node of(Node node) {
    while (up_[node] != node) node = up_[node] = up_[up_[node]];
    return node;
  }
  void join(Node a, Node b) { up_[of(a)] = of(b); }

 private:
  std::vector<Node> up_;
};

class Taker {
 public:
  Taker(const Network& network, const Selection& selection, const Earlier& earlier)
      : network_(network), all_(selection), earlier_(earlier) {}

  Strongest run(const Suspects& first) {
    addSuspects(first);
    while (true) {
      take(first.from);
      const Suspects again = suspectsOf(network_, taken_.selection);
      if (again.none()) break;
      const std::size_t before = facts_.size();
      addSuspects(again);
      if (facts_.size() > before) continue;
      // Only facts that were taken clash: the work was stopped. What may clash is left out.
      for (const EdgeId id : again.edges)
        if (network_.edge(id).fact != kNoFact) leaveOut(network_.edge(id).fact);
      break;
    }
    std::sort(taken_.leftOut.begin(), taken_.leftOut.end());
    taken_.leftOut.erase(std::unique(taken_.leftOut.begin(), taken_.leftOut.end()), taken_.leftOut.end());
    return std::move(taken_);
  }

 private:
  void addSuspects(const Suspects& suspects) {
    for (const EdgeId id : suspects.edges) {
      const FactId fact = network_.edge(id).fact;
      if (fact == kNoFact) {
        if (given_.insert(id).second) givens_.push_back(id);
      } else if (known_.insert(fact).second) {
        facts_.push_back(fact);
      }
    }
  }

  void leaveOut(FactId fact) {
    for (const EdgeId id : network_.edgesOf(fact)) taken_.selection.set(id, false);
    taken_.leftOut.push_back(fact);
  }

  void take(const Ways& from) {
    std::sort(facts_.begin(), facts_.end(), [&](FactId a, FactId b) {
      return network_.weakness(a) != network_.weakness(b) ? network_.weakness(a) < network_.weakness(b)
                                                          : earlier_(a, b);
    });
    taken_ = {all_, {}};
    Islands islands(network_.nodes());
    auto joinAll = [&](const auto& edges) {
      Node first = kOrigin;
      for (const EdgeId id : edges)
        for (const Node node : {network_.edge(id).from, network_.edge(id).to}) {
          if (node == kOrigin) continue;
          if (first != kOrigin) islands.join(first, node);
          first = node;
        }
    };
    for (const FactId fact : facts_) joinAll(network_.edgesOf(fact));
    for (const EdgeId id : givens_) joinAll(std::initializer_list<EdgeId>{id});
    struct Island {
      std::vector<EdgeId> givens;
      std::vector<FactId> facts;
    };
    std::vector<Island> parts;
    std::unordered_map<Node, std::size_t> places;
    auto islandOf = [&](EdgeId id) -> Island& {
      const Edge& edge = network_.edge(id);
      const Node at = islands.of(edge.from != kOrigin ? edge.from : edge.to);
      const auto [place, fresh] = places.emplace(at, parts.size());
      if (fresh) parts.emplace_back();
      return parts[place->second];
    };
    for (const EdgeId id : givens_) islandOf(id).givens.push_back(id);
    for (const FactId fact : facts_) islandOf(network_.edgesOf(fact)[0]).facts.push_back(fact);
    for (const Island& island : parts) takeIsland(island.givens, island.facts, from);
  }

  void takeIsland(const std::vector<EdgeId>& givens, const std::vector<FactId>& facts, const Ways& from) {
    std::unordered_map<Node, std::uint32_t> places;
    auto placeOf = [&](Node node) {
      return places.emplace(node, static_cast<std::uint32_t>(places.size())).first->second;
    };
    auto partsOf = [&](std::span<const EdgeId> edges) {
      std::vector<Growing::Part> parts;
      for (const EdgeId id : edges)
        if (all_.has(id))
          parts.push_back(
              {placeOf(network_.edge(id).from), placeOf(network_.edge(id).to), network_.days(id)});
      return parts;
    };
    std::vector<std::vector<Growing::Part>> wanted;
    for (const EdgeId id : givens) wanted.push_back(partsOf({&id, 1}));
    for (const FactId fact : facts) wanted.push_back(partsOf(network_.edgesOf(fact)));
    // The latest days, as they would be if no two facts clashed, fit nearly all of them.
    std::vector<Days> lengths(places.size());
    for (const auto& [node, place] : places) lengths[place] = from.reaches(node) ? from.of(node) : kFar;
    Growing growing(std::move(lengths));
    for (std::size_t i = 0; i < wanted.size(); ++i) {
      const bool fact = i >= givens.size();
      if (work_ < kMostWork && growing.add(wanted[i], work_)) continue;
      if (fact) leaveOut(facts[i - givens.size()]);
    }
  }

  const Network& network_;
  const Selection& all_;
  const Earlier& earlier_;
  Strongest taken_;
  std::vector<FactId> facts_;
  std::unordered_set<FactId> known_;
  std::vector<EdgeId> givens_;
  std::unordered_set<EdgeId> given_;
  std::size_t work_ = 0;
};

}  // namespace

Strongest strongestOf(const Network& network, const Selection& selection, const Suspects& suspects,
                      const Earlier& earlier) {
  if (suspects.none()) return {selection, {}};
  return Taker(network, selection, earlier).run(suspects);
}

}  // namespace saggar::chronology
