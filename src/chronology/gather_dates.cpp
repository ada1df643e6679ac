#include <algorithm>

#include "chronology/builder.h"
#include "records/tables.h"

// A record's own dates, and the order of its own events.
namespace saggar::chronology {

using dates::Bounds;
using dates::Doubted;
using dates::Expression;
using dates::Reading;
using records::Entry;
using records::FieldSpec;
using records::FieldType;
using records::ValueType;

namespace {

void bindSpan(Builder& builder, Node from, Node until, const Expression& date, FactId fact) {
  const dates::SpanDays wide = dates::spanDays(date, Reading::Wide, builder.options);
  const dates::SpanDays plain = dates::spanDays(date, Reading::Plain, builder.options, Doubted::AtItsWord);
  builder.bind(from, wide.begin, plain.begin, fact);
  builder.bind(until, wide.end, plain.end, fact);
}

// One of several dates: the hull binds, and each is remembered.
void addChoice(Builder& builder, Node node, const Expression& date, FactId fact) {
  const auto wide = date.memberBounds(Reading::Wide, builder.options);
  const auto plain = date.memberBounds(Reading::Plain, builder.options);
  const Bounds hull = dates::momentDays(date, Reading::Wide, builder.options);
  const Bounds face = dates::momentDays(date, Reading::Plain, builder.options, Doubted::AtItsWord);
  Choice choice;
  choice.node = node;
  choice.fact = fact;
  for (std::size_t i = 0; i < wide.size(); ++i) {
    Choice::Member member;
    member.wide = wide[i].opened();
    member.plain = plain[i].opened();
    choice.members.push_back(std::move(member));
  }
  choice.edges[0] = builder.notBefore(node, hull.earliest, fact, kWide);
  choice.edges[1] = builder.notAfterDay(node, hull.latest, fact, kWide);
  choice.edges[2] = builder.notBefore(node, face.earliest, fact, kPlain);
  choice.edges[3] = builder.notAfterDay(node, face.latest, fact, kPlain);
  builder.out().choices.push_back(std::move(choice));
}

void bindDate(Builder& builder, RecordIndex record, const Entry& entry, bool span) {
  const Value& value = entry.value;
  const Node moment = builder.events.nodeOf(record, entry.field, span ? EventEnd::from : EventEnd::moment);
  const Node until = span ? builder.events.nodeOf(record, entry.field, EventEnd::until) : moment;
  if (value.type == ValueType::between) {
    const auto ends = value.items();
    if (ends.size() != 2) return;
    for (std::size_t i = 0; i < 2; ++i) {
      const Value& end = ends[i];
      const Node own = i == 0 ? moment : until;
      if (end.type == ValueType::event) {
        const Node other = builder.events.named(end);
        if (other == kNoNode) continue;
        const FactId fact = builder.fact(record, entry.field, &value, Says::endsIn);
        // A moment lies before or after the event; an end of a span is on the day of it.
        if (span || i == 0) builder.notAfter(other, own, fact);
        if (span || i == 1) builder.notAfter(own, other, fact);
      } else if (const Expression* date = end.date()) {
        const FactId fact = builder.fact(record, entry.field, &value, Says::date);
        Bounds wide = dates::momentDays(*date, Reading::Wide, builder.options);
        Bounds plain = dates::momentDays(*date, Reading::Plain, builder.options, Doubted::AtItsWord);
        if (!span && i == 0) wide.latest = plain.latest = dates::Day::plusInfinity();
        if (!span && i == 1) wide.earliest = plain.earliest = dates::Day::minusInfinity();
        builder.bind(own, wide, plain, fact);
      }
    }
    return;
  }
  const Expression* date = value.date();
  if (date == nullptr) return;
  const FactId fact = builder.fact(record, entry.field, &value, Says::date);
  if (span) {
    bindSpan(builder, moment, until, *date, fact);
  } else if (date->shape() == dates::Shape::OneOf && date->size() > 1) {
    addChoice(builder, moment, *date, fact);
  } else {
    builder.bindMoment(moment, *date, fact);
  }
}

}  // namespace

void gatherDates(Builder& builder, RecordIndex record) {
  const Record& one = builder.all[record];
  auto inOrder = [&](Field earlier, EventEnd first, Field later, EventEnd second) {
    builder.notAfter(builder.events.nodeOf(record, earlier, first),
                     builder.events.nodeOf(record, later, second), kNoFact);
  };
  constexpr EventEnd kMoment = EventEnd::moment;
  inOrder("designed"_f, kMoment, "introduced"_f, kMoment);
  inOrder("introduced"_f, kMoment, "withdrawn"_f, kMoment);
  inOrder("founded"_f, kMoment, "closed"_f, kMoment);
  inOrder("born"_f, kMoment, "died"_f, kMoment);
  for (const Events::Slot& slot : Events::slotsOf(one.kind))
    if (slot.end == EventEnd::from) inOrder(slot.field, EventEnd::from, slot.field, EventEnd::until);
  for (const Entry& entry : one.fields) {
    if (!entry.known) continue;
    const FieldSpec* spec = records::specOf(one.kind, entry.field);
    if (spec == nullptr || !spec->has(records::kDated)) continue;
    bindDate(builder, record, entry, spec->type == FieldType::span);
  }
}

}  // namespace saggar::chronology
