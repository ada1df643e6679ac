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
  return dates::momentDays(*value->date(), dates::Reading::Wide, options);
}

SpanDays spanDays(const Value* value, const dates::Options& options) {
  if (value == nullptr || value->date() == nullptr || value->isDoubted()) return {};
  return dates::spanDays(*value->date(), dates::Reading::Wide, options);
}

}  // namespace saggar::choosing
