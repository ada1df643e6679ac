#include "dates/compare.h"

#include <algorithm>

namespace saggar::dates {
namespace {

Certainty answer(bool certain, bool impossible) {
  return impossible ? Certainty::Impossible : certain ? Certainty::Certain : Certainty::Possible;
}

// Of a range with a blank end nothing is certain but what lies before or after its other one.
bool isKnown(const Bounds& range) {
  return !range.earliest.isUnknown() && !range.latest.isUnknown();
}

// A span with what its two ends say of one another: it did not begin after it ended.
struct Closed {
  Bounds begin, end;

  explicit Closed(const SpanBounds& span) : begin(span.begin.opened()), end(span.end.opened()) {
    begin.latest = std::min(begin.latest, end.latest);
    end.earliest = std::max(end.earliest, begin.earliest);
  }
};

}  // namespace

Certainty before(const Bounds& a, const Bounds& b) {
  const Bounds x = a.opened(), y = b.opened();
  return answer(x.latest < y.earliest, x.earliest.isFinite() && x.earliest >= y.latest);
}

Certainty notAfter(const Bounds& a, const Bounds& b) {
  const Bounds x = a.opened(), y = b.opened();
  return answer(x.latest.isFinite() && x.latest <= y.earliest, x.earliest > y.latest);
}

Certainty sameDay(const Bounds& a, const Bounds& b) {
  const Bounds x = a.opened(), y = b.opened();
  const bool fixed = x.earliest.isFinite() && x.earliest == x.latest;
  return answer(fixed && x == y, x.earliest > y.latest || y.earliest > x.latest);
}

Certainty within(const Bounds& day, const Bounds& range) {
  const Bounds x = day.opened(), y = range.opened();
  return answer(isKnown(range) && x.earliest >= y.earliest && x.latest <= y.latest,
                x.earliest > y.latest || x.latest < y.earliest);
}

Certainty within(const Bounds& day, const SpanBounds& span) {
  const Bounds x = day.opened();
  const Closed y(span);
  // Open ends bind nothing here, but where the span is known to be open there is nothing to be outside of.
  const bool startsBefore = span.beginOpen || (x.earliest.isFinite() && y.begin.latest <= x.earliest);
  const bool endsAfter = span.endOpen || (x.latest.isFinite() && y.end.earliest >= x.latest);
  return answer(startsBefore && endsAfter, x.latest < y.begin.earliest || x.earliest > y.end.latest);
}

Certainty overlaps(const SpanBounds& span, const Bounds& range) {
  const Closed x(span);
  const Bounds y = range.opened();
  const bool startsInTime = span.beginOpen || x.begin.latest <= y.latest;
  const bool lastsLongEnough = span.endOpen || x.end.earliest >= y.earliest;
  return answer(isKnown(range) && startsInTime && lastsLongEnough,
                x.begin.earliest > y.latest || x.end.latest < y.earliest);
}

Certainty overlaps(const SpanBounds& a, const SpanBounds& b) {
  const Closed x(a), y(b);
  const auto surelyReaches = [](const SpanBounds& from, const Closed& f, const SpanBounds& to,
                                const Closed& t) {
    return from.beginOpen || to.endOpen || (f.begin.latest.isFinite() && f.begin.latest <= t.end.earliest);
  };
  return answer(surelyReaches(a, x, b, y) && surelyReaches(b, y, a, x),
                x.begin.earliest > y.end.latest || y.begin.earliest > x.end.latest);
}

Certainty within(std::span<const Bounds> members, const Bounds& range) {
  bool all = true, none = true;
  for (const Bounds& member : members) {
    const Certainty one = within(member, range);
    all = all && one == Certainty::Certain;
    none = none && one == Certainty::Impossible;
  }
  return answer(all && !members.empty(), none && !members.empty());
}

}  // namespace saggar::dates
