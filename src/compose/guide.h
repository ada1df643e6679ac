#pragma once
#include <functional>

#include "compose/places.h"

namespace saggar::compose {

// Composes the guide chapter by chapter, hands each to `take` and drops it: contents first (file "README"), then the
// chapters in the order of `places`; the index, wherever it stands, comes last, since the others fill it. Findings are
// those that only composing can see: what is wrong with the YAML of a block, once more, and nothing that `places` did not
// say.
void composeGuide(const Materials& materials, const Places& places, const std::function<void(Composed)>& take,
                  diagnostics::Findings& findings);

}  // namespace saggar::compose
