#include "chronology/solver.h"

#include <algorithm>
#include <tuple>

namespace saggar::chronology {

using dates::Day;

Day Solver::earliestOf(const Ways& to, Node node) {
  return node != kNoNode && to.reaches(node) ? Day::fromNumber(-to.of(node)) : Day::minusInfinity();
}
Day Solver::latestOf(const Ways& from, Node node) {
  return node != kNoNode && from.reaches(node) ? Day::fromNumber(from.of(node)) : Day::plusInfinity();
}

Selection Solver::select(std::uint8_t use, Set set, bool (*wanted)(const Fact&)) const {
  Selection selection(network_.edges(), false);
  for (EdgeId id = 0; id < network_.edges(); ++id) {
    const FactId fact = network_.edge(id).fact;
    selection.set(id, (gathered_.uses[id] & use) != 0 && (fact == kNoFact || wanted(gathered_.facts[fact])));
  }
  for (const ShapeChoice& choice : gathered_.shapes) {
    if (!wanted(gathered_.facts[choice.fact])) continue;
    for (const std::size_t side : {0, 1}) {
      const auto left = choice.sides[side].onlyOne();
      selection.set(left ? choice.sides[side].alone[*left] : choice.edges[set][side], true);
    }
  }
  return selection;
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
  out_.proven_ = {std::move(proof_.suspects.from), std::move(proof_.suspects.to)};
  out_.provenFacts_ = std::move(proof_.selection);
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
    if (proof_.suspects.none()) break;
    const Conflicts conflicts = this->conflicts(proof_);
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
    for (const EdgeId edge : proof_.suspects.edges) {
      facts.set(edge, false);
      out_.open_.push_back(edge);
    }
  }
  std::sort(out_.open_.begin(), out_.open_.end());
}

// One round: members of a choice that documented facts rule out. The last is never struck out.
bool Solver::strikeOut() {
  bool any = ruleOutShapes();
  for (Choice& choice : gathered_.choices) {
    const Day from = earliestOf(proof_.suspects.to, choice.node);
    const Day until = latestOf(proof_.suspects.from, choice.node);
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
  for (const EdgeId edge :
       edgesOf(network_, early ? proof_.suspects.to : proof_.suspects.from, choice.node)) {
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
  const Selection facts =
      select(kWide, wide, [](const Fact& fact) { return !fact.doubted && fact.says != Says::offered; });
  Settled all = settled(facts, wide);
  tell(conflicts(all), false);
  for (const FactId fact : best(facts, std::move(all), wide, out_.tests_, out_.testFacts_)) dispute(fact);
}

void Solver::guess() {
  const Selection facts = select(kPlain, likely, [](const Fact&) { return true; });
  Settled all = settled(facts, likely);
  if (!all.suspects.none()) {
    const Selection face =
        select(kPlain, likely, [](const Fact& fact) { return !fact.doubted && fact.says != Says::offered; });
    tell(conflicts(settled(face, likely)), true);
    all = settled(facts, likely);
  }
  for (const FactId fact : best(facts, std::move(all), likely, out_.likely_, out_.likelyFacts_)) {
    const Fact& one = gathered_.facts[fact];
    if (one.says != Says::offered && !one.doubted) dispute(fact);
  }
}

// The days that the best known facts give; what gave way to them.
std::vector<FactId> Solver::best(const Selection& wanted, Settled all, Set set, Chronology::Bounds& days,
                                 Selection& stands) {
  if (all.suspects.none()) {
    days = {std::move(all.suspects.from), std::move(all.suspects.to)};
    stands = std::move(all.selection);
    return {};
  }
  Strongest taken = strongest(wanted, all, set);
  const Order order = orderOf(network_, taken.selection);
  days = {waysOf(network_, taken.selection, order, Direction::fromOrigin),
          waysOf(network_, taken.selection, order, Direction::toOrigin)};
  stands = std::move(taken.selection);
  return std::move(taken.leftOut);
}

}  // namespace saggar::chronology
