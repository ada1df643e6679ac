#include "dates/binding.h"

namespace saggar::dates {

Bounds momentDays(const Expression& date, Reading reading, const Options& options, Doubted doubted) {
  if (date.isAllOf()) return {Day::minusInfinity(), Day::plusInfinity()};
  Bounds bounds = date.bounds(reading, options).opened();
  if (doubted == Doubted::AtItsWord) return bounds;
  if (date.isDoubted(End::Earliest)) bounds.earliest = Day::minusInfinity();
  if (date.isDoubted(End::Latest)) bounds.latest = Day::plusInfinity();
  return bounds;
}

SpanDays spanDays(const Expression& date, Reading reading, const Options& options, Doubted doubted) {
  const SpanBounds span = spanOf(date, reading, options);
  const bool all = doubted == Doubted::AtItsWord;
  SpanDays days;
  if (all || !span.beginDoubted) days.begin = span.begin.opened();
  if (all || !span.endDoubted) days.end = span.end.opened();
  return days;
}

}  // namespace saggar::dates
