#include "networks.h"

#include <algorithm>
#include <random>

namespace bench {
namespace {

using saggar::chronology::kNoFact;
using saggar::chronology::kOrigin;

constexpr Days kYear = 365;
constexpr std::uint32_t kSeries = 400;  // numbers in one
constexpr std::uint8_t kDocumented = 0;

class World {
 public:
  World(std::uint32_t events, std::uint32_t seed, bool tangled = false)
      : things_(events / 2), tangled_(tangled), random_(seed) {
    network_.addNodes(2 * things_);
    for (std::uint32_t i = 0; i < things_; ++i) {
      begins_.push_back(-90 * kYear + upTo(isOlder(i) ? 40 * kYear : 70 * kYear));
      ends_.push_back(begins_.back() + upTo(isOlder(i) ? 50 * kYear : 10 * kYear));
    }
    // Numbers in order were given out in order: within a series the days rise.
    for (std::uint32_t i = 0; i + kSeries <= things_; i += kSeries)
      std::sort(begins_.begin() + i, begins_.begin() + i + kSeries);
    for (std::uint32_t i = 0; i < things_; ++i) ends_[i] = std::max(ends_[i], begins_[i]);
  }

  void stateAll() {
    for (std::uint32_t i = 0; i < things_; ++i) {
      network_.addEdge(end(i), begin(i), 0, kNoFact);
      dated(begin(i), begins_[i], 1 + upTo(3));
      dated(end(i), ends_[i], 1 + upTo(3));
      partOfAnOlder(i);
      numberInSeries(i);
      afterAnother(i);
      for (int k = 0; k < 3; ++k) cited(i);
    }
  }

  FactId fact() { return network_.addFact(static_cast<std::uint8_t>(random_() % 4 == 0)); }
  void dated(Node node, Days day, Days years) {
    const FactId one = fact();
    const Days first = day - upTo(years * kYear - 1);
    network_.addEdge(node, kOrigin, -first, one);
    network_.addEdge(kOrigin, node, first + years * kYear, one);
  }
  Node begin(std::uint32_t thing) const { return 1 + 2 * thing; }
  Node end(std::uint32_t thing) const { return 2 + 2 * thing; }
  Network& network() { return network_; }
  std::mt19937& random() { return random_; }
  std::uint32_t things() const { return things_; }

 private:
  // What others are part of: shapes, motifs, makers.
  static bool isOlder(std::uint32_t thing) { return thing % 50 == 0; }
  std::uint32_t anyOlder() { return any() / 50 * 50; }
  // Mostly one of the next few hundred, as records of one shape stand together; of a tangled world any.
  std::uint32_t near(std::uint32_t thing) {
    if (tangled_ || upTo(99) == 0) return any();
    return std::min(thing / kSeries * kSeries + static_cast<std::uint32_t>(random_() % kSeries), things_ - 1);
  }

  // 0 to `most`.
  Days upTo(Days most) { return static_cast<Days>(random_() % static_cast<std::uint32_t>(most + 1)); }
  std::uint32_t any() { return static_cast<std::uint32_t>(random_() % things_); }

  // A fact of the kind wanted, of the first thing drawn that it is true of; of none in a few draws, another date.
  void partOfAnOlder(std::uint32_t i) {
    for (int tries = 0; tries < 20; ++tries) {
      const std::uint32_t other = tangled_ ? any() : anyOlder();
      if (begins_[other] > begins_[i] || ends_[other] < ends_[i] || other == i) continue;
      const FactId one = fact();
      network_.atLeast(begin(other), begin(i), 0, one);
      network_.atLeast(end(i), end(other), 0, one);
      return;
    }
    dated(begin(i), begins_[i], 2);
  }
  void numberInSeries(std::uint32_t i) {
    if (i % kSeries == 0 || begins_[i - 1] > begins_[i]) return dated(begin(i), begins_[i], 2);
    network_.atLeast(begin(i - 1), begin(i), 0, fact());
  }
  void afterAnother(std::uint32_t i) {
    for (int tries = 0; tries < 20; ++tries) {
      const std::uint32_t other = near(i);
      if (ends_[other] >= begins_[i]) continue;
      const FactId one = fact();
      network_.atLeast(end(other), begin(i), 1, one);
      if (upTo(tangled_ ? 3 : 999) == 0)
        network_.atMost(end(other), begin(i), begins_[i] - ends_[other] + kYear, one);
      return;
    }
    dated(end(i), ends_[i], 2);
  }
  // A dated source shows that it existed.
  void cited(std::uint32_t i) { network_.addEdge(kOrigin, begin(i), begins_[i] + upTo(10 * kYear), fact()); }

  std::uint32_t things_;
  bool tangled_;
  std::mt19937 random_;
  std::vector<Days> begins_, ends_;
  Network network_;
};

// A set that cannot be true: what began on a day by one fact ended no later by another, with facts in a row between them;
// or a ring of such facts without any date. It hangs on something older, which takes no part.
std::vector<FactId> plant(World& world, bool ring) {
  Network& network = world.network();
  std::mt19937& random = world.random();
  const std::uint32_t between = 1 + static_cast<std::uint32_t>(random() % 5);
  const Node first = network.addNodes(between + 1);
  const auto older = static_cast<std::uint32_t>(random() % world.things());
  network.atLeast(world.begin(older), first, 0, network.addFact(kDocumented));
  std::vector<FactId> facts;
  auto fact = [&] { return facts.emplace_back(network.addFact(kDocumented)); };
  for (std::uint32_t i = 0; i < between; ++i) network.atLeast(first + i, first + i + 1, 1, fact());
  const Days day = static_cast<Days>(random() % 30'000);  // later than anything sound
  if (ring) {
    network.atLeast(first + between, first, 1, fact());
  } else {
    network.addEdge(first, kOrigin, -day, fact());
    network.addEdge(kOrigin, first + between, day, fact());
  }
  return facts;
}

}  // namespace

Network sound(std::uint32_t events, Ties ties, std::uint32_t seed) {
  World world(events, 1752 + seed, ties == Ties::tangled);
  world.stateAll();
  world.network().finish();
  return std::move(world.network());
}

Network fallingSeries(std::uint32_t numbers) {
  Network network;
  const Node first = network.addNodes(numbers);
  for (std::uint32_t i = 0; i < numbers; ++i) {
    network.addEdge(kOrigin, first + i, -static_cast<Days>(i), network.addFact(kDocumented));
    network.addEdge(first + i, kOrigin, 400 * kYear + numbers, network.addFact(kDocumented));
    if (i > 0) network.atLeast(first + i - 1, first + i, 0, network.addFact(kDocumented));
  }
  network.finish();
  return network;
}

Network chainOfAfter(std::uint32_t events) {
  Network network;
  const Node first = network.addNodes(events);
  network.addEdge(first, kOrigin, 0, network.addFact(kDocumented));
  network.addEdge(kOrigin, first + events - 1, events, network.addFact(kDocumented));
  for (std::uint32_t i = 1; i < events; ++i)
    network.atLeast(first + i - 1, first + i, 1, network.addFact(kDocumented));
  network.finish();
  return network;
}

Clashing clashing(std::uint32_t events, std::uint32_t sets) {
  World world(events - 6 * sets, 1813);
  world.stateAll();
  Clashing made;
  for (std::uint32_t i = 0; i < sets; ++i) made.planted.push_back(plant(world, i % 4 == 0));
  world.network().finish();
  made.network = std::move(world.network());
  return made;
}

}  // namespace bench
