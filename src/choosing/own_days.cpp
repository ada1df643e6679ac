#include "choosing/own_days.h"

namespace saggar::choosing {

using dates::Bounds;
using dates::Day;
using records::Value;
using records::ValueType;

namespace {

Bounds open() {
  return {Day::minusInfinity(), Day::plusInfinity()};
}

}  // namespace

Bounds momentDays(const Value* value, const dates::Options& options) {
  if (value == nullptr) return open();
  if (value->type == ValueType::between) {
    const Bounds from = momentDays(&value->items()[0], options);
    const Bounds to = momentDays(&value->items()[1], options);
    return {from.earliest, to.latest};
  }
  if (value->date() == nullptr || value->isDoubted()) return open();
  const dates::Expression& date = *value->date();
  if (date.isAllOf()) return open();
  Bounds bounds = date.wide(options).opened();
  if (date.isDoubted(dates::End::Earliest)) bounds.earliest = Day::minusInfinity();
  if (date.isDoubted(dates::End::Latest)) bounds.latest = Day::plusInfinity();
  return bounds;
}

SpanDays spanDays(const Value* value, const dates::Options& options) {
  SpanDays days;
  if (value == nullptr || value->date() == nullptr) return days;
  if (value->isDoubted()) return days;
  const dates::SpanBounds span = dates::spanOf(*value->date(), dates::Reading::Wide, options);
  if (!span.beginDoubted) days.begin = span.begin.opened();
  if (!span.endDoubted) days.end = span.end.opened();
  return days;
}

}  // namespace saggar::choosing
