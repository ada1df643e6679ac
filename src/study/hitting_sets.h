#pragma once
#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

// Sets that have something in common with each of a family of sets, and lose that when anything is taken out of them:
// the minimal hitting sets (R. Reiter, "A theory of diagnosis from first principles", Artificial Intelligence 32, 1987;
// R. Greiner, B. A. Smith, R. W. Wilkerson, "A correction to the algorithm in Reiter's theory of diagnosis", Artificial
// Intelligence 41, 1989). Pure: no record is seen here.
//
// The problem: there may be more of them than anybody could list. The choice: whoever is in a set must be the only one to
// hit some member of the family, which is kept up to date as the set grows, so that none is met twice and none that is
// not minimal is met at all (after K. Murakami, T. Uno, "Efficient algorithms for dualizing large-scale hypergraphs",
// Discrete Applied Mathematics 170, 2014); sets beyond a size are not begun, and after so many steps the search ends. The
// cost: then some may be missing, which the answer says.
namespace saggar::study {

using Item = std::uint32_t;
using ItemSet = std::vector<Item>;  // rising, each once

struct HittingLimits {
  std::size_t mostItems = SIZE_MAX;  // in a set
  std::size_t mostSets = 100'000;
  std::size_t mostSteps = 5'000'000;  // looks at an item of a set
};

struct HittingSets {
  std::vector<ItemSet> all;  // fewest items first, then by their items
  bool whole = true;         // none of at most so many items is missing
};

// Of a family without sets the empty set is the only one; a family with an empty set has none.
HittingSets minimalHittingSets(std::vector<ItemSet> family, const HittingLimits& limits = {});

// The family without sets that contain another of it, which are hit whenever that is; sorted.
std::vector<ItemSet> smallestOf(std::vector<ItemSet> family);

struct ShortestHitting {
  ItemSet items;
  bool sure = true;  // false: the search was cut short, and there may be a shorter or cheaper one
};

// The one of fewest items, of those the one with the least sum of costs, of those the first by its items. `cost` is by
// item. Nothing if some set is empty.
std::optional<ShortestHitting> shortestHittingSet(std::vector<ItemSet> family,
                                                  const std::vector<std::int64_t>& cost,
                                                  const HittingLimits& limits = {});

}  // namespace saggar::study
