#include <algorithm>

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
  explicit Codes(Builder& builder) : builder_(builder) {}

  void gather(const CodeDates& codes) {
    codes.each([&](const CodeDays& code) { take(code); });
    series();
  }

 private:
  void take(const CodeDays& code) {
    if (code.more || code.readings.empty() || builder_.broken(code.record)) return;
    const Node booked = bookedOn(code);
    if (booked == kNoNode) return;
    if (code.field == "date-code"_f) {
      dateCode(code, booked);
    } else {
      inUse(code, booked);
    }
    if (code.series == kNoSeries) return;
    std::uint32_t table = kNoTable;
    if (code.table.early != nullptr || code.table.late != nullptr) {
      table = static_cast<std::uint32_t>(tables_.size());
      tables_.push_back(code.table);
    }
    holders_.push_back({code.number, code.value, code.order, code.series, booked, code.record, code.maker,
                        table, code.field});
  }

  // The day a code belongs to. A further code of a treatment, and a registration, have days of their own.
  Node bookedOn(const CodeDays& code) {
    const Events& events = builder_.events;
    if (code.field == "date-code"_f) return events.nodeOf(code.record, "made"_f);
    if (code.field == "registered"_f) {
      const Node day = builder_.newNode();
      const FactId fact = builder_.fact(code.record, code.field, code.value, Says::number);
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

  static Bounds hullOf(const Bounds& a, const Bounds& b) {
    return {std::min(a.earliest, b.earliest), std::max(a.latest, b.latest)};
  }
  Standing standingOf(const CodeDays& code, const Value* used) const {
    return builder_.weights.weigh(code.maker, *used).standing;
  }

  FactId ruleFact(const CodeDays& code, const Value* used, Says says) {
    const FactId fact = builder_.fact(code.record, code.field, code.value, says);
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

  // No better known than the years by which other readings were ruled out.
  FactId dateCodeFact(const CodeDays& code) {
    const FactId fact = builder_.fact(code.record, code.field, code.value, Says::dateCode);
    for (const CodeReadingDays& reading : code.ruledOut)
      for (const Value* used : {reading.used, reading.worksUsed}) {
        const Both years = usedDays(used);
        if (reading.when.latest < years.wide.earliest || reading.when.earliest > years.wide.latest)
          builder_.weaken(fact, standingOf(code, used));
      }
    return fact;
  }

  void dateCode(const CodeDays& code, Node made) {
    if (code.readings.size() == 1) {
      const CodeReadingDays& reading = code.readings[0];
      const Both day{reading.when, reading.when};
      if (binds(day)) bind(made, day, dateCodeFact(code));
      const Both used = usedDays(reading.used);
      if (binds(used)) bind(made, used, ruleFact(code, reading.used, Says::inUse));
      const Both works = usedDays(reading.worksUsed);
      if (binds(works)) bind(made, works, ruleFact(code, reading.worksUsed, Says::worksInUse));
      return;
    }
    Choice choice;
    choice.node = made;
    choice.ofCode = true;
    choice.fact = dateCodeFact(code);
    Both hull{{Day::plusInfinity(), Day::minusInfinity()}, {Day::plusInfinity(), Day::minusInfinity()}};
    // Years that are less well known than the code are a fact of their own.
    Both years = hull;
    const Value* weakest = nullptr;
    for (const CodeReadingDays& reading : code.readings) {
      const Both used = usedDays(reading.used);
      const Both works = usedDays(reading.worksUsed);
      const Both all{both(used.wide, works.wide), both(used.plain, works.plain)};
      years = {hullOf(years.wide, all.wide), hullOf(years.plain, all.plain)};
      for (const Value* one : {reading.used, reading.worksUsed})
        if (one != nullptr && standingOf(code, one) > builder_.at(choice.fact).standing &&
            (weakest == nullptr || standingOf(code, one) > standingOf(code, weakest)))
          weakest = one;
    }
    for (const CodeReadingDays& reading : code.readings) {
      const Both used = usedDays(weakest == nullptr ? reading.used : nullptr);
      const Both works = usedDays(weakest == nullptr ? reading.worksUsed : nullptr);
      Choice::Member member;
      member.code = reading.code;
      member.reading = reading.reading;
      member.wide = both(reading.when, both(used.wide, works.wide));
      member.plain = both(reading.when, both(used.plain, works.plain));
      // A reading that clashes with its own rule was ruled out before, or is left as it stands.
      if (member.wide.earliest > member.wide.latest) member.wide = reading.when;
      if (member.plain.earliest > member.plain.latest) member.plain = reading.when;
      hull = {hullOf(hull.wide, member.wide), hullOf(hull.plain, member.plain)};
      choice.members.push_back(std::move(member));
    }
    if (weakest != nullptr && binds(years)) bind(made, years, ruleFact(code, weakest, Says::inUse));
    if (!binds(hull)) return;
    choice.edges[0] = builder_.notBefore(made, hull.wide.earliest, choice.fact, kWide);
    choice.edges[1] = builder_.notAfterDay(made, hull.wide.latest, choice.fact, kWide);
    choice.edges[2] = builder_.notBefore(made, hull.plain.earliest, choice.fact, kPlain);
    choice.edges[3] = builder_.notAfterDay(made, hull.plain.latest, choice.fact, kPlain);
    builder_.out().choices.push_back(std::move(choice));
  }

  // A code with a number, and where its day is.
  struct Holder {
    std::int64_t number;
    const Value* value;
    const Value* order;
    std::uint32_t series;
    Node booked;
    RecordIndex record, maker;
    std::uint32_t table;  // in tables_
    Field field;
    bool sameNumber(const Holder& other) const { return series == other.series && number == other.number; }
  };

  void series() {
    std::stable_sort(holders_.begin(), holders_.end(), [](const Holder& a, const Holder& b) {
      return a.series != b.series ? a.series < b.series : a.number < b.number;
    });
    std::uint32_t last = kNoSeries;
    Node before = kNoNode;
    FactId order = kNoFact;
    for (auto first = holders_.begin(); first != holders_.end();) {
      if (first->series != last) {
        last = first->series;
        before = kNoNode;
        order = first->order != nullptr ? orderFact(*first) : kNoFact;
      }
      const Node low = builder_.newNode();
      const Node high = builder_.newNode();
      builder_.notAfter(low, high, kNoFact);
      auto holder = first;
      for (; holder != holders_.end() && holder->sameNumber(*first); ++holder) {
        const FactId fact = builder_.fact(holder->record, holder->field, holder->value, Says::number);
        builder_.notAfter(low, holder->booked, fact);
        builder_.notAfter(holder->booked, high, fact);
      }
      if (first->table != kNoTable) bindTable(*first, low, high);
      if (order != kNoFact) builder_.notAfter(before, low, order);
      before = high;
      first = holder;
    }
  }

  FactId orderFact(const Holder& code) {
    const FactId fact = builder_.fact(code.maker, "codes"_f, code.order, Says::order);
    // Without evidence an order is the author's judgement.
    if (builder_.at(fact).standing == Standing::uncited) builder_.grade(fact, Standing::judged);
    return fact;
  }

  void bindTable(const Holder& code, Node low, Node high) {
    const NumberDays& table = tables_[code.table];
    auto factOf = [&](const Value* entry, bool byOrder) {
      const FactId fact = builder_.fact(code.maker, "codes"_f, entry, Says::table);
      if (byOrder && code.order != nullptr) {
        const evidence::Weighed order = builder_.weights.weigh(code.maker, *code.order);
        builder_.weaken(fact, order.standing == Standing::uncited ? Standing::judged : order.standing);
      }
      return fact;
    };
    if (table.early != nullptr && table.when.earliest.isFinite())
      builder_.notBefore(low, table.when.earliest, factOf(table.early, table.earlyByOrder));
    if (table.late != nullptr && table.when.latest.isFinite())
      builder_.notAfterDay(high, table.when.latest, factOf(table.late, table.lateByOrder));
  }

  static constexpr std::uint32_t kNoTable = 0xFFFFFFFF;
  Builder& builder_;
  std::vector<Holder> holders_;
  std::vector<NumberDays> tables_;
};

}  // namespace

void gatherCodes(Builder& builder, const CodeDates& codes) {
  Codes(builder).gather(codes);
}

}  // namespace saggar::chronology
