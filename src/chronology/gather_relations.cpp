#include <algorithm>

#include "chronology/builder.h"
#include "dates/length.h"

// The relations that records imply, field by field.
namespace saggar::chronology {

using dates::Day;
using records::Entry;
using records::kNoRecord;
using records::ValueType;

namespace {

class Relations {
 public:
  Relations(Builder& builder, RecordIndex record)
      : builder_(builder), record_(record), own_(builder.all[record]) {}

  void gather() {
    for (const Entry& entry : own_.fields) {
      if (!entry.known) continue;
      if (entry.field == "after"_f || entry.field == "before"_f) order(entry, entry.field == "after"_f);
      switch (own_.kind) {
        case Kind::shape:
          if (entry.field == "maker"_f) ofMaker(entry.value);
          break;
        case Kind::treatment: treatment(entry); break;
        case Kind::motif:
          if (entry.field == "supplier"_f) supplier(entry.value);
          break;
        case Kind::set: set(entry); break;
        case Kind::specimen: specimen(entry); break;
        default: break;
      }
    }
  }

 private:
  Node event(RecordIndex record, Field field, EventEnd end = EventEnd::moment) const {
    return record == kNoRecord ? kNoNode : builder_.events.nodeOf(record, field, end);
  }
  Node own(Field field, EventEnd end = EventEnd::moment) const { return event(record_, field, end); }

  void ofMaker(const Value& maker) {
    if (maker.target() == kNoRecord) return;
    const FactId fact = builder_.fact(record_, "maker"_f, &maker, Says::shapeOf);
    builder_.notAfter(event(maker.target(), "founded"_f), own("introduced"_f), fact);
    builder_.notAfter(own("withdrawn"_f), event(maker.target(), "closed"_f), fact);
  }

  void supplier(const Value& supplier) {
    if (supplier.target() == kNoRecord) return;
    const FactId fact = builder_.fact(record_, "supplier"_f, &supplier, Says::supplied);
    builder_.notAfter(event(supplier.target(), "founded"_f), own("designed"_f), fact);
  }

  void treatment(const Entry& entry) {
    if (entry.field == "shape"_f) onShapes(entry.value);
    if (entry.field == "motif"_f) inLifeOf(entry.value, "motif"_f, Says::withMotif);
    if (entry.field == "for"_f) forWhom(entry.value, own("introduced"_f), own("withdrawn"_f));
    if (entry.field == "look"_f)
      for (const Entry& feature : entry.value.entries()) look(feature);
  }

  void inLifeOf(const Value& thing, Field field, Says says) {
    if (thing.target() == kNoRecord) return;
    const FactId fact = builder_.fact(record_, field, &thing, says);
    builder_.notAfter(event(thing.target(), "introduced"_f), own("introduced"_f), fact);
    builder_.notAfter(own("withdrawn"_f), event(thing.target(), "withdrawn"_f), fact);
  }

  void onShapes(const Value& shapes) {
    const auto each = shapes.each();
    if (each.size() == 1) return inLifeOf(each[0], "shape"_f, Says::onShape);
    ShapeChoice choice;
    choice.treatment = record_;
    for (const Value& one : each) {
      // Of a shape that is not known anything may be true.
      if (one.target() == kNoRecord || one.isDoubted()) return;
      choice.shapes.push_back(one.target());
    }
    if (choice.shapes.empty()) return;
    choice.fact = builder_.fact(record_, "shape"_f, &shapes, Says::onShape);
    for (auto& edges : choice.edges) {
      edges[0] = builder_.open(own("introduced"_f), kOrigin, choice.fact, 0);
      edges[1] = builder_.open(kOrigin, own("withdrawn"_f), choice.fact, 0);
    }
    for (const RecordIndex shape : choice.shapes) {
      choice.sides[0].alone.push_back(
          builder_.notAfterIfAsked(event(shape, "introduced"_f), own("introduced"_f), choice.fact));
      choice.sides[1].alone.push_back(
          builder_.notAfterIfAsked(own("withdrawn"_f), event(shape, "withdrawn"_f), choice.fact));
    }
    for (ShapeChoice::Side& side : choice.sides) side.ruledOut.assign(choice.shapes.size(), false);
    builder_.out().shapes.push_back(std::move(choice));
  }

  void forWhom(const Value& customer, Node begin, Node end) {
    if (customer.target() == kNoRecord) return;
    const FactId fact = builder_.fact(record_, "for"_f, &customer, Says::forWhom);
    builder_.notAfter(event(customer.target(), "founded"_f), begin, fact);
    builder_.notAfter(end, event(customer.target(), "closed"_f), fact);
    const Value* active = builder_.all[customer.target()].find("active"_f);
    if (active == nullptr || !active->said()) return;
    builder_.notAfter(event(customer.target(), "active"_f, EventEnd::from), begin, fact);
    builder_.notAfter(end, event(customer.target(), "active"_f, EventEnd::until), fact);
  }

  // One value of a feature: within its years. Several: not before the earliest, not after the latest.
  void look(const Entry& shown) {
    if (shown.feature == kNoRecord || builder_.broken(shown.feature)) return;
    const Value* values = builder_.all[shown.feature].find("values"_f);
    if (values == nullptr) return;
    const Value* years = nullptr;
    Day from[2] = {Day::plusInfinity(), Day::plusInfinity()};
    Day until[2] = {Day::minusInfinity(), Day::minusInfinity()};
    for (const Value& one : shown.value.each()) {
      const Value* is = one.type == ValueType::mapping ? one.find("is"_f) : &one;
      if (is == nullptr || one.isDoubted()) return;
      for (const Value& word : is->each()) {
        if (word.isDoubted() || (word.type != ValueType::text && word.type != ValueType::none)) return;
        const Value* found = values->find(std::string_view(word.text));
        const Value* used = found == nullptr ? nullptr : found->find("used"_f);
        const dates::Expression* date = used == nullptr || used->isDoubted() ? nullptr : used->date();
        if (date == nullptr) return;
        years = years == nullptr ? used : years;
        for (const bool plain : {false, true}) {
          const dates::SpanDays days =
              dates::spanDays(*date, plain ? dates::Reading::Plain : dates::Reading::Wide, builder_.options,
                              plain ? dates::Doubted::AtItsWord : dates::Doubted::BindsNothing);
          from[plain] = std::min(from[plain], days.begin.earliest);
          until[plain] = std::max(until[plain], days.end.latest);
        }
      }
    }
    if (years == nullptr) return;
    const FactId fact = builder_.fact(record_, "look"_f, &shown.value, Says::look);
    builder_.out().years.emplace_back(fact, years);
    builder_.bindEarliest(own("introduced"_f), from[0], from[1], fact);
    builder_.bindLatest(own("withdrawn"_f), until[0], until[1], fact);
  }

  void set(const Entry& entry) {
    const Node from = own("offered"_f, EventEnd::from);
    const Node until = own("offered"_f, EventEnd::until);
    if (entry.field == "for"_f) forWhom(entry.value, from, until);
    if (entry.field != "pieces"_f) return;
    for (const Value& piece : entry.value.each()) {
      const Value* of = piece.find("of"_f);
      if (of == nullptr || of->target() == kNoRecord) continue;
      const FactId fact = builder_.fact(record_, "pieces"_f, of, Says::inSet);
      builder_.notAfter(event(of->target(), "introduced"_f), until, fact);
      builder_.notAfter(from, event(of->target(), "withdrawn"_f), fact);
    }
  }

  void specimen(const Entry& entry) {
    const Node made = own("made"_f);
    if (entry.field == "treatment"_f || entry.field == "shape"_f || entry.field == "motif"_f) {
      const RecordIndex of = entry.value.target();
      if (of == kNoRecord) return;
      const FactId fact = builder_.fact(record_, entry.field, &entry.value, Says::pieceOf);
      builder_.notAfter(event(of, "introduced"_f), made, fact);
      builder_.notAfter(made, event(of, "withdrawn"_f), fact);
    }
    if (entry.field == "marks"_f)
      for (const Value& one : entry.value.each()) marked(partOf(one, "mark"_f), made);
    if (entry.field == "seen"_f) {
      const Node first = own("seen"_f);
      const std::size_t times = entry.value.each().size();
      for (const Value& one : entry.value.each()) {
        const Value& on = partOf(one, "on"_f);
        if (on.date() == nullptr) continue;
        const FactId fact = builder_.fact(record_, "seen"_f, &on, Says::seen);
        const dates::Bounds wide = dates::momentDays(*on.date(), dates::Reading::Wide, builder_.options);
        const dates::Bounds plain =
            dates::momentDays(*on.date(), dates::Reading::Plain, builder_.options, dates::Doubted::AtItsWord);
        builder_.bindLatest(made, wide.latest, plain.latest, fact);
        builder_.bindLatest(first, wide.latest, plain.latest, fact);
        // No one sighting says when the first of several was at the earliest.
        if (times == 1) builder_.bindEarliest(first, wide.earliest, plain.earliest, fact);
      }
    }
  }

  void marked(const Value& mark, Node made) {
    if (mark.target() == kNoRecord) return;
    const FactId fact = builder_.fact(record_, "marks"_f, &mark, Says::marked);
    builder_.notAfter(made, event(mark.target(), "used"_f, EventEnd::until), fact);
    if (builder_.putOnWhenMade(mark.target(), record_))
      builder_.notAfter(event(mark.target(), "used"_f, EventEnd::from), made, fact);
  }

  void order(const Entry& entry, bool after) {
    const Node mine = builder_.events.standsFor(record_);
    if (mine == kNoNode) return;
    for (const Value& one : entry.value.each()) {
      const Value& event = partOf(one, "event"_f);
      const Node other = builder_.events.named(event);
      if (other == kNoNode) continue;
      const FactId fact = builder_.fact(record_, entry.field, &one, Says::ordered);
      const Node earlier = after ? other : mine;
      const Node later = after ? mine : other;
      Days least = 1;
      if (const Value* atLeast = one.find("at-least"_f))
        if (const auto length = dates::parseLength(atLeast->text).length)
          least = std::max<Days>(least, length->fewestDays());
      builder_.notAfter(earlier, later, fact, least);
      if (const Value* within = one.find("within"_f))
        if (const auto length = dates::parseLength(within->text).length)
          builder_.within(earlier, later, length->mostDays(), fact);
    }
  }

  Builder& builder_;
  RecordIndex record_;
  const Record& own_;
};

}  // namespace

void gatherRelations(Builder& builder, RecordIndex record) {
  Relations(builder, record).gather();
}

}  // namespace saggar::chronology
