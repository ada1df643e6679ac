// Minimal hitting sets against a published example and against plain enumeration.
#include "study/hitting_sets.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <chrono>
#include <random>

using namespace saggar::study;

namespace {

bool hits(unsigned set, const std::vector<unsigned>& family) {
  return std::all_of(family.begin(), family.end(), [&](unsigned one) { return (one & set) != 0; });
}

// Every set of items by itself: does it hit all, and does none of its parts?
std::vector<ItemSet> byEnumeration(const std::vector<ItemSet>& family, Item items) {
  std::vector<unsigned> masks;
  for (const ItemSet& set : family) {
    unsigned mask = 0;
    for (const Item item : set) mask |= 1u << item;
    masks.push_back(mask);
  }
  std::vector<ItemSet> out;
  for (unsigned set = 0; set < 1u << items; ++set) {
    if (!hits(set, masks)) continue;
    bool minimal = true;
    for (Item item = 0; item < items && minimal; ++item)
      minimal = (set >> item & 1) == 0 || !hits(set & ~(1u << item), masks);
    if (!minimal) continue;
    ItemSet one;
    for (Item item = 0; item < items; ++item)
      if ((set >> item & 1) != 0) one.push_back(item);
    out.push_back(one);
  }
  std::sort(out.begin(), out.end(), [](const ItemSet& a, const ItemSet& b) {
    return a.size() != b.size() ? a.size() < b.size() : a < b;
  });
  return out;
}

std::vector<ItemSet> randomFamily(std::mt19937& random, Item items, std::size_t most) {
  std::vector<ItemSet> family(random() % (most + 1));
  for (ItemSet& set : family) {
    const unsigned dense = 2 + random() % 4;
    for (Item item = 0; item < items; ++item)
      if (random() % dense == 0) set.push_back(item);
    if (set.empty() && random() % 8 != 0) set.push_back(random() % items);
  }
  return family;
}

}  // namespace

// R. Greiner, B. A. Smith, R. W. Wilkerson, "A correction to the algorithm in Reiter's theory of diagnosis", Artificial
// Intelligence 41 (1989), 79-88, and R. Reiter, Artificial Intelligence 32 (1987), 57-95: the family and its minimal
// hitting sets, from memory.
TEST_CASE("the example of Reiter and Greiner") {
  const HittingSets found =
      minimalHittingSets({{2, 4, 5}, {1, 2, 3}, {1, 3, 5}, {2, 4, 6}, {2, 4}, {2, 3, 5}, {1, 6}});
  CHECK(found.whole);
  CHECK(found.all == std::vector<ItemSet>{{1, 2}, {1, 3, 4}, {1, 4, 5}, {2, 3, 6}, {2, 5, 6}, {3, 4, 6}});
}

TEST_CASE("nothing to hit, and what cannot be hit") {
  CHECK(minimalHittingSets({}).all == std::vector<ItemSet>{{}});
  CHECK(minimalHittingSets({{}}).all.empty());
  CHECK(minimalHittingSets({{1}, {}}).all.empty());
  CHECK(minimalHittingSets({{7}}).all == std::vector<ItemSet>{{7}});
  CHECK(minimalHittingSets({{1, 2}, {1, 2}, {1, 2, 3}}).all == std::vector<ItemSet>{{1}, {2}});
  CHECK_FALSE(shortestHittingSet({{1}, {}}, {1, 1}).has_value());
  CHECK(shortestHittingSet({}, {})->items.empty());
}

TEST_CASE("a family without sets that contain others of it") {
  CHECK(smallestOf({{1, 2, 3}, {2, 3}, {4}, {2, 3}, {3, 4}}) == std::vector<ItemSet>{{4}, {2, 3}});
}

TEST_CASE("twenty thousand small families, each against plain enumeration") {
  std::mt19937 random(11);
  for (int round = 0; round < 20'000; ++round) {
    const Item items = 1 + random() % 9;
    const auto family = randomFamily(random, items, 9);
    const auto expected = byEnumeration(family, items);
    const HittingSets found = minimalHittingSets(family);
    REQUIRE(found.whole);
    REQUIRE(found.all == expected);
    const std::size_t most = random() % 5;
    HittingLimits limits;
    limits.mostItems = most;
    std::vector<ItemSet> small;
    for (const ItemSet& set : expected)
      if (set.size() <= most) small.push_back(set);
    REQUIRE(minimalHittingSets(family, limits).all == small);
  }
}

TEST_CASE("the shortest and cheapest, against all of them") {
  std::mt19937 random(12);
  for (int round = 0; round < 10'000; ++round) {
    const Item items = 1 + random() % 9;
    const auto family = randomFamily(random, items, 9);
    std::vector<std::int64_t> cost(items);
    for (std::int64_t& one : cost) one = 1 + random() % 5;
    const auto all = byEnumeration(family, items);
    const auto found = shortestHittingSet(family, cost);
    REQUIRE(found.has_value() == !all.empty());
    if (all.empty()) continue;
    REQUIRE(found->sure);
    const auto sum = [&](const ItemSet& set) {
      std::int64_t out = 0;
      for (const Item item : set) out += cost[item];
      return out;
    };
    const auto best = std::min_element(all.begin(), all.end(), [&](const ItemSet& a, const ItemSet& b) {
      return a.size() != b.size() ? a.size() < b.size() : sum(a) < sum(b);
    });
    REQUIRE(found->items == *best);
  }
}

TEST_CASE("families that have more hitting sets than anybody could list end in time") {
  const auto begin = std::chrono::steady_clock::now();
  // Two of each of thirty pairs: a thousand million sets of thirty.
  std::vector<ItemSet> pairs;
  for (Item i = 0; i < 30; ++i) pairs.push_back({2 * i, 2 * i + 1});
  const HittingSets found = minimalHittingSets(pairs);
  CHECK_FALSE(found.whole);
  CHECK_FALSE(found.all.empty());
  HittingLimits small;
  small.mostItems = 4;
  CHECK(minimalHittingSets(pairs, small).all.empty());
  // Random sets of a hundred items.
  std::mt19937 random(13);
  std::vector<ItemSet> family(2'000);
  for (ItemSet& set : family)
    for (Item item = 0; item < 100; ++item)
      if (random() % 8 == 0) set.push_back(item);
  const auto rough = shortestHittingSet(family, std::vector<std::int64_t>(100, 1));
  REQUIRE(rough.has_value());
  CHECK_FALSE(rough->sure);
  for (const ItemSet& set : family)
    CHECK(std::any_of(set.begin(), set.end(), [&](Item item) {
      return std::binary_search(rough->items.begin(), rough->items.end(), item);
    }));
  // A thousand sets that differ in little, as contradictions along one long chain do.
  std::vector<ItemSet> chain(1'000);
  for (Item i = 0; i < chain.size(); ++i)
    for (Item item = 0; item < 2'000; ++item)
      if (item != i) chain[i].push_back(item);
  HittingLimits few;
  few.mostItems = 2;
  const HittingSets ofChain = minimalHittingSets(chain, few);
  for (const ItemSet& set : ofChain.all) CHECK(set.size() <= 2);
  const std::chrono::duration<double> took = std::chrono::steady_clock::now() - begin;
  CHECK(took.count() < 20.0);
}
