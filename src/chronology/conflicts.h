#pragma once
#include "chronology/suspects.h"

namespace saggar::chronology {

// A smallest set of facts that cannot all be true: leave one out, and the rest can.
struct Conflict {
  std::vector<FactId> facts;  // rising
  std::vector<EdgeId> edges;  // those of their edges that take part, rising
  Days shortBy = 0;           // by how many days they miss at most
};

struct Conflicts {
  std::vector<Conflict> all;  // the most are kMost
  // Facts that still clash, of which no smallest set was made any more.
  std::vector<FactId> rest;
  static constexpr std::size_t kMost = 1000;
};

// Every edge that takes part in a smallest set is in one of those found, as far as a bounded search finds one for it:
// exact for what an author writes, and for small networks always. So all independent sets are found, and of overlapping
// ones as many as account for every fact that takes part.
Conflicts conflictsOf(const Network& network, const Selection& selection, const Suspects& suspects);

}  // namespace saggar::chronology
