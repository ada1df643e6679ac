#pragma once
#include <functional>

#include "chronology/suspects.h"

namespace saggar::chronology {

// Facts taken one by one, the best known first, of one weakness the earlier, each left out that clashes with those before
// it. What remains of the selection has no contradiction in it.
struct Strongest {
  Selection selection;
  std::vector<FactId> leftOut;  // rising
};
using Earlier = std::function<bool(FactId, FactId)>;
Strongest strongestOf(const Network& network, const Selection& selection, const Suspects& suspects,
                      const Earlier& earlier = std::less<>());

}  // namespace saggar::chronology
