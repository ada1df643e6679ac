#include <algorithm>

#include "chronology/solver.h"

// Treatments on several shapes: what of their days follows from those of the shapes, and of a shape's from theirs.
namespace saggar::chronology {

using dates::Day;

// A treatment on several shapes is not older than the oldest of them: that day follows from the rest of the network, so
// that it is set again, from nothing, until nothing moves.
Solver::Settled Solver::settled(const Selection& wanted, Set set) {
  for (const ShapeChoice& choice : gathered_.shapes)
    for (const EdgeId edge : choice.edges[set]) network_.setDays(edge, kBindsNothing);
  Settled now{binding(wanted, set), {}};
  now.suspects = suspectsOf(network_, now.selection);
  for (int round = 0; round < kMostRounds && !gathered_.shapes.empty(); ++round) {
    bool moved = false;
    for (const ShapeChoice& choice : gathered_.shapes) {
      Day from = Day::plusInfinity();
      Day until = Day::minusInfinity();
      for (std::size_t i = 0; i < choice.shapes.size(); ++i) {
        const auto [introduced, withdrawn] = lifeOf(choice.shapes[i]);
        if (!choice.sides[0].ruledOut[i]) from = std::min(from, earliestOf(now.suspects.to, introduced));
        if (!choice.sides[1].ruledOut[i]) until = std::max(until, latestOf(now.suspects.from, withdrawn));
      }
      const EdgeId* edges = choice.edges[set];
      if (from.isFinite() && network_.days(edges[0]) > -from.number()) {
        network_.setDays(edges[0], -from.number());
        moved = true;
      }
      if (until.isFinite() && network_.days(edges[1]) > until.number()) {
        network_.setDays(edges[1], until.number());
        moved = true;
      }
    }
    if (!moved) break;
    now.selection = binding(wanted, set);
    now.suspects = suspectsOf(network_, now.selection);
  }
  return now;
}

// Without the edges of several shapes that have no day yet.
Selection Solver::binding(Selection selection, Set set) const {
  for (const ShapeChoice& choice : gathered_.shapes)
    for (const EdgeId edge : choice.edges[set])
      if (network_.days(edge) == kBindsNothing) selection.set(edge, false);
  return selection;
}

// The day of several shapes rests on that of each, and what one of them alone must admit on what rules the others out:
// those reasons take part as well.
Conflicts Solver::conflicts(const Settled& settled) const {
  Conflicts found = conflictsOf(network_, settled.selection, settled.suspects);
  for (Conflict& conflict : found.all) {
    const std::size_t before = conflict.edges.size();
    for (std::size_t i = 0; i < conflict.edges.size(); ++i) {
      const ShapeChoice* choice = gathered_.choiceOfShapes(network_.edge(conflict.edges[i]).fact);
      if (choice == nullptr) continue;
      const auto add = [&](EdgeId id) {
        const FactId fact = network_.edge(id).fact;
        if (fact == kNoFact ||
            std::find(conflict.edges.begin(), conflict.edges.end(), id) != conflict.edges.end())
          return;
        conflict.edges.push_back(id);
        conflict.facts.push_back(fact);
      };
      const ShapeChoice::Side& side = choice->sideOf(conflict.edges[i]);
      const bool early = &side == &choice->sides[0];
      if (choice->restsOnAll(conflict.edges[i]))
        for (std::size_t k = 0; k < choice->shapes.size(); ++k) {
          if (side.ruledOut[k]) continue;
          const auto [introduced, withdrawn] = lifeOf(choice->shapes[k]);
          for (const EdgeId id : early ? edgesOf(network_, settled.suspects.to, introduced)
                                       : edgesOf(network_, settled.suspects.from, withdrawn))
            add(id);
        }
      for (const EdgeId id : side.against) add(id);
    }
    if (conflict.edges.size() == before) continue;
    std::sort(conflict.edges.begin(), conflict.edges.end());
    std::sort(conflict.facts.begin(), conflict.facts.end());
    conflict.facts.erase(std::unique(conflict.facts.begin(), conflict.facts.end()), conflict.facts.end());
  }
  return found;
}

// The days of several shapes must rest on what is taken, not on what is left out. So facts are taken without those days
// first; where these then clash with what was taken, the weakest fact of each contradiction, the reasons of the days
// among them, is left out from the start.
Strongest Solver::strongest(const Selection& wanted, const Settled& all, Set set) {
  if (gathered_.shapes.empty()) return strongestOf(network_, all.selection, all.suspects, inFileOrder());
  std::vector<FactId> out;
  for (int round = 0;; ++round) {
    Selection plain = without(wanted, out);
    for (const ShapeChoice& choice : gathered_.shapes)
      for (const EdgeId edge : choice.edges[set]) plain.set(edge, false);
    Strongest taken = strongestOf(network_, plain, suspectsOf(network_, plain), inFileOrder());
    taken.leftOut.insert(taken.leftOut.end(), out.begin(), out.end());
    Settled now = settled(without(wanted, taken.leftOut), set);
    if (!now.suspects.none()) {
      if (round < kMostRounds && leaveOutWeakest(conflicts(now), out)) continue;
      // A great tangle: what clashes with days worked out already gives way to them.
      Strongest rest = strongestOf(network_, now.selection, now.suspects, inFileOrder());
      now.selection = std::move(rest.selection);
      taken.leftOut.insert(taken.leftOut.end(), rest.leftOut.begin(), rest.leftOut.end());
    }
    std::sort(taken.leftOut.begin(), taken.leftOut.end());
    return {std::move(now.selection), std::move(taken.leftOut)};
  }
}

Selection Solver::without(Selection selection, const std::vector<FactId>& facts) const {
  for (const FactId fact : facts)
    for (const EdgeId edge : network_.edgesOf(fact)) selection.set(edge, false);
  return selection;
}

// The best known of the weakest first: without it, another contradiction may be none, and what was left out that is weaker
// still may stand after all. Gives whether there was any.
bool Solver::leaveOutWeakest(const Conflicts& conflicts, std::vector<FactId>& out) const {
  const auto earlier = inFileOrder();
  const auto better = [&](FactId a, FactId b) {
    return network_.weakness(a) != network_.weakness(b) ? network_.weakness(a) < network_.weakness(b)
                                                        : earlier(a, b);
  };
  std::vector<std::pair<FactId, const Conflict*>> weakest;
  for (const Conflict& conflict : conflicts.all)
    if (!conflict.facts.empty())
      weakest.emplace_back(*std::max_element(conflict.facts.begin(), conflict.facts.end(), better),
                           &conflict);
  std::sort(weakest.begin(), weakest.end(),
            [&](const auto& a, const auto& b) { return better(a.first, b.first); });
  if (weakest.empty()) return false;
  std::erase_if(out, [&](FactId one) { return better(weakest.front().first, one); });
  for (const auto& [fact, conflict] : weakest)
    if (std::none_of(conflict->facts.begin(), conflict->facts.end(),
                     [&](FactId one) { return std::find(out.begin(), out.end(), one) != out.end(); }))
      out.push_back(fact);
  return true;
}

// A shape that came after the treatment's first day was not the one that admits it, and one that was gone before its last
// not that one.
bool Solver::ruleOutShapes() {
  bool any = false;
  for (ShapeChoice& choice : gathered_.shapes) {
    const auto [begun, ended] = lifeOf(choice.treatment);
    for (const bool first : {true, false}) {
      ShapeChoice::Side& side = choice.sides[first ? 0 : 1];
      struct Out {
        std::size_t shape;
        std::vector<EdgeId> because;
      };
      bool byDays = true;
      std::vector<Out> out;
      std::size_t left = 0;
      for (std::size_t i = 0; i < choice.shapes.size(); ++i) {
        if (side.ruledOut[i]) continue;
        ++left;
        const auto [introduced, withdrawn] = lifeOf(choice.shapes[i]);
        const Node earlier = first ? begun : withdrawn;
        const Node later = first ? introduced : ended;
        auto because = surelyBefore(earlier, later);
        if (because.empty()) continue;
        byDays &= areApart(earlier, later);
        out.push_back({i, std::move(because)});
      }
      // Where none is left the facts clash. By their days, that is told with all of them; else with the last.
      if (out.size() == left && (byDays || left == 1)) continue;
      if (out.size() == left) out.pop_back();
      if (out.empty()) continue;
      any = true;
      for (const Out& one : out) {
        side.ruledOut[one.shape] = true;
        for (const EdgeId id : one.because)
          if (network_.edge(id).fact != choice.fact) side.against.push_back(id);
      }
    }
  }
  return any;
}

bool Solver::areApart(Node earlier, Node later) const {
  return latestOf(proof_.suspects.from, earlier) < earliestOf(proof_.suspects.to, later);
}

// The reasons, where documented facts say that it was; else none.
std::vector<EdgeId> Solver::surelyBefore(Node earlier, Node later) const {
  if (areApart(earlier, later)) {
    const Suspects& proof = proof_.suspects;
    std::vector<EdgeId> because = edgesOf(network_, proof.from, earlier);
    const std::vector<EdgeId> back = edgesOf(network_, proof.to, later);
    because.insert(because.end(), back.begin(), back.end());
    return because;
  }
  return shortWay(network_, proof_.selection, later, earlier, -1);
}

}  // namespace saggar::chronology
