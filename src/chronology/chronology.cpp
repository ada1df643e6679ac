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

namespace {

// Whether the bound would be another if the member were not struck out.
bool widens(const Choice& choice, const Choice::Member& out, bool wide, bool early) {
  if (!out.struckOut) return false;
  const auto days = [&](const Choice::Member& one) { return wide ? one.wide : one.plain; };
  return std::all_of(choice.members.begin(), choice.members.end(), [&](const Choice::Member& left) {
    return left.struckOut ||
           (early ? days(out).earliest < days(left).earliest : days(out).latest > days(left).latest);
  });
}

}  // namespace

void Chronology::tell(Node event, BoundsOf which, End end, Chain& told) const {
  const bool early = end == End::Earliest;
  const std::vector<EdgeId>& via = early ? of(which).to.via : of(which).from.via;
  auto add = [&](FactId fact) {
    if (fact != kNoFact && told.known.insert(fact).second) told.facts.push_back(fact);
  };
  std::vector<EdgeId> chain;
  for (Node at = event; at != kOrigin && via[at] != kNoEdge;) {
    chain.push_back(via[at]);
    at = early ? edge(via[at]).to : edge(via[at]).from;
  }
  for (auto step = chain.rbegin(); step != chain.rend(); ++step) {
    const FactId fact = edge(*step).fact;
    if (const ShapeChoice* ofShapes = gathered_->choiceOfShapes(fact)) {
      const ShapeChoice::Side& side = ofShapes->sideOf(*step);
      // The day of several shapes rests on that of each, which may rest on others, and these on the first again.
      if (ofShapes->restsOnAll(*step) && told.asked.insert(fact).second)
        for (std::size_t i = 0; i < ofShapes->shapes.size(); ++i)
          if (!side.ruledOut[i])
            tell(events_->nodeOf(ofShapes->shapes[i], early ? "introduced"_f : "withdrawn"_f), which, end,
                 told);
      for (const EdgeId against : side.against) add(edge(against).fact);
    }
    add(fact);
    // What a choice has left rests on what struck the others out.
    const auto& choices = gathered_->choices;
    const auto choice = std::lower_bound(choices.begin(), choices.end(), fact,
                                         [](const Choice& one, FactId of) { return one.fact < of; });
    if (choice == choices.end() || choice->fact != fact) continue;
    for (const Choice::Member& member : choice->members)
      if (widens(*choice, member, which != BoundsOf::likely, early))
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
