#include "chronology/conflicts.h"

#include <algorithm>
#include <map>

#include "chronology/small_set.h"

// The problem: a network may hold more smallest sets than anybody could list, and finding all through one edge is hard
// in general. The choice: for each suspect edge that no set accounts for yet, the ring of the shortest ways is tried
// first, which is nearly always simple and gives a set with the edge in it; else simple rings through the edge are
// gone through, best first, those cut short that cannot come out below nothing, up to a number of steps. The cost: in
// a great tangle a fact that takes part may be missed; the bounds stay sound, since what is left is looked at again.
namespace saggar::chronology {
namespace {

constexpr std::size_t kStepsAnEdge = 20'000;
constexpr std::size_t kStepsInAll = 6'000'000;
constexpr std::size_t kMostTries = 40;  // rings through one edge that give a set without it

class Search {
 public:
  Search(const Network& network, const Selection& selection, const Suspects& suspects)
      : network_(network), selection_(selection), suspects_(suspects), sets_(network, selection) {
    accounted_.assign(network.edges(), false);
    on_.assign(network.nodes(), false);
  }

  Conflicts run() {
    for (; ringsSeen_ < suspects_.rings.size() && !full(); ++ringsSeen_)
      keep(sets_.make(suspects_.rings[ringsSeen_], suspects_.leftOut[ringsSeen_]));
    for (const EdgeId edge : suspects_.edges) {
      if (full()) break;
      if (network_.edge(edge).fact != kNoFact && !accounted_[edge]) lookThrough(edge);
    }
    if (full()) tellRest();
    return std::move(found_);
  }

 private:
  bool full() const { return found_.all.size() >= Conflicts::kMost; }

  // What is sure to clash: suspect by the days around it, or on a ring that was not looked at. What only stands near a
  // ring may take no part.
  void tellRest() {
    auto tell = [&](EdgeId edge) {
      if (network_.edge(edge).fact != kNoFact && !accounted_[edge])
        found_.rest.push_back(network_.edge(edge).fact);
    };
    for (const EdgeId edge : suspects_.edges)
      if (fallsShort(edge)) tell(edge);
    for (std::size_t i = ringsSeen_; i < suspects_.rings.size(); ++i)
      for (const EdgeId edge : suspects_.rings[i]) tell(edge);
    std::sort(found_.rest.begin(), found_.rest.end());
    found_.rest.erase(std::unique(found_.rest.begin(), found_.rest.end()), found_.rest.end());
  }

  // The shortest way there, the edge and the shortest way back.
  bool fallsShort(EdgeId id) const {
    const Edge& edge = network_.edge(id);
    return suspects_.from.reaches(edge.from) && suspects_.to.reaches(edge.to) &&
           suspects_.from.of(edge.from) + network_.days(id) + suspects_.to.of(edge.to) < 0;
  }

  void keep(Conflict conflict) {
    if (conflict.shortBy <= 0) return;
    for (const EdgeId edge : conflict.edges) accounted_[edge] = true;
    const auto [place, fresh] = places_.emplace(conflict.facts, found_.all.size());
    if (fresh) {
      found_.all.push_back(std::move(conflict));
      return;
    }
    Conflict& old = found_.all[place->second];
    old.shortBy = std::max(old.shortBy, conflict.shortBy);
    std::vector<EdgeId> edges;
    std::set_union(old.edges.begin(), old.edges.end(), conflict.edges.begin(), conflict.edges.end(),
                   std::back_inserter(edges));
    old.edges = std::move(edges);
  }

  bool tryRing(const std::vector<EdgeId>& ring, EdgeId through) {
    Conflict conflict = sets_.make(ring, network_.edge(through).fact);
    const bool in = std::binary_search(conflict.edges.begin(), conflict.edges.end(), through);
    if (in) keep(std::move(conflict));
    return in;
  }

  void lookThrough(EdgeId id) {
    const Edge& edge = network_.edge(id);
    if (edge.from == edge.to) {
      if (network_.days(id) < 0) keep(sets_.make({id}, edge.fact));
      return;
    }
    const bool known = suspects_.base.has(id) && !(suspects_.torn[edge.from] && suspects_.torn[edge.to]);
    if (fallsShort(id)) {
      std::vector<EdgeId> ring = edgesOf(network_, suspects_.from, edge.from);
      const auto back = edgesOf(network_, suspects_.to, edge.to);
      ring.push_back(id);
      ring.insert(ring.end(), back.begin(), back.end());
      if (isSimple(ring) && tryRing(ring, id)) return;
    }
    if (steps_ >= kStepsInAll) return;
    goal_ = edge.from;
    through_ = id;
    // Bounds on the way that is left are of use only where no shorter way was left out.
    pruned_ = known && suspects_.leftOut.empty();
    tries_ = kMostTries;
    limit_ = std::min(steps_ + kStepsAnEdge, kStepsInAll);
    path_.assign(1, id);
    on_[edge.from] = on_[edge.to] = true;
    walk(edge.to, network_.days(id), edge.from == kOrigin || edge.to == kOrigin, 0);
    on_[edge.from] = on_[edge.to] = false;
  }

  bool isSimple(const std::vector<EdgeId>& ring) {
    bool simple = true;
    for (const EdgeId id : ring) {
      simple &= !on_[network_.edge(id).to];
      on_[network_.edge(id).to] = true;
    }
    for (const EdgeId id : ring) on_[network_.edge(id).to] = false;
    return simple;
  }

  // The least that the rest of the ring can come to from here.
  Days left(Node at, bool passed) const {
    const Ways& from = suspects_.from;
    if (!passed)
      return suspects_.to.reaches(at) && from.reaches(goal_) ? suspects_.to.of(at) + from.of(goal_) : kFar;
    if (!from.reaches(at)) return -kFar;
    return from.reaches(goal_) ? from.of(goal_) - from.of(at) : kFar;
  }

  // Gives true when a set with the edge was found, or nothing more may be tried.
  bool walk(Node at, Days sum, bool passed, std::size_t depth) {
    constexpr std::size_t kDeepest = 2'000;
    if (at == goal_) {
      if (sum >= 0) return false;
      return tryRing(path_, through_) || --tries_ == 0;
    }
    if (depth > kDeepest) return false;
    struct Choice {
      Days best;
      EdgeId edge;
    };
    std::vector<Choice> choices;
    for (const Arc& arc : at == kOrigin ? network_.outOfOrigin() : network_.outOf(at)) {
      if (++steps_ > limit_) return true;
      if (!selection_.has(arc.edge)) continue;
      const Node to = arc.other;
      if (on_[to] && to != goal_) continue;
      const Days next = sum + network_.days(arc);
      const Days best = !pruned_ ? next : to == goal_ ? next : next + left(to, passed || to == kOrigin);
      if (pruned_ && best >= 0) continue;
      choices.push_back({best, arc.edge});
    }
    std::sort(choices.begin(), choices.end(), [](const Choice& a, const Choice& b) {
      return a.best != b.best ? a.best < b.best : a.edge < b.edge;
    });
    for (const Choice& choice : choices) {
      const Node to = network_.edge(choice.edge).to;
      path_.push_back(choice.edge);
      const bool was = on_[to];
      on_[to] = true;
      const bool done = walk(to, sum + network_.days(choice.edge), passed || to == kOrigin, depth + 1);
      on_[to] = was;
      path_.pop_back();
      if (done) return true;
    }
    return false;
  }

  const Network& network_;
  const Selection& selection_;
  const Suspects& suspects_;
  SmallSets sets_;
  Conflicts found_;
  std::map<std::vector<FactId>, std::size_t> places_;
  std::size_t ringsSeen_ = 0;
  std::vector<bool> accounted_;
  std::vector<bool> on_;
  std::vector<EdgeId> path_;
  Node goal_ = kOrigin;
  EdgeId through_ = kNoEdge;
  bool pruned_ = false;
  std::size_t tries_ = 0;
  std::size_t steps_ = 0;
  std::size_t limit_ = 0;
};

}  // namespace

Conflicts conflictsOf(const Network& network, const Selection& selection, const Suspects& suspects) {
  if (suspects.none()) return {};
  return Search(network, selection, suspects).run();
}

}  // namespace saggar::chronology
