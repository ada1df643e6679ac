#include "choosing/reach.h"

#include <array>
#include <vector>

namespace saggar::choosing {

using records::FieldSpec;
using records::FieldType;
using records::kKindCount;
using records::Value;
using records::ValueType;

const Value* wordWhenLeftOut(const FieldSpec& spec) {
  if (spec.type != FieldType::choice || spec.words.empty()) return nullptr;
  if (spec.field != "status"_f && spec.field != "how"_f && spec.field != "measured"_f &&
      spec.field != "keep"_f)
    return nullptr;
  static const auto values = [] {
    std::array<Value, 6> made{};
    std::size_t next = 0;
    for (std::string_view word : {"production", "held", "open", "in-hand", "overall", "must"}) {
      made[next].type = ValueType::text;
      made[next++].text = word;
    }
    return made;
  }();
  for (const Value& value : values)
    if (value.text == spec.words[0]) return &value;
  return nullptr;
}

bool countsBackwards(Kind kind, records::Field field) {
  if (field == "see"_f || field == "after"_f || field == "before"_f) return false;
  const FieldSpec* spec = records::specOf(kind, field);
  return spec != nullptr && spec->type != FieldType::moment && spec->type != FieldType::span &&
         spec->type != FieldType::event;
}

namespace {

bool names(const FieldSpec& spec, Kind to) {
  switch (spec.type) {
    case FieldType::reference: return spec.kinds.has(to);
    case FieldType::look: return to == Kind::feature;
    case FieldType::madeIn: return to == Kind::shape;
    case FieldType::structure:
    case FieldType::structureMap:
      for (const FieldSpec& inner : spec.inner)
        if (names(inner, to)) return true;
      return false;
    default: return false;
  }
}

using Table = std::array<std::array<bool, kKindCount>, kKindCount>;

Table makeTable() {
  Table table{};
  for (std::size_t from = 0; from + 1 < kKindCount; ++from)
    for (std::size_t to = 0; to + 1 < kKindCount; ++to)
      for (const FieldSpec* field : records::fieldsOf(static_cast<Kind>(from)))
        table[from][to] |=
            countsBackwards(static_cast<Kind>(from), field->field) && names(*field, static_cast<Kind>(to));
  return table;
}

}  // namespace

bool canRefer(Kind from, Kind to) {
  static const Table table = makeTable();
  return table[static_cast<std::size_t>(from)][static_cast<std::size_t>(to)];
}

bool throughTreatment(records::Field field) {
  return field == "shape"_f || field == "motif"_f || field == "for"_f || field == "decorated-by"_f;
}

Reached::State stateOfEnd(const Value& span, SpanEnd end) {
  const bool from = end == SpanEnd::from;
  if (span.type == ValueType::between) {
    const auto ends = span.items();
    if (ends.size() != 2) return Reached::State::unknown;
    const Value& one = ends[from ? 0 : 1];
    if (one.said()) return Reached::State::value;
    return !from && one.text == ".." ? Reached::State::none : Reached::State::unknown;
  }
  const dates::Expression* date = span.date();
  if (date == nullptr) return Reached::State::unknown;
  if (date->shape() != dates::Shape::Interval) return Reached::State::value;
  switch (date->piece(0).edge(from ? dates::End::Earliest : dates::End::Latest)) {
    case dates::Edge::Dated: return Reached::State::value;
    case dates::Edge::Open: return from ? Reached::State::unknown : Reached::State::none;
    case dates::Edge::Unknown: break;
  }
  return Reached::State::unknown;
}

SpanEnd endOfEvent(const Value& event, Kind kind) {
  const FieldSpec* spec = records::specOf(kind, event.eventField);
  if (spec == nullptr || spec->type != FieldType::span) return SpanEnd::whole;
  if (!event.eventFieldTyped) return records::spec(kind).standsForSpanEnd ? SpanEnd::until : SpanEnd::from;
  if (event.text.ends_with(".until")) return SpanEnd::until;
  return event.text.ends_with(".from") ? SpanEnd::from : SpanEnd::whole;
}

const FieldSpec& featureValueSpec() {
  static const FieldSpec spec{.field = "is"_f, .type = FieldType::text, .flags = records::kMany};
  return spec;
}

const FieldSpec& headingSpec() {
  static const FieldSpec spec{.field = "more"_f, .type = FieldType::text, .flags = records::kMany};
  return spec;
}

const FieldSpec& lookValueSpec() {
  static const FieldSpec inner[] = {
      {.field = "is"_f, .type = FieldType::text, .flags = records::kMany},
      {.field = "used"_f, .type = FieldType::span},
  };
  static const FieldSpec spec{
      .field = "look"_f, .type = FieldType::structure, .flags = records::kMany, .inner = inner};
  return spec;
}

const FieldSpec& referenceSpec(Kind kind) {
  static const std::array<FieldSpec, kKindCount> specs = [] {
    std::array<FieldSpec, kKindCount> made{};
    for (std::size_t i = 0; i < kKindCount; ++i) {
      made[i].field = "record"_f;
      made[i].type = FieldType::reference;
      made[i].flags = records::kMany;
      made[i].kinds = records::KindSet(static_cast<Kind>(i));
    }
    return made;
  }();
  return specs[static_cast<std::size_t>(kind)];
}

const FieldSpec& memberSpec(const FieldSpec& structureMap) {
  static const std::vector<FieldSpec> members = [] {
    std::vector<FieldSpec> made;
    for (const records::KindSpec& kind : records::kindSpecs())
      for (const FieldSpec& field : kind.fields)
        if (field.type == FieldType::structureMap) {
          made.push_back(field);
          made.back().type = FieldType::structure;
        }
    return made;
  }();
  for (const FieldSpec& member : members)
    if (member.inner.data() == structureMap.inner.data()) return member;
  return featureValueSpec();
}

}  // namespace saggar::choosing
