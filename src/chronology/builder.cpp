#include "chronology/builder.h"

namespace saggar::chronology {

using dates::Bounds;
using dates::Day;
using dates::End;

namespace {

// The less, the earlier a fact is taken where facts clash.
std::uint8_t weaknessOf(const Fact& fact) {
  if (fact.says == Says::offered) return 7;
  if (fact.doubted) return 6;
  return static_cast<std::uint8_t>(fact.standing);
}

}  // namespace

FactId Builder::add(const Fact& fact) {
  out_.facts.push_back(fact);
  return out_.network.addFact(weaknessOf(fact));
}

FactId Builder::fact(RecordIndex record, Field field, const Value* value, Says says,
                     const evidence::Weighed& weighed) {
  Fact one;
  one.record = record;
  one.value = value;
  one.field = field;
  one.says = says;
  one.standing = weighed.standing;
  one.disputed = weighed.disputed;
  one.doubted = weighed.doubted;
  const Record& from = all[record];
  if (from.kind == Kind::source)
    one.standing = Standing::documented;  // a source needs no evidence for itself
  if (from.kind == Kind::specimen && one.standing == Standing::uncited)
    one.standing = evidence::standingOf(evidence::bestSeen(from.find("seen"_f)));
  return add(one);
}

FactId Builder::fact(RecordIndex record, Field field, const Value* value, Says says) {
  return fact(record, field, value, says, weights.weigh(record, *value));
}

FactId Builder::citationFact(RecordIndex record, Field field, const records::Citation& citation, Says says,
                             Standing standing) {
  Fact one;
  one.record = record;
  one.citation = &citation;
  one.field = field;
  one.says = says;
  one.standing = standing;
  return add(one);
}

// Weakness is told to the network when a fact is added; what grades a fact anew must tell it too.
void Builder::grade(FactId fact, Standing standing) {
  out_.facts[fact].standing = standing;
  out_.network.setWeakness(fact, weaknessOf(out_.facts[fact]));
}

EdgeId Builder::edge(Node from, Node to, Days days, FactId fact, std::uint8_t use) {
  out_.uses.push_back(use);
  return out_.network.addEdge(from, to, days, fact);
}

void Builder::notAfter(Node earlier, Node later, FactId fact, Days atLeast) {
  if (earlier != kNoNode && later != kNoNode) edge(later, earlier, -atLeast, fact, kBoth);
}

void Builder::within(Node earlier, Node later, Days most, FactId fact) {
  if (earlier != kNoNode && later != kNoNode) edge(earlier, later, most, fact, kBoth);
}

EdgeId Builder::notBefore(Node node, Day day, FactId fact, std::uint8_t use) {
  return node != kNoNode && day.isFinite() ? edge(node, kOrigin, -day.number(), fact, use) : kNoEdge;
}

EdgeId Builder::notAfterDay(Node node, Day day, FactId fact, std::uint8_t use) {
  return node != kNoNode && day.isFinite() ? edge(kOrigin, node, day.number(), fact, use) : kNoEdge;
}

void Builder::bindEarliest(Node node, Day wide, Day plain, FactId fact) {
  notBefore(node, wide, fact, wide == plain ? kBoth : kWide);
  if (wide != plain) notBefore(node, plain, fact, kPlain);
}

void Builder::bindLatest(Node node, Day wide, Day plain, FactId fact) {
  notAfterDay(node, wide, fact, wide == plain ? kBoth : kWide);
  if (wide != plain) notAfterDay(node, plain, fact, kPlain);
}

void Builder::bind(Node node, const Bounds& wide, const Bounds& plain, FactId fact) {
  bindEarliest(node, wide.earliest, plain.earliest, fact);
  bindLatest(node, wide.latest, plain.latest, fact);
}

void Builder::bindMoment(Node node, const dates::Expression& date, FactId fact) {
  bind(node, dates::momentDays(date, dates::Reading::Wide, options),
       dates::momentDays(date, dates::Reading::Plain, options, dates::Doubted::AtItsWord), fact);
}

EdgeId Builder::open(Node from, Node to, FactId fact, std::uint8_t use) {
  return edge(from, to, kBindsNothing, fact, use);
}

const Value& partOf(const Value& value, Field first) {
  const Value* part = value.find(first);
  return part != nullptr ? *part : value;
}

bool Builder::putOnWhenMade(RecordIndex mark, RecordIndex specimen) const {
  const Value* maker = all[mark].find("maker"_f);
  if (maker == nullptr || maker->target() == records::kNoRecord) return true;
  const Value* shape = all[specimen].find("shape"_f);
  if (shape == nullptr) {
    const Value* treatment = all[specimen].find("treatment"_f);
    if (treatment != nullptr && treatment->target() != records::kNoRecord)
      shape = all[treatment->target()].find("shape"_f);
  }
  if (shape == nullptr) return true;
  for (const Value& one : shape->each()) {
    const Value* theirs = one.target() == records::kNoRecord ? nullptr : all[one.target()].find("maker"_f);
    if (theirs == nullptr || theirs->target() == records::kNoRecord || theirs->target() == maker->target())
      return true;
  }
  return false;
}

}  // namespace saggar::chronology
