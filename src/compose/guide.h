#pragma once
#include <functional>

#include "compose/places.h"

namespace saggar::compose {

// Composes the guide chapter by chapter, hands each to `take` and drops it: contents first (file "README"), then the
// chapters in the order of `places`, each before the files in which it goes on (numbers.h); the index, wherever it stands, comes last, since the others fill it. `take` is
// called from this thread only; meanwhile the next chapter is made in another. Findings are those that only composing
// can see; what is wrong with blocks and links was said when `places` was planned.
void composeGuide(const Materials& materials, const Places& places, const std::function<void(Composed)>& take,
                  diagnostics::Findings& findings);

}  // namespace saggar::compose
