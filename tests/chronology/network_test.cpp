#include <doctest/doctest.h>

#include <algorithm>
#include <random>
#include <set>

#include "naive.h"

namespace saggar::chronology {
namespace {

std::vector<FactId> unionOf(const std::vector<std::vector<FactId>>& sets) {
  std::set<FactId> all;
  for (const auto& set : sets) all.insert(set.begin(), set.end());
  return {all.begin(), all.end()};
}

// Points, facts of one to three edges, days that clash now and then.
Network randomNetwork(std::mt19937& random, bool rings) {
  auto upTo = [&](int most) { return static_cast<int>(random() % static_cast<unsigned>(most + 1)); };
  Network network;
  const int points = 2 + upTo(4);
  network.addNodes(static_cast<std::uint32_t>(points));
  const int facts = 3 + upTo(6);
  for (int i = 0; i < facts; ++i) {
    const FactId fact = network.addFact(static_cast<std::uint8_t>(upTo(3)));
    if (upTo(2) != 0) {
      const auto node = static_cast<Node>(1 + upTo(points - 1));
      const int first = upTo(30);
      if (upTo(3) != 0) network.addEdge(node, kOrigin, -first, fact);
      if (upTo(3) != 0 || network.edges() == 0 ||
          network.edge(static_cast<EdgeId>(network.edges() - 1)).fact != fact)
        network.addEdge(kOrigin, node, first + upTo(6), fact);
      continue;
    }
    const int edges = 1 + upTo(1);
    for (int k = 0; k < edges; ++k) {
      auto a = static_cast<Node>(1 + upTo(points - 1));
      auto b = static_cast<Node>(1 + upTo(points - 1));
      if (!rings && a < b) std::swap(a, b);
      if (!rings && a == b) continue;
      network.addEdge(a, b, upTo(3) == 0 ? upTo(8) : -upTo(4), fact);
      if (rings && upTo(3) == 0) network.addEdge(b, a, 3 + upTo(8), fact);
    }
    if (network.edges() == 0 || network.edge(static_cast<EdgeId>(network.edges() - 1)).fact != fact)
      network.addEdge(kOrigin, 1, 100, fact);
  }
  network.finish();
  return network;
}

void compare(const Network& network, bool& clashes) {
  const Selection all = network.all();
  const Suspects suspects = suspectsOf(network, all);
  const auto table = naive::allPairs(network, all);
  clashes = !table;
  REQUIRE(suspects.none() == table.has_value());
  if (table)
    for (Node node = 1; node < network.nodes(); ++node) {
      CHECK(suspects.from.of(node) == (*table)[kOrigin][node]);
      CHECK(suspects.to.of(node) == (*table)[node][kOrigin]);
      const Ways ways = waysFrom(network, all, suspects.order, node);
      for (Node other = 1; other < network.nodes(); ++other) {
        const Days around = suspects.to.reaches(node) && suspects.from.reaches(other)
                                ? suspects.to.of(node) + suspects.from.of(other)
                                : kFar;
        CHECK(std::min(ways.of(other), around) == (*table)[node][other]);
      }
    }
  const auto expected = naive::allConflicts(network, all);
  const Conflicts found = conflictsOf(network, all, suspects);
  CHECK(found.rest.empty());
  std::vector<std::vector<FactId>> sets;
  for (const Conflict& conflict : found.all) {
    sets.push_back(conflict.facts);
    CHECK(std::binary_search(expected.begin(), expected.end(), conflict.facts));
    Days shortest = 0;
    const auto edges = naive::edgesInRings(network, all, conflict.facts, shortest);
    CHECK(edges == conflict.edges);
    CHECK(conflict.shortBy == -shortest);
  }
  CHECK(std::set<std::vector<FactId>>(sets.begin(), sets.end()).size() == sets.size());
  CHECK(unionOf(sets) == unionOf(expected));
  // What stands without the edges that take part has no contradiction left.
  const Strongest strongest = strongestOf(network, all, suspects);
  CHECK(strongest.leftOut == naive::leftOut(network, all));
}

}  // namespace

TEST_CASE("random networks without rings agree with brute force") {
  std::mt19937 random(20261125);
  int clashing = 0;
  for (int i = 0; i < 3000; ++i) {
    CAPTURE(i);
    bool clashes = false;
    compare(randomNetwork(random, false), clashes);
    clashing += clashes;
  }
  CHECK(clashing > 300);
  CHECK(clashing < 2900);
}

TEST_CASE("random networks with rings agree with brute force") {
  std::mt19937 random(1991);
  int clashing = 0;
  for (int i = 0; i < 2000; ++i) {
    CAPTURE(i);
    bool clashes = false;
    compare(randomNetwork(random, true), clashes);
    clashing += clashes;
  }
  CHECK(clashing > 200);
}

TEST_CASE("days that change once a network is finished change it wherever they are asked") {
  std::mt19937 random(2026);
  for (int i = 0; i < 500; ++i) {
    CAPTURE(i);
    Network network = randomNetwork(random, i % 2 == 0);
    CHECK(network.outOfOrigin().size() <= network.edges());  // its row is made before the days change
    for (int change = 0; change < 6; ++change) {
      const auto id = static_cast<EdgeId>(random() % network.edges());
      const Days far = change == 3 ? static_cast<Days>(1) << 90 : 0;  // and back again
      network.setDays(id, far + static_cast<Days>(random() % 60) - 20);
    }
    Network anew;
    anew.addNodes(network.nodes() - 1);
    for (FactId fact = 0; fact < network.facts(); ++fact) anew.addFact(network.weakness(fact));
    for (EdgeId id = 0; id < network.edges(); ++id) {
      const Edge& edge = network.edge(id);
      anew.addEdge(edge.from, edge.to, network.days(id), edge.fact);
    }
    anew.finish();
    CHECK(naive::allPairs(network, network.all()) == naive::allPairs(anew, anew.all()));
    const auto same = [&](std::span<const Arc> now, std::span<const Arc> fresh) {
      REQUIRE(now.size() == fresh.size());
      for (std::size_t k = 0; k < now.size(); ++k) {
        CHECK(now[k].edge == fresh[k].edge);
        CHECK(network.days(now[k]) == anew.days(fresh[k]));
      }
    };
    for (Node node = 1; node < network.nodes(); ++node) {
      same(network.into(node), anew.into(node));
      same(network.outOf(node), anew.outOf(node));
    }
    same(network.outOfOrigin(), anew.outOfOrigin());
  }
}

TEST_CASE("days of twenty digits count exactly") {
  Network network;
  const Node point = network.addNode();
  const FactId early = network.addFact(0);
  const FactId late = network.addFact(1);
  const Days far = static_cast<Days>(9'000'000'000'000'000'000) * 4000;
  network.notBefore(point, dates::Day::fromNumber(far + 1), early);
  network.notAfter(point, dates::Day::fromNumber(far), late);
  network.finish();
  const Suspects suspects = suspectsOf(network, network.all());
  const Conflicts found = conflictsOf(network, network.all(), suspects);
  REQUIRE(found.all.size() == 1);
  CHECK(found.all[0].shortBy == 1);
  CHECK(strongestOf(network, network.all(), suspects).leftOut == std::vector<FactId>{late});
}

}  // namespace saggar::chronology
