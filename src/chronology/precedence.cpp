#include "chronology/precedence.h"

#include <algorithm>
#include <mutex>

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
  Between(const Network& network, const Selection& selection, Suspects solved)
      : network_(network),
        selection_(selection),
        order_(std::move(solved.order)),
        from_(std::move(solved.from)),
        to_(std::move(solved.to)) {}

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

constexpr std::size_t kMostClashes = 20;

WhichFirst decide(const Between& between, Node a, Node b) {
  return decide(between.of(a, b), between.of(b, a));
}

// The latest day of an event is proven by nothing but that somebody saw a piece then.
bool isSighting(const Chronology& chronology, Node node) {
  const std::vector<FactId> chain = chronology.because(node, BoundsOf::proven, End::Latest);
  const auto event = chronology.events().eventOf(node);
  return !chain.empty() && chronology.fact(chain.front()).says == Says::seen && event &&
         event->field != "seen"_f;
}

// For each order that is not ruled out: a bound of one event that would have to move past the other's, to a day on which
// the event can still have been.
std::vector<Settling> settlingOf(const Chronology& chronology, Node a, Node b, const Precedence& known) {
  struct Move {
    Settling settling;
    Days by;
  };
  const dates::Bounds first = chronology.bounds(a, BoundsOf::proven);
  const dates::Bounds second = chronology.bounds(b, BoundsOf::proven);
  std::vector<Move> moves;
  auto offer = [&](bool ofFirst, End end, Day day, bool thenFirst) {
    if (!day.isFinite() || (thenFirst ? known.notFirst : known.notSecond)) return;
    const dates::Bounds& own = ofFirst ? first : second;
    if (end == End::Latest ? day < own.earliest : day > own.latest) return;
    if (end == End::Earliest && isSighting(chronology, ofFirst ? b : a)) return;
    const Day now = own.at(end);
    const Days by =
        now.isFinite() ? std::max(day.number() - now.number(), now.number() - day.number()) : kFar;
    moves.push_back({{ofFirst, end, day, thenFirst}, by});
  };
  offer(true, End::Latest, second.earliest.plusDays(-1), true);
  offer(false, End::Earliest, first.latest.plusDays(1), true);
  offer(false, End::Latest, first.earliest.plusDays(-1), false);
  offer(true, End::Earliest, second.latest.plusDays(1), false);
  std::stable_sort(moves.begin(), moves.end(), [](const Move& x, const Move& y) { return x.by < y.by; });
  std::vector<Settling> out;
  for (const Move& move : moves) out.push_back(move.settling);
  return out;
}

}  // namespace

// The network with its index, which a chronology does not keep.
struct PrecedenceIndex {
  explicit PrecedenceIndex(const Chronology& of)
      : network(indexed(of.gathered_->network)),
        likelyFacts(of.likelyFacts_),
        provenFacts(of.provenFacts_),
        likely(network, likelyFacts),
        proven(network, provenFacts) {}
  PrecedenceIndex(const PrecedenceIndex&) = delete;

  static Network indexed(Network network) {
    network.finish();
    return network;
  }

  // What a way between the two, or from the origin to one of them, can pass.
  std::vector<bool> pointsAround(Node a, Node b) const {
    std::vector<bool> reached(network.nodes(), false);
    for (const bool forwards : {true, false}) {
      std::vector<bool> seen(network.nodes(), false);
      std::vector<Node> waiting{a, b};
      while (!waiting.empty()) {
        const Node at = waiting.back();
        waiting.pop_back();
        if (at == kOrigin || seen[at]) continue;
        seen[at] = reached[at] = true;
        for (const Arc& arc : forwards ? network.outOf(at) : network.into(at)) waiting.push_back(arc.other);
      }
    }
    return reached;
  }

  const Network network;
  const Selection likelyFacts, provenFacts;
  const Between likely, proven;
};

struct SharedIndex {
  std::once_flag made;
  std::shared_ptr<const PrecedenceIndex> index;
};

std::shared_ptr<SharedIndex> sharedIndex() {
  return std::make_shared<SharedIndex>();
}

Precedences::Precedences(const Chronology& chronology) : chronology_(chronology) {
  if (chronology.gathered_ == nullptr) return;
  SharedIndex& shared = *chronology.precedence_;
  std::call_once(shared.made, [&] { shared.index = std::make_shared<const PrecedenceIndex>(chronology); });
  index_ = shared.index;
}

// The contradiction on which the order rests: without any of its facts it is open, with all but one it is not.
const Clash* Precedences::clashBehind(Node a, Node b) const {
  const Network& network = index_->network;
  Selection settled = chronology_.testFacts_;
  std::vector<const Clash*> near;
  const std::vector<bool> around = index_->pointsAround(a, b);
  for (const Clash& clash : chronology_.clashes_) {
    if (clash.atFaceValue) continue;
    for (const EdgeId id : clash.edges) settled.set(id, false);
    const bool touches = std::any_of(clash.edges.begin(), clash.edges.end(), [&](EdgeId id) {
      const Edge& edge = network.edge(id);
      return around[edge.from] || around[edge.to];
    });
    if (touches && near.size() < kMostClashes) near.push_back(&clash);
  }
  if (near.empty() || decide(Between(network, settled), a, b) != WhichFirst::undecided) return nullptr;
  for (const Clash* clash : near)
    for (const FactId without : clash->facts) {
      Selection trial = settled;
      for (const EdgeId id : clash->edges)
        if (network.edge(id).fact != without) trial.set(id, true);
      Suspects suspects = suspectsOf(network, trial);
      if (!suspects.none()) continue;
      if (decide(Between(network, trial, std::move(suspects)), a, b) != WhichFirst::undecided) return clash;
    }
  return nullptr;
}

Precedence Precedences::of(Node a, Node b) const {
  Precedence out;
  if (index_ == nullptr || a == b) {
    out.answer = out.likely = WhichFirst::sameDay;
    out.notFirst = out.notSecond = true;
    return out;
  }
  const Distance likelyAb = index_->likely.of(a, b);
  const Distance likelyBa = index_->likely.of(b, a);
  out.likely = decide(likelyAb, likelyBa);
  const Distance ab = index_->proven.of(a, b);
  const Distance ba = index_->proven.of(b, a);
  out.answer = decide(ab, ba);
  out.notFirst = ab.days <= 0;
  out.notSecond = ba.days <= 0;
  if (out.notFirst) out.whyNotFirst = ab.because;
  if (out.notSecond) out.whyNotSecond = ba.because;
  auto put = [&](const std::vector<FactId>& facts) {
    for (const FactId fact : facts)
      if (std::find(out.because.begin(), out.because.end(), fact) == out.because.end())
        out.because.push_back(fact);
  };
  const bool decided = out.answer != WhichFirst::undecided;
  if (!decided) {
    if (const Clash* clash = clashBehind(a, b)) {
      out.answer = WhichFirst::contradiction;
      put(clash->facts);
      return out;
    }
  }
  const WhichFirst answer = decided ? out.answer : out.likely;
  if (answer == WhichFirst::first || answer == WhichFirst::sameDay) put((decided ? ba : likelyBa).because);
  if (answer == WhichFirst::second || answer == WhichFirst::sameDay) put((decided ? ab : likelyAb).because);
  if (!decided) out.settle = settlingOf(chronology_, a, b, out);
  return out;
}

}  // namespace saggar::chronology
