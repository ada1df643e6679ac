#include "choosing/condition.h"
#include "choosing/reach.h"

namespace saggar::choosing {

using records::FieldSpec;
using records::FieldType;
using records::Value;
using records::ValueType;

namespace {

constexpr int kDeepest = 8;  // events that name events
constexpr dates::Bounds kOpen{dates::Day::minusInfinity(), dates::Day::plusInfinity()};

}  // namespace

dates::Bounds OwnBounds::of(RecordIndex record, records::Field field, End end) const {
  return of(record, field, end, 0);
}

dates::Bounds OwnBounds::of(RecordIndex record, records::Field field, End end, int depth) const {
  if (record >= collection_.size() || depth > kDeepest) return kOpen;
  const Value* value = collection_[record].find(field);
  const FieldSpec* spec = records::specOf(collection_[record].kind, field);
  if (value == nullptr || spec == nullptr) return kOpen;
  const dates::Options& options = collection_.settings().dates;
  if (const dates::Expression* date = value->date()) {
    if (spec->type != FieldType::span || end == End::moment) return date->bounds(reading_, options).opened();
    const dates::SpanBounds span = dates::spanOf(*date, reading_, options);
    return (end == End::from ? span.begin : span.end).opened();
  }
  if (value->type != ValueType::between) return kOpen;
  // `../shape:linnavere`: each end is a date, an event, or nothing.
  auto endOf = [&](const Value& one) {
    if (one.type == ValueType::event) return ofEvent(one, depth + 1);
    return one.date() != nullptr ? one.date()->bounds(reading_, options).opened() : kOpen;
  };
  const auto items = value->items();
  if (items.size() != 2) return kOpen;
  if (spec->type == FieldType::span && end != End::moment) return endOf(items[end == End::from ? 0 : 1]);
  return {endOf(items[0]).earliest, endOf(items[1]).latest};
}

dates::Bounds OwnBounds::ofEvent(const Value& event, int depth) const {
  if (event.target() == records::kNoRecord) return kOpen;
  const Kind kind = collection_[event.target()].kind;
  const FieldSpec* spec = records::specOf(kind, event.eventField);
  if (spec == nullptr || !spec->has(records::kDated)) return kOpen;
  const SpanEnd which = endOfEvent(event, kind);
  const End end = which == SpanEnd::from ? End::from : which == SpanEnd::until ? End::until : End::moment;
  return of(event.target(), event.eventField, end, depth);
}

}  // namespace saggar::choosing
