#include "chronology/solver.h"

#include <algorithm>
#include <tuple>

namespace saggar::chronology {

using dates::Day;

namespace {

constexpr int kMostRounds = 30;

Day earliestOf(const Ways& to, Node node) {
  return node != kNoNode && to.reaches(node) ? Day::fromNumber(-to.of(node)) : Day::minusInfinity();
}
Day latestOf(const Ways& from, Node node) {
  return node != kNoNode && from.reaches(node) ? Day::fromNumber(from.of(node)) : Day::plusInfinity();
}

}  // namespace

Selection Solver::select(std::uint8_t use, Set set, bool (*wanted)(const Fact&)) const {
  Selection selection(network_.edges(), false);
  for (EdgeId id = 0; id < network_.edges(); ++id) {
    const FactId fact = network_.edge(id).fact;
    selection.set(id, (gathered_.uses[id] & use) != 0 && (fact == kNoFact || wanted(gathered_.facts[fact])));
  }
  for (const ShapeChoice& choice : gathered_.shapes)
    if (wanted(gathered_.facts[choice.fact]))
      for (const EdgeId id : choice.edges[set]) selection.set(id, true);
  return selection;
}

// A treatment on one of several shapes is not older than the oldest of them: that day follows from the rest of the
// network, so that it is set again until nothing moves.
Suspects Solver::settled(Selection& selection, Set set) {
  Suspects suspects = suspectsOf(network_, selection);
  for (int round = 0; round < kMostRounds && !gathered_.shapes.empty(); ++round) {
    bool moved = false;
    for (const ShapeChoice& choice : gathered_.shapes) {
      Day from = Day::plusInfinity();
      Day until = Day::minusInfinity();
      for (const RecordIndex shape : choice.shapes) {
        from = std::min(from, earliestOf(suspects.to, out_.events_->nodeOf(shape, "introduced"_f)));
        until = std::max(until, latestOf(suspects.from, out_.events_->nodeOf(shape, "withdrawn"_f)));
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
    suspects = suspectsOf(network_, selection);
  }
  return suspects;
}

Earlier Solver::inFileOrder() const {
  return [this](FactId a, FactId b) {
    const auto place = [&](FactId id) {
      const Fact& fact = gathered_.facts[id];
      return std::tuple(fact.record, (fact.cites() ? fact.citation->place : fact.value->place).begin, id);
    };
    return place(a) < place(b);
  };
}

void Solver::run() {
  for (int round = 0; round < kMostRounds; ++round) {
    prove();
    if (!strikeOut()) break;
  }
  out_.proven_ = {std::move(proof_.from), std::move(proof_.to)};
  proof_ = {};
  clash();
  guess();
  std::sort(out_.disputed_.begin(), out_.disputed_.end());
  out_.disputed_.erase(std::unique(out_.disputed_.begin(), out_.disputed_.end()), out_.disputed_.end());
}

// Documented facts; every bound in a smallest set that cannot be true is open, until no such set is left.
void Solver::prove() {
  out_.open_.clear();
  out_.disputed_.clear();
  Selection facts = select(kWide, documented, [](const Fact& fact) { return fact.proves(); });
  while (true) {
    proof_ = settled(facts, documented);
    if (proof_.none()) break;
    const Conflicts conflicts = conflictsOf(network_, facts, proof_);
    const std::size_t before = out_.open_.size();
    for (const Conflict& conflict : conflicts.all) {
      for (const EdgeId edge : conflict.edges) {
        facts.set(edge, false);
        out_.open_.push_back(edge);
      }
      for (const FactId fact : conflict.facts) dispute(fact);
    }
    for (const FactId fact : conflicts.rest) {
      dispute(fact);
      for (const EdgeId edge : network_.edgesOf(fact)) {
        if (!facts.has(edge)) continue;
        facts.set(edge, false);
        out_.open_.push_back(edge);
      }
    }
    if (out_.open_.size() > before) continue;
    // Nothing smaller was found in a great tangle: all that may clash is open.
    for (const EdgeId edge : proof_.edges) {
      facts.set(edge, false);
      out_.open_.push_back(edge);
    }
  }
  std::sort(out_.open_.begin(), out_.open_.end());
  out_.provenFacts_ = facts;
}

// One round: members of a choice that documented facts rule out. The last is never struck out.
bool Solver::strikeOut() {
  bool any = false;
  for (Choice& choice : gathered_.choices) {
    const Day from = earliestOf(proof_.to, choice.node);
    const Day until = latestOf(proof_.from, choice.node);
    std::vector<Choice::Member*> out;
    std::size_t left = 0;
    for (Choice::Member& member : choice.members) {
      if (member.struckOut) continue;
      ++left;
      if (member.wide.latest < from || member.wide.earliest > until) out.push_back(&member);
    }
    if (out.empty() || left <= 1) continue;
    if (out.size() == left) {
      // All clash: what misses least stays, and its clash is a conflict.
      const auto miss = [&](const Choice::Member* member) {
        return member->wide.latest < from ? from.number() - member->wide.latest.number()
                                          : member->wide.earliest.number() - until.number();
      };
      out.erase(std::min_element(out.begin(), out.end(),
                                 [&](const auto* a, const auto* b) { return miss(a) < miss(b); }));
    }
    for (Choice::Member* member : out) strike(choice, *member, member->wide.latest < from);
    dates::Bounds hull[2] = {{Day::plusInfinity(), Day::minusInfinity()},
                             {Day::plusInfinity(), Day::minusInfinity()}};
    for (const Choice::Member& member : choice.members) {
      if (member.struckOut) continue;
      hull[0] = {std::min(hull[0].earliest, member.wide.earliest),
                 std::max(hull[0].latest, member.wide.latest)};
      hull[1] = {std::min(hull[1].earliest, member.plain.earliest),
                 std::max(hull[1].latest, member.plain.latest)};
    }
    for (int i = 0; i < 2; ++i) {
      if (choice.edges[2 * i] != kNoEdge && hull[i].earliest.isFinite())
        network_.setDays(choice.edges[2 * i], -hull[i].earliest.number());
      if (choice.edges[2 * i + 1] != kNoEdge && hull[i].latest.isFinite())
        network_.setDays(choice.edges[2 * i + 1], hull[i].latest.number());
    }
    any = true;
  }
  return any;
}

void Solver::strike(Choice& choice, Choice::Member& member, bool early) {
  member.struckOut = true;
  for (const EdgeId edge : edgesOf(network_, early ? proof_.to : proof_.from, choice.node)) {
    const FactId fact = network_.edge(edge).fact;
    if (fact != kNoFact && fact != choice.fact) member.against.push_back(fact);
  }
  // From the date that it starts with to the event itself.
  if (early) std::reverse(member.against.begin(), member.against.end());
}

void Solver::tell(const Conflicts& conflicts, bool atFaceValue) {
  for (const Conflict& conflict : conflicts.all) {
    // What clashes at wide bounds is told once.
    const bool told =
        atFaceValue && std::any_of(out_.clashes_.begin(), out_.clashes_.end(), [&](const Clash& old) {
          return !old.atFaceValue && std::includes(conflict.facts.begin(), conflict.facts.end(),
                                                   old.facts.begin(), old.facts.end());
        });
    if (!told) out_.clashes_.push_back({conflict.facts, conflict.edges, conflict.shortBy, atFaceValue});
  }
  if (!atFaceValue) out_.alsoClashing_ = conflicts.rest;
}

void Solver::clash() {
  Selection facts =
      select(kWide, wide, [](const Fact& fact) { return !fact.doubted && fact.says != Says::offered; });
  Suspects suspects = settled(facts, wide);
  tell(conflictsOf(network_, facts, suspects), false);
  if (suspects.none()) {
    out_.tests_ = {std::move(suspects.from), std::move(suspects.to)};
    out_.testFacts_ = std::move(facts);
    return;
  }
  Strongest strongest = strongestOf(network_, facts, suspects, inFileOrder());
  for (const FactId fact : strongest.leftOut) dispute(fact);
  const Order order = orderOf(network_, strongest.selection);
  out_.tests_ = {waysOf(network_, strongest.selection, order, Direction::fromOrigin),
                 waysOf(network_, strongest.selection, order, Direction::toOrigin)};
  out_.testFacts_ = std::move(strongest.selection);
}

void Solver::guess() {
  Selection facts = select(kPlain, likely, [](const Fact&) { return true; });
  Suspects suspects = settled(facts, likely);
  if (suspects.none()) {
    out_.likely_ = {std::move(suspects.from), std::move(suspects.to)};
    out_.likelyFacts_ = facts;
    return;
  }
  Selection face =
      select(kPlain, likely, [](const Fact& fact) { return !fact.doubted && fact.says != Says::offered; });
  const Suspects atFaceValue = suspectsOf(network_, face);
  tell(conflictsOf(network_, face, atFaceValue), true);
  Strongest strongest = strongestOf(network_, facts, suspects, inFileOrder());
  for (const FactId fact : strongest.leftOut) {
    const Fact& one = gathered_.facts[fact];
    if (one.says != Says::offered && !one.doubted) dispute(fact);
  }
  const Order order = orderOf(network_, strongest.selection);
  out_.likely_ = {waysOf(network_, strongest.selection, order, Direction::fromOrigin),
                  waysOf(network_, strongest.selection, order, Direction::toOrigin)};
  out_.likelyFacts_ = std::move(strongest.selection);
}

}  // namespace saggar::chronology
