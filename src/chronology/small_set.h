#pragma once
#include <optional>

#include "chronology/conflicts.h"

namespace saggar::chronology {

// Makes smallest sets of the facts on a ring.
//
// The choice: the few facts of the ring are looked at alone, with all their edges, and each is left out in turn
// (deletion filter); what remains clashes, and is smallest. The cost: as many looks as the ring has facts.
class SmallSets {
 public:
  SmallSets(const Network& network, const Selection& selection);

  // The facts of the ring made smallest; `keep` (or kNoFact) is left out only if the others clash without it.
  Conflict make(const std::vector<EdgeId>& ring, FactId keep);

 private:
  struct LocalEdge {
    std::uint32_t from, to;
    EdgeId id;
    FactId fact;
    Days days;
  };
  struct Local {
    std::uint32_t points = 0;
    std::vector<LocalEdge> edges;
  };
  Local localOf(const std::vector<EdgeId>& ring, const std::vector<FactId>& facts);
  // A ring of less than nothing among those edges, as places in `edges`.
  static std::optional<std::vector<std::uint32_t>> ringIn(const Local& local, const std::vector<bool>& use);
  void tellRings(const Local& local, const std::vector<bool>& use, Conflict& conflict) const;

  const Network& network_;
  const Selection& selection_;
};

}  // namespace saggar::chronology
