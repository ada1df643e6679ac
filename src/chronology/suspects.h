#pragma once
#include "chronology/ways.h"

namespace saggar::chronology {

// What may take part in a contradiction. An edge of which the way to it, itself and the way back sum to less than
// nothing is suspect; where rings of less than nothing do not touch the origin, so is every edge at their points and at
// the points nearest to them. A fact none of whose edges is suspect takes part in no contradiction.
struct Suspects {
  // The selection without one fact for each such ring: the weakest. `from` and `to` are worked out with these left out.
  Selection base;
  std::vector<FactId> leftOut;
  std::vector<std::vector<EdgeId>> rings;  // the ring for which each was left out
  std::vector<bool> torn;                  // of a point: it is among points that hold a ring
  Order order;
  Ways from, to;
  std::vector<EdgeId> edges;  // rising
  bool none() const { return edges.empty(); }
};

Suspects suspectsOf(const Network& network, const Selection& selection);

}  // namespace saggar::chronology
