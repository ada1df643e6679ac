#include <algorithm>
#include <map>
#include <unordered_map>

#include "chronology/builder.h"

// What codes say: the day of a date code, the years of a rule, the order in which numbers were given out.
//
// The problem: each number of a series is bounded by all others, and a contradiction should name the two numbers and
// the rule, not the thousand between. The choice: every number has two points of its own, before and after all that
// bear it; they are ordered by the rule's fact, and only the step from a code to its number is a fact of that code.
namespace saggar::chronology {

using dates::Bounds;
using dates::Day;
using dates::Reading;

namespace {

Bounds both(const Bounds& a, const Bounds& b) {
  return {std::max(a.earliest, b.earliest), std::min(a.latest, b.latest)};
}

class Codes {
 public:
  Codes(Builder& builder, const AllCodeDays& codes) : builder_(builder), codes_(codes) {}

  void gather() {
    for (std::size_t i = 0; i < codes_.codes.size(); ++i) {
      const CodeDays& code = codes_.codes[i];
      if (code.more || code.readings.empty() || builder_.broken(code.record)) continue;
      const Node booked = bookedOn(code);
      if (booked == kNoNode) continue;
      if (code.field == "date-code"_f) {
        dateCode(code, booked);
      } else {
        inUse(code, booked);
      }
      if (code.series != kNoSeries) numbers_[{code.series, code.number}].push_back({i, booked});
    }
    series();
  }

 private:
  // The day a code belongs to. A further code of a treatment, and a registration, have days of their own.
  Node bookedOn(const CodeDays& code) {
    const Events& events = builder_.events;
    if (code.field == "date-code"_f) return events.nodeOf(code.record, "made"_f);
    if (code.field == "registered"_f) {
      const Node day = builder_.newNode();
      const FactId fact = builder_.fact(code.record, code.field, code.value, Says::number, code.maker);
      if (builder_.all[code.record].kind == Kind::specimen) {
        builder_.notAfter(day, events.nodeOf(code.record, "made"_f), fact);
      } else {
        builder_.notAfter(events.nodeOf(code.record, "designed"_f), day, fact);
      }
      return day;
    }
    if (code.field != "code"_f) return kNoNode;
    const Node introduced = events.nodeOf(code.record, "introduced"_f);
    if (code.first) return introduced;
    const Node day = builder_.newNode();
    builder_.notAfter(introduced, day, kNoFact);
    builder_.notAfter(day, events.nodeOf(code.record, "withdrawn"_f), kNoFact);
    return day;
  }

  struct Both {
    Bounds wide, plain;
  };
  Both usedDays(const Value* used) const {
    Both days{{Day::minusInfinity(), Day::plusInfinity()}, {Day::minusInfinity(), Day::plusInfinity()}};
    const dates::Expression* date = used == nullptr || used->isDoubted() ? nullptr : used->date();
    if (date == nullptr) return days;
    return {dates::spanDays(*date, Reading::Wide, builder_.options).hull(),
            dates::spanDays(*date, Reading::Plain, builder_.options, dates::Doubted::AtItsWord).hull()};
  }

  void bind(Node node, const Both& days, FactId fact) { builder_.bind(node, days.wide, days.plain, fact); }

  static bool binds(const Both& days) {
    return days.wide.earliest.isFinite() || days.wide.latest.isFinite() || days.plain.earliest.isFinite() ||
           days.plain.latest.isFinite();
  }

  FactId ruleFact(const CodeDays& code, const Value* used, Says says) {
    const FactId fact = builder_.fact(code.record, code.field, code.value, says, code.maker);
    if (used != nullptr) {
      builder_.out().years.emplace_back(fact, used);
      const evidence::Weighed rule = builder_.weights.weigh(code.maker, *used);
      builder_.weaken(fact, rule.standing);
    }
    return fact;
  }

  // What all readings have in common: the hull of their years.
  void inUse(const CodeDays& code, Node booked) {
    Both hull = usedDays(code.readings[0].used);
    for (const CodeReadingDays& reading : code.readings) {
      Both days = usedDays(reading.used);
      days = {both(days.wide, reading.when), both(days.plain, reading.when)};
      if (&reading == &code.readings[0]) {
        hull = days;
        continue;
      }
      hull.wide = {std::min(hull.wide.earliest, days.wide.earliest),
                   std::max(hull.wide.latest, days.wide.latest)};
      hull.plain = {std::min(hull.plain.earliest, days.plain.earliest),
                    std::max(hull.plain.latest, days.plain.latest)};
    }
    if (binds(hull)) bind(booked, hull, ruleFact(code, code.readings[0].used, Says::inUse));
  }

  void dateCode(const CodeDays& code, Node made) {
    if (code.readings.size() == 1) {
      const CodeReadingDays& reading = code.readings[0];
      const Both day{reading.when, reading.when};
      if (binds(day))
        bind(made, day, builder_.fact(code.record, code.field, code.value, Says::dateCode, code.maker));
      const Both used = usedDays(reading.used);
      if (binds(used)) bind(made, used, ruleFact(code, reading.used, Says::inUse));
      const Both works = usedDays(reading.worksUsed);
      if (binds(works)) bind(made, works, ruleFact(code, reading.worksUsed, Says::worksInUse));
      return;
    }
    Choice choice;
    choice.node = made;
    choice.ofCode = true;
    Both hull{{Day::plusInfinity(), Day::minusInfinity()}, {Day::plusInfinity(), Day::minusInfinity()}};
    for (const CodeReadingDays& reading : code.readings) {
      const Both used = usedDays(reading.used);
      const Both works = usedDays(reading.worksUsed);
      Choice::Member member;
      member.code = reading.code;
      member.reading = reading.reading;
      member.wide = both(reading.when, both(used.wide, works.wide));
      member.plain = both(reading.when, both(used.plain, works.plain));
      // A reading that clashes with its own rule was ruled out before, or is left as it stands.
      if (member.wide.earliest > member.wide.latest) member.wide = reading.when;
      if (member.plain.earliest > member.plain.latest) member.plain = reading.when;
      hull.wide = {std::min(hull.wide.earliest, member.wide.earliest),
                   std::max(hull.wide.latest, member.wide.latest)};
      hull.plain = {std::min(hull.plain.earliest, member.plain.earliest),
                    std::max(hull.plain.latest, member.plain.latest)};
      choice.members.push_back(std::move(member));
    }
    if (!binds(hull)) return;
    choice.fact = builder_.fact(code.record, code.field, code.value, Says::dateCode, code.maker);
    choice.edges[0] = builder_.notBefore(made, hull.wide.earliest, choice.fact, kWide);
    choice.edges[1] = builder_.notAfterDay(made, hull.wide.latest, choice.fact, kWide);
    choice.edges[2] = builder_.notBefore(made, hull.plain.earliest, choice.fact, kPlain);
    choice.edges[3] = builder_.notAfterDay(made, hull.plain.latest, choice.fact, kPlain);
    builder_.out().choices.push_back(std::move(choice));
  }

  void series() {
    std::uint32_t last = kNoSeries;
    Node before = kNoNode;
    FactId order = kNoFact;
    for (const auto& [which, holders] : numbers_) {
      const CodeSeries& series = codes_.series[which.first];
      if (which.first != last) {
        last = which.first;
        before = kNoNode;
        order = kNoFact;
        if (series.order != nullptr) order = orderFact(series);
      }
      const Node low = builder_.newNode();
      const Node high = builder_.newNode();
      builder_.notAfter(low, high, kNoFact);
      for (const Holder& holder : holders) {
        const CodeDays& code = codes_.codes[holder.code];
        const FactId fact = builder_.fact(code.record, code.field, code.value, Says::number, code.maker);
        builder_.notAfter(low, holder.booked, fact);
        builder_.notAfter(holder.booked, high, fact);
      }
      tables(codes_.codes[holders[0].code], low, high);
      if (order != kNoFact) builder_.notAfter(before, low, order);
      before = high;
    }
  }

  FactId orderFact(const CodeSeries& series) {
    const FactId fact = builder_.fact(series.maker, "codes"_f, series.order, Says::order, series.maker);
    // Without evidence an order is the author's judgement.
    if (builder_.at(fact).standing == Standing::uncited) builder_.weaken(fact, Standing::judged);
    return fact;
  }

  void tables(const CodeDays& code, Node low, Node high) {
    const NumberDays& table = code.table;
    auto factOf = [&](const Value* entry, bool byOrder) {
      const FactId fact = builder_.fact(code.maker, "codes"_f, entry, Says::table, code.maker);
      const CodeSeries& series = codes_.series[code.series];
      if (byOrder && series.order != nullptr) {
        const evidence::Weighed order = builder_.weights.weigh(code.maker, *series.order);
        builder_.weaken(fact, order.standing == Standing::uncited ? Standing::judged : order.standing);
      }
      return fact;
    };
    if (table.early != nullptr && table.when.earliest.isFinite())
      builder_.notBefore(low, table.when.earliest, factOf(table.early, table.earlyByOrder));
    if (table.late != nullptr && table.when.latest.isFinite())
      builder_.notAfterDay(high, table.when.latest, factOf(table.late, table.lateByOrder));
  }

  struct Holder {
    std::size_t code;
    Node booked;
  };
  Builder& builder_;
  const AllCodeDays& codes_;
  std::map<std::pair<std::uint32_t, std::int64_t>, std::vector<Holder>> numbers_;
};

}  // namespace

void gatherCodes(Builder& builder, const AllCodeDays& codes) {
  Codes(builder, codes).gather();
}

}  // namespace saggar::chronology
