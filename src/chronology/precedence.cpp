#include <algorithm>

#include "chronology/chronology.h"

// Which of two events came first.
namespace saggar::chronology {

using dates::Day;
using dates::End;

namespace {

struct Distance {
  Days days = kFar;  // the second is at most so many days after the first
  std::vector<FactId> because;
};

class Between {
 public:
  Between(const Network& network, const Selection& selection)
      : network_(network),
        selection_(selection),
        order_(orderOf(network, selection)),
        from_(waysOf(network, selection, order_, Direction::fromOrigin)),
        to_(waysOf(network, selection, order_, Direction::toOrigin)) {}

  Distance of(Node a, Node b) const {
    Distance found;
    const Ways direct = waysFrom(network_, selection_, order_, a);
    if (direct.reaches(b)) {
      found.days = direct.of(b);
      add(found, edgesOf(network_, direct, b));
    }
    if (!to_.reaches(a) || !from_.reaches(b) || to_.of(a) + from_.of(b) >= found.days) return found;
    found.days = to_.of(a) + from_.of(b);
    found.because.clear();
    add(found, edgesOf(network_, to_, a));
    add(found, edgesOf(network_, from_, b));
    return found;
  }

 private:
  void add(Distance& found, const std::vector<EdgeId>& edges) const {
    for (const EdgeId edge : edges) {
      const FactId fact = network_.edge(edge).fact;
      if (fact != kNoFact &&
          std::find(found.because.begin(), found.because.end(), fact) == found.because.end())
        found.because.push_back(fact);
    }
  }

  const Network& network_;
  const Selection& selection_;
  Order order_;
  Ways from_, to_;
};

WhichFirst decide(const Distance& ab, const Distance& ba) {
  if (ba.days <= -1) return WhichFirst::first;
  if (ab.days <= -1) return WhichFirst::second;
  return ab.days == 0 && ba.days == 0 ? WhichFirst::sameDay : WhichFirst::undecided;
}

}  // namespace

Precedence Chronology::first(Node a, Node b) const {
  Precedence out;
  if (gathered_ == nullptr || a == b) {
    out.answer = out.likely = WhichFirst::sameDay;
    return out;
  }
  Network network = gathered_->network;  // with its index, which is not kept
  network.finish();
  const Between likely(network, likelyFacts_);
  const Distance likelyAb = likely.of(a, b);
  const Distance likelyBa = likely.of(b, a);
  out.likely = decide(likelyAb, likelyBa);
  const Between proven(network, provenFacts_);
  const Distance ab = proven.of(a, b);
  const Distance ba = proven.of(b, a);
  out.answer = decide(ab, ba);
  auto put = [&](const Distance& one) {
    for (const FactId fact : one.because)
      if (std::find(out.because.begin(), out.because.end(), fact) == out.because.end())
        out.because.push_back(fact);
  };
  const bool decided = out.answer != WhichFirst::undecided;
  const WhichFirst answer = decided ? out.answer : out.likely;
  if (answer == WhichFirst::first || answer == WhichFirst::sameDay) put(decided ? ba : likelyBa);
  if (answer == WhichFirst::second || answer == WhichFirst::sameDay) put(decided ? ab : likelyAb);
  if (decided) return out;
  // For each order: a bound of one event that would have to move past the other's.
  const dates::Bounds first = bounds(a, BoundsOf::proven);
  const dates::Bounds second = bounds(b, BoundsOf::proven);
  struct Move {
    Settling settling;
    Days by;
  };
  std::vector<Move> moves;
  auto offer = [&](bool ofFirst, End end, Day day, Day now, bool thenFirst) {
    if (!day.isFinite()) return;
    const Days by =
        now.isFinite() ? std::max(day.number() - now.number(), now.number() - day.number()) : kFar;
    moves.push_back({{ofFirst, end, day, thenFirst}, by});
  };
  offer(true, End::Latest, second.earliest.plusDays(-1), first.latest, true);
  offer(false, End::Earliest, first.latest.plusDays(1), second.earliest, true);
  offer(false, End::Latest, first.earliest.plusDays(-1), second.latest, false);
  offer(true, End::Earliest, second.latest.plusDays(1), first.earliest, false);
  std::stable_sort(moves.begin(), moves.end(), [](const Move& x, const Move& y) { return x.by < y.by; });
  for (const Move& move : moves) out.settle.push_back(move.settling);
  return out;
}

}  // namespace saggar::chronology
