#include "chronology/builder.h"

#include "evidence/seen.h"

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

constexpr Days kFarAway = static_cast<Days>(1) << 100;  // binds nothing

Bounds open() {
  return {Day::minusInfinity(), Day::plusInfinity()};
}

}  // namespace

FactId Builder::add(const Fact& fact) {
  out_.facts.push_back(fact);
  return out_.network.addFact(weaknessOf(fact));
}

FactId Builder::fact(RecordIndex record, Field field, const Value* value, Says says, RecordIndex other,
                     const evidence::Weighed& weighed) {
  Fact one;
  one.record = record;
  one.other = other;
  one.value = value;
  one.field = field;
  one.says = says;
  one.standing = weighed.standing;
  one.disputed = weighed.disputed;
  one.doubted = weighed.doubted;
  const Record& from = all[record];
  if (from.kind == Kind::source)
    one.standing = Standing::documented;  // a source needs no evidence for itself
  if (from.kind == Kind::specimen && one.standing == Standing::uncited) {
    const evidence::Seen seen = evidence::bestSeen(from.find("seen"_f));
    one.standing = seen == evidence::Seen::inHand     ? Standing::documented
                   : seen == evidence::Seen::pictured ? Standing::supported
                                                      : Standing::suggested;
  }
  return add(one);
}

FactId Builder::fact(RecordIndex record, Field field, const Value* value, Says says, RecordIndex other) {
  return fact(record, field, value, says, other, weights.weigh(record, *value));
}

FactId Builder::citationFact(RecordIndex record, Field field, const records::Citation& citation, Says says,
                             Standing standing) {
  Fact one;
  one.record = record;
  one.other = citation.target;
  one.citation = &citation;
  one.field = field;
  one.says = says;
  one.standing = standing;
  return add(one);
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

EdgeId Builder::open(Node from, Node to, FactId fact, std::uint8_t use) {
  return edge(from, to, kFarAway, fact, use);
}

const Value& partOf(const Value& value, Field first) {
  const Value* part = value.find(first);
  return part != nullptr ? *part : value;
}

Bounds momentDaysOf(const dates::Expression& date, dates::Reading reading, const dates::Options& options,
                    bool doubted) {
  if (date.isAllOf()) return open();
  Bounds bounds = date.bounds(reading, options).opened();
  if (!doubted && date.isDoubted(End::Earliest)) bounds.earliest = Day::minusInfinity();
  if (!doubted && date.isDoubted(End::Latest)) bounds.latest = Day::plusInfinity();
  return bounds;
}

SpanDays spanDaysOf(const dates::Expression& date, dates::Reading reading, const dates::Options& options,
                    bool doubted) {
  const dates::SpanBounds span = dates::spanOf(date, reading, options);
  SpanDays days;
  if (doubted || !span.beginDoubted) days.begin = span.begin.opened();
  if (doubted || !span.endDoubted) days.end = span.end.opened();
  return days;
}

}  // namespace saggar::chronology
