#include <algorithm>
#include <map>
#include <tuple>

#include "checks/clash_findings.h"

namespace saggar::checks {

using chronology::Clash;
using chronology::EdgeId;
using chronology::Fact;
using chronology::FactId;
using chronology::Says;
using records::Kind;

namespace {

// It takes part as a day by itself, and not as what ties two days together.
bool isDay(const Context& context, const Clash& clash, FactId fact) {
  return std::any_of(clash.edges.begin(), clash.edges.end(), [&](EdgeId id) {
    const chronology::Edge& edge = context.chronology.edge(id);
    return edge.fact == fact && (edge.from == chronology::kOrigin || edge.to == chronology::kOrigin);
  });
}

bool haveInCommon(const Context& context, const Clash& one, const Clash& other) {
  return std::any_of(one.facts.begin(), one.facts.end(), [&](FactId fact) {
    return std::binary_search(other.facts.begin(), other.facts.end(), fact) && isDay(context, one, fact);
  });
}

std::size_t witnesses(const Context& context, const Fact& fact) {
  if (fact.cites()) return 1;
  return context.weights.independentCitations(*fact.value,
                                              context.weights.backingOf(fact.record, *fact.value));
}

int kindRank(Kind kind) {
  constexpr Kind kOrder[] = {Kind::specimen, Kind::treatment, Kind::motif,
                             Kind::mark,     Kind::shape,     Kind::maker};
  const auto* found = std::find(std::begin(kOrder), std::end(kOrder), kind);
  return static_cast<int>(found - kOrder);
}

}  // namespace

bool canBeCause(const Fact& fact) {
  return fact.says != Says::order;
}

diagnostics::FactNote noteOf(const chronology::Reasons& reasons, FactId fact) {
  const chronology::Reason reason = reasons.of(fact);
  return {reason.record, reason.field, reason.value, std::string(reason.word()), reason.span};
}

bool isWeaker(const Context& context, FactId a, FactId b) {
  const auto& chronology = context.chronology;
  const Fact& one = chronology.fact(a);
  const Fact& other = chronology.fact(b);
  if (canBeCause(one) != canBeCause(other)) return canBeCause(one);
  if (one.standing != other.standing) return one.standing > other.standing;
  const std::size_t ownWitnesses = witnesses(context, one);
  const std::size_t otherWitnesses = witnesses(context, other);
  if (ownWitnesses != otherWitnesses) return ownWitnesses < otherWitnesses;
  const int ownKind = kindRank(context.collection[one.record].kind);
  const int otherKind = kindRank(context.collection[other.record].kind);
  if (ownKind != otherKind) return ownKind < otherKind;
  if (one.record != other.record) return one.record > other.record;
  const auto place = [](const Fact& fact) {
    return fact.cites() ? fact.citation->place.begin : fact.value->place.begin;
  };
  return place(one) > place(other);
}

std::vector<ClashGroup> groupsOf(const Context& context, bool atFaceValue) {
  std::vector<const Clash*> left;
  for (const Clash& clash : context.chronology.clashes())
    if (clash.atFaceValue == atFaceValue) left.push_back(&clash);
  std::vector<ClashGroup> groups;
  constexpr std::size_t kHub = 3;
  std::map<FactId, std::vector<const Clash*>> in;
  for (const Clash* clash : left)
    for (const FactId fact : clash->facts)
      if (canBeCause(context.chronology.fact(fact))) in[fact].push_back(clash);
  std::vector<const Clash*> taken;
  while (true) {
    FactId hub = chronology::kNoFact;
    for (const auto& [fact, clashes] : in) {
      if (clashes.size() < kHub) continue;
      const bool better = hub == chronology::kNoFact || clashes.size() > in[hub].size() ||
                          (clashes.size() == in[hub].size() && isWeaker(context, fact, hub));
      if (better) hub = fact;
    }
    if (hub == chronology::kNoFact) break;
    std::vector<const Clash*> own = in[hub];
    // The one with the fewest facts is told in words.
    std::stable_sort(own.begin(), own.end(),
                     [](const Clash* a, const Clash* b) { return a->facts.size() < b->facts.size(); });
    groups.push_back({hub, own});
    taken.insert(taken.end(), own.begin(), own.end());
    for (const Clash* clash : own)
      for (const FactId fact : clash->facts) std::erase(in[fact], clash);
  }
  std::sort(taken.begin(), taken.end());
  std::map<records::RecordIndex, std::vector<std::size_t>> ofRecord;
  for (const Clash* clash : left) {
    if (std::binary_search(taken.begin(), taken.end(), clash)) continue;
    const auto at = std::min_element(clash->facts.begin(), clash->facts.end(),
                                     [&](FactId a, FactId b) { return isWeaker(context, a, b); });
    // Two at one record that have a day in common have one cause.
    std::vector<std::size_t>& near = ofRecord[context.chronology.fact(*at).record];
    const auto same = std::find_if(near.begin(), near.end(), [&](std::size_t group) {
      return std::any_of(groups[group].clashes.begin(), groups[group].clashes.end(),
                         [&](const Clash* other) { return haveInCommon(context, *clash, *other); });
    });
    if (same == near.end()) {
      near.push_back(groups.size());
      groups.push_back({*at, {clash}});
    } else if (groups[*same].clashes[0]->facts.size() > clash->facts.size()) {
      groups[*same].clashes.insert(groups[*same].clashes.begin(), clash);
      groups[*same].at = *at;
    } else {
      groups[*same].clashes.push_back(clash);
    }
  }
  return groups;
}

diagnostics::Rule ruleFor(const Context& context, const Clash& clash) {
  const auto& chronology = context.chronology;
  bool has[32] = {};
  for (const FactId fact : clash.facts) has[static_cast<std::size_t>(chronology.fact(fact).says)] = true;
  const auto with = [&](Says says) { return has[static_cast<std::size_t>(says)]; };
  if (with(Says::supplied)) return "supplier-out-of-time"_rule;
  if (with(Says::shapeOf) || with(Says::forWhom)) return "maker-out-of-time"_rule;
  if (with(Says::marked)) return "mark-out-of-time"_rule;
  if (with(Says::worksInUse)) return "works-out-of-time"_rule;
  if (with(Says::look)) return "look-out-of-time"_rule;
  if (with(Says::number) || with(Says::order) || with(Says::table)) return "code-out-of-order"_rule;
  // Before or after: by which of its ends the relation takes part.
  auto relation = [&](Kind kind) -> std::optional<bool> {
    for (const EdgeId edge : clash.edges) {
      const FactId id = chronology.edge(edge).fact;
      const Fact& fact = chronology.fact(id);
      if (fact.says != Says::onShape && fact.says != Says::withMotif && fact.says != Says::pieceOf) continue;
      const records::RecordIndex other = otherOf(context.collection, fact);
      if (other == records::kNoRecord || context.collection[other].kind != kind) continue;
      const chronology::Edge& one = chronology.edge(edge);
      const auto from = chronology.events().eventOf(one.from);
      return from && from->record == fact.record;
    }
    return std::nullopt;
  };
  if (const auto before = relation(Kind::motif))
    return *before ? "date-before-motif"_rule : "date-after-motif"_rule;
  if (const auto before = relation(Kind::shape))
    return *before ? "date-before-shape"_rule : "date-after-shape"_rule;
  return "dates-clash"_rule;
}

}  // namespace saggar::checks
