#pragma once
#include "chronology/suspects.h"

namespace saggar::chronology {

// Facts taken one by one, the best known first (of one weakness in the order added), each left out that clashes with
// those before it. What remains of the selection has no contradiction in it.
struct Strongest {
  Selection selection;
  std::vector<FactId> leftOut;  // rising
};
Strongest strongestOf(const Network& network, const Selection& selection, const Suspects& suspects);

}  // namespace saggar::chronology
