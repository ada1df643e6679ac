#include "chronology/events.h"

#include <algorithm>
#include <array>

#include "records/tables.h"

namespace saggar::chronology {

using records::FieldSpec;
using records::FieldType;

std::span<const Events::Slot> Events::slotsOf(Kind kind) {
  static const auto table = [] {
    std::array<std::vector<Slot>, records::kKindCount> slots;
    for (const records::KindSpec& spec : records::kindSpecs())
      for (const FieldSpec* field : records::fieldsOf(spec.kind)) {
        if (field->field == "seen"_f)
          slots[static_cast<std::size_t>(spec.kind)].push_back({field->field, EventEnd::moment});
        if (!field->has(records::kDated)) continue;
        auto& own = slots[static_cast<std::size_t>(spec.kind)];
        if (field->type == FieldType::moment) own.push_back({field->field, EventEnd::moment});
        if (field->type != FieldType::span) continue;
        own.push_back({field->field, EventEnd::from});
        own.push_back({field->field, EventEnd::until});
      }
    return slots;
  }();
  return table[static_cast<std::size_t>(kind)];
}

Events::Events(const linking::Collection& collection) : collection_(collection) {
  begins_.reserve(collection.size() + 1);
  Node next = 1;
  for (const Record& record : collection.records()) {
    begins_.push_back(next);
    next += static_cast<Node>(slotsOf(record.kind).size());
  }
  begins_.push_back(next);
}

Node Events::nodeOf(const Event& event) const {
  if (event.record >= collection_.size()) return kNoNode;
  const auto slots = slotsOf(collection_[event.record].kind);
  for (std::size_t i = 0; i < slots.size(); ++i)
    if (slots[i].field == event.field && slots[i].end == event.end)
      return begins_[event.record] + static_cast<Node>(i);
  return kNoNode;
}

std::optional<Event> Events::standingFor(RecordIndex record) const {
  if (record >= collection_.size()) return std::nullopt;
  const records::KindSpec& spec = records::spec(collection_[record].kind);
  if (!spec.standsFor) return std::nullopt;
  const FieldSpec* field = records::specOf(spec.kind, *spec.standsFor);
  const bool span = field != nullptr && field->type == FieldType::span;
  const EventEnd end = !span ? EventEnd::moment : spec.standsForSpanEnd ? EventEnd::until : EventEnd::from;
  return Event{record, *spec.standsFor, end};
}

Node Events::standsFor(RecordIndex record) const {
  const auto event = standingFor(record);
  return event ? nodeOf(*event) : kNoNode;
}

Node Events::named(const Value& value) const {
  const RecordIndex record = value.target();
  if (value.type != records::ValueType::event || record == records::kNoRecord) return kNoNode;
  if (!value.eventFieldTyped) return standsFor(record);
  const FieldSpec* spec = records::specOf(collection_[record].kind, value.eventField);
  if (spec == nullptr) return kNoNode;
  if (spec->type != FieldType::span) return nodeOf(record, value.eventField);
  return nodeOf(record, value.eventField,
                value.text.view().ends_with(".until") ? EventEnd::until : EventEnd::from);
}

std::optional<Event> Events::eventOf(Node node) const {
  if (node == kOrigin || node >= begins_.back()) return std::nullopt;
  const auto next = std::upper_bound(begins_.begin(), begins_.end(), node);
  const auto record = static_cast<RecordIndex>(next - begins_.begin() - 1);
  const Slot& slot = slotsOf(collection_[record].kind)[node - begins_[record]];
  return Event{record, slot.field, slot.end};
}

std::string Events::text(const Event& event) const {
  std::string out = collection_[event.record].reference() + '.' + std::string(event.field.name());
  if (event.field == "seen"_f) out += ".on";
  if (event.end != EventEnd::moment) out += event.end == EventEnd::from ? ".from" : ".until";
  return out;
}

}  // namespace saggar::chronology
