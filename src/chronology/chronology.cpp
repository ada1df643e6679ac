#include "chronology/chronology.h"

#include <algorithm>

#include "chronology/solver.h"

namespace saggar::chronology {

using dates::Day;
using dates::End;

namespace {

constexpr std::int32_t kOpenDay = INT32_MIN;
constexpr std::int32_t kFarDay = INT32_MAX;  // kept beside

}  // namespace

Chronology Chronology::reason(const linking::Collection& collection, const evidence::Weights& weights,
                              AllCodeDays codes) {
  Chronology made;
  made.events_ = std::make_shared<Events>(collection);
  made.gathered_ = std::make_shared<Gathered>(gather(collection, weights, *made.events_, codes));
  codes = {};
  Solver(made).run();
  made.gathered_->network.dropIndex();
  made.gathered_->uses = {};
  return made;
}

void Chronology::keep(Bounds& bounds, const Ways& from, const Ways& to, bool chains) {
  const std::size_t count = from.days.size();
  bounds.earliest.assign(count, kOpenDay);
  bounds.latest.assign(count, kOpenDay);
  auto put = [](std::vector<std::int32_t>& days, std::unordered_map<Node, Days>& far, Node node, Days day) {
    const bool fits = day > kOpenDay && day < kFarDay;
    days[node] = fits ? static_cast<std::int32_t>(day) : kFarDay;
    if (!fits) far.emplace(node, day);
  };
  for (Node node = 1; node < count; ++node) {
    if (to.reaches(node)) put(bounds.earliest, bounds.farEarliest, node, -to.of(node));
    if (from.reaches(node)) put(bounds.latest, bounds.farLatest, node, from.of(node));
  }
  if (!chains) return;
  bounds.viaEarliest = to.via;
  bounds.viaLatest = from.via;
}

const Chronology::Bounds& Chronology::of(BoundsOf which) const {
  return which == BoundsOf::proven ? proven_ : which == BoundsOf::likely ? likely_ : tests_;
}

dates::Bounds Chronology::bounds(Node event, BoundsOf which) const {
  dates::Bounds out{Day::minusInfinity(), Day::plusInfinity()};
  if (gathered_ == nullptr || event == kOrigin || event >= events_->count()) return out;
  const Bounds& bounds = of(which);
  const std::int32_t earliest = bounds.earliest[event];
  const std::int32_t latest = bounds.latest[event];
  if (earliest == kFarDay) {
    out.earliest = Day::fromNumber(bounds.farEarliest.at(event));
  } else if (earliest != kOpenDay) {
    out.earliest = Day::fromNumber(earliest);
  }
  if (latest == kFarDay) {
    out.latest = Day::fromNumber(bounds.farLatest.at(event));
  } else if (latest != kOpenDay) {
    out.latest = Day::fromNumber(latest);
  }
  return out;
}

std::vector<FactId> Chronology::because(Node event, BoundsOf which, End end) const {
  std::vector<FactId> facts;
  if (gathered_ == nullptr || event == kOrigin || event >= events_->count() || which == BoundsOf::tests)
    return facts;
  const Bounds& bounds = of(which);
  const std::vector<EdgeId>& via = end == End::Earliest ? bounds.viaEarliest : bounds.viaLatest;
  auto add = [&](FactId fact) {
    if (fact != kNoFact && std::find(facts.begin(), facts.end(), fact) == facts.end()) facts.push_back(fact);
  };
  std::vector<FactId> chain;
  for (Node at = event; at != kOrigin && via[at] != kNoEdge;) {
    const Edge& step = edge(via[at]);
    chain.push_back(step.fact);
    at = end == End::Earliest ? step.to : step.from;
  }
  for (auto fact = chain.rbegin(); fact != chain.rend(); ++fact) {
    add(*fact);
    // What a choice has left rests on what struck the others out.
    for (const Choice& choice : gathered_->choices) {
      if (choice.fact != *fact) continue;
      for (const Choice::Member& member : choice.members)
        for (const FactId against : member.against) add(against);
    }
  }
  return facts;
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
