#include "choosing/test_facts.h"

#include <algorithm>

#include "base/text.h"
#include "choosing/network_bounds.h"

namespace saggar::choosing {

using chronology::FactId;
using records::Value;
using records::ValueType;

namespace {

bool isFirm(evidence::Standing standing, bool disputed, bool doubted) {
  return standing <= evidence::Standing::supported && !disputed && !doubted;
}

}  // namespace

std::string typedOf(const Value& value) {
  constexpr std::size_t kLongest = 80;
  if (const Value* on = value.find("on"_f)) return typedOf(*on);
  std::vector<std::string> parts;
  for (const Value& item : value.items()) parts.push_back(typedOf(item));
  for (const records::Entry& entry : value.entries()) {
    // Where a plain value was typed, the key is not the author's.
    const records::Extent key = entry.keyPlace;
    parts.push_back((key.begin == key.end ? std::string() : std::string(entry.key) + ": ") +
                    typedOf(entry.value));
  }
  if (parts.empty() || value.type == ValueType::between) return base::onOneLine(value.text);
  return base::shortened(base::joined(parts, ", "), kLongest);
}

std::vector<FactId> TestFacts::chainOf(const Ground& ground) const {
  std::vector<FactId> chain;
  if (!ground.days || ground.missing || ground.record == records::kNoRecord) return chain;
  const chronology::Node node = nodeOf(chronology_.events(), ground.record, ground.event, ground.end);
  for (const auto& [decides, end] :
       {std::pair{ground.earliest, dates::End::Earliest}, std::pair{ground.latest, dates::End::Latest}}) {
    if (!decides || node == chronology::kNoNode) continue;
    for (const FactId fact : chronology_.because(node, chronology::BoundsOf::tests, end))
      if (std::find(chain.begin(), chain.end(), fact) == chain.end()) chain.push_back(fact);
  }
  return chain;
}

TestFacts::Standing TestFacts::standingOf(const Ground& ground) const {
  if (ground.record == records::kNoRecord) return {{}, false};
  if (ground.assumed) return {};
  const records::Record& record = all_[ground.record];
  const bool piece = record.kind == Kind::specimen;
  const auto field = records::fieldNamed(std::string_view(ground.field).substr(0, ground.field.find('.')));
  if (!piece && (!field || !records::needsEvidence(record.kind, *field))) return {};
  // That nothing is typed, or nothing refers to it, nobody has shown.
  if (ground.value == nullptr || ground.value->type == ValueType::unknown) return {{}, false};
  evidence::Weighed weighed = weights_.weigh(ground.record, *ground.value);
  if (piece && weighed.standing == evidence::Standing::uncited)
    weighed.standing = evidence::standingOf(evidence::bestSeen(record.find("seen"_f)));
  return {weighed.word(), choosing::isFirm(weighed.standing, weighed.disputed, weighed.doubted)};
}

bool TestFacts::isFirm(FactId id) const {
  const chronology::Fact& fact = chronology_.fact(id);
  return choosing::isFirm(fact.standing, chronology_.isDisputed(id), fact.doubted);
}

bool TestFacts::isFirm(const Ground& ground) const {
  const std::vector<FactId> chain = chainOf(ground);
  if (chain.empty()) return standingOf(ground).firm;
  return std::all_of(chain.begin(), chain.end(), [&](FactId fact) { return isFirm(fact); });
}

TestFact TestFacts::of(FactId id) const {
  const chronology::Reason reason = reasons_.of(id);
  const chronology::Fact& fact = chronology_.fact(id);
  TestFact out;
  out.record = fact.record;
  out.field = reason.field;
  out.value = base::onOneLine(reason.value);
  if (out.value.empty() && !fact.cites()) out.value = typedOf(*fact.value);  // a mapping
  out.typed = fact.cites() ? nullptr : fact.value;
  out.standing = std::string(reason.word());
  out.span = reason.span;
  return out;
}

std::vector<TestFact> TestFacts::of(const Told& told) const {
  std::vector<TestFact> facts;
  for (const Ground& ground : told.grounds) {
    const std::vector<FactId> chain = chainOf(ground);
    for (const FactId fact : chain) facts.push_back(of(fact));
    if (!chain.empty() || ground.record == records::kNoRecord) continue;
    const records::Record& record = all_[ground.record];
    TestFact& fact = facts.emplace_back();
    fact.record = ground.record;
    fact.field = ground.field;
    fact.typed = ground.value;
    if (ground.value != nullptr) fact.value = typedOf(*ground.value);
    fact.standing = std::string(standingOf(ground).word);
    fact.missing = ground.missing;
    fact.leavesOut = ground.leavesOut;
    fact.span = ground.value == nullptr ? record.span() : record.span(ground.value->place);
  }
  return facts;
}

}  // namespace saggar::choosing
