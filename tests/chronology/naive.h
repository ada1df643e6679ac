#pragma once
#include <optional>
#include <vector>

#include "chronology/conflicts.h"
#include "chronology/strongest.h"

// The same questions answered by brute force, for the tests alone: all pairs of points (Floyd, Warshall), every set of
// facts, facts taken one by one.
namespace saggar::chronology::naive {

using Table = std::vector<std::vector<Days>>;  // [a][b]: at most so many days from a to b

// nullopt if the facts cannot all be true.
std::optional<Table> allPairs(const Network& network, const Selection& selection);

Selection only(const Network& network, const Selection& selection, const std::vector<FactId>& facts);

// Every smallest set, by looking at every set of the facts (of at most twenty).
std::vector<std::vector<FactId>> allConflicts(const Network& network, const Selection& selection);

// The edges of a smallest set that lie on a simple ring of less than nothing.
std::vector<EdgeId> edgesInRings(const Network& network, const Selection& selection,
                                 const std::vector<FactId>& facts, Days& shortest);

std::vector<FactId> leftOut(const Network& network, const Selection& selection);

}  // namespace saggar::chronology::naive
