#include "chronology/chronology.h"

#include <algorithm>

#include "chronology/solver.h"

namespace saggar::chronology {

using dates::Day;
using dates::End;

Chronology Chronology::reason(const linking::Collection& collection, const evidence::Weights& weights,
                              const CodeDates& codes) {
  Chronology made;
  made.events_ = std::make_shared<Events>(collection);
  made.gathered_ = std::make_shared<Gathered>(gather(collection, weights, *made.events_, codes));
  Solver(made).run();
  made.gathered_->network.dropIndex();
  made.gathered_->uses = {};
  made.precedence_ = sharedIndex();
  return made;
}

const Chronology::Bounds& Chronology::of(BoundsOf which) const {
  return which == BoundsOf::proven ? proven_ : which == BoundsOf::likely ? likely_ : tests_;
}

dates::Bounds Chronology::bounds(Node event, BoundsOf which) const {
  dates::Bounds out{Day::minusInfinity(), Day::plusInfinity()};
  if (gathered_ == nullptr || event == kOrigin || event >= events_->count()) return out;
  const Bounds& bounds = of(which);
  if (bounds.to.reaches(event)) out.earliest = Day::fromNumber(-bounds.to.of(event));
  if (bounds.from.reaches(event)) out.latest = Day::fromNumber(bounds.from.of(event));
  return out;
}

std::vector<FactId> Chronology::because(Node event, BoundsOf which, End end) const {
  Chain chain;
  if (gathered_ != nullptr && event != kOrigin && event < events_->count()) tell(event, which, end, chain);
  return std::move(chain.facts);
}

void Chronology::tell(Node event, BoundsOf which, End end, Chain& told) const {
  const bool early = end == End::Earliest;
  const std::vector<EdgeId>& via = early ? of(which).to.via : of(which).from.via;
  auto add = [&](FactId fact) {
    if (fact != kNoFact && told.known.insert(fact).second) told.facts.push_back(fact);
  };
  std::vector<FactId> chain;
  for (Node at = event; at != kOrigin && via[at] != kNoEdge;) {
    const Edge& step = edge(via[at]);
    chain.push_back(step.fact);
    at = early ? step.to : step.from;
  }
  for (auto fact = chain.rbegin(); fact != chain.rend(); ++fact) {
    // The day of several shapes rests on that of each, which may rest on others, and these on the first again.
    const ShapeChoice* ofShapes = gathered_->choiceOfShapes(*fact);
    if (ofShapes != nullptr && told.asked.insert(*fact).second)
      for (const RecordIndex shape : ofShapes->shapes)
        tell(events_->nodeOf(shape, early ? "introduced"_f : "withdrawn"_f), which, end, told);
    add(*fact);
    // What a choice has left rests on what struck the others out.
    const auto& choices = gathered_->choices;
    const auto choice = std::lower_bound(choices.begin(), choices.end(), *fact,
                                         [](const Choice& one, FactId of) { return one.fact < of; });
    if (choice == choices.end() || choice->fact != *fact) continue;
    for (const Choice::Member& member : choice->members)
      for (const FactId against : member.against) add(against);
  }
}

std::vector<FactId> Chronology::open(Node event) const {
  std::vector<FactId> facts;
  if (gathered_ == nullptr || event == kOrigin || event >= events_->count()) return facts;
  for (const EdgeId id : open_)
    if (edge(id).from == event || edge(id).to == event) facts.push_back(edge(id).fact);
  std::sort(facts.begin(), facts.end());
  facts.erase(std::unique(facts.begin(), facts.end()), facts.end());
  return facts;
}

const Value* Chronology::yearsOf(FactId id) const {
  const auto& years = gathered_->years;
  const auto found = std::lower_bound(years.begin(), years.end(), id,
                                      [](const auto& one, FactId fact) { return one.first < fact; });
  return found != years.end() && found->first == id ? found->second : nullptr;
}

RecordIndex Chronology::otherOf(FactId id) const {
  return chronology::otherOf(events_->collection(), fact(id));
}

const Choice* Chronology::choiceOf(Node event) const {
  if (gathered_ == nullptr) return nullptr;
  for (const Choice& choice : gathered_->choices)
    if (choice.node == event) return &choice;
  return nullptr;
}

std::vector<Chronology::StruckOut> Chronology::struckOut() const {
  std::vector<StruckOut> all;
  if (gathered_ == nullptr) return all;
  for (const Choice& choice : gathered_->choices) {
    if (!choice.ofCode) continue;
    for (const Choice::Member& member : choice.members)
      if (member.struckOut) all.push_back({member.code, member.reading, member.against});
  }
  return all;
}

}  // namespace saggar::chronology
