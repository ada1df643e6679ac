#pragma once
#include <functional>

#include "compose/places.h"

namespace saggar::compose {

// Composes the guide chapter by chapter, hands each to `take` and drops it: contents first (file "README"), then the
// chapters in order, then sources and index. Findings are those that only composing can see (link-missing to a heading,
// block YAML that cannot be read).
void composeGuide(const Materials& materials, const Places& places, const std::function<void(Composed)>& take,
                  diagnostics::Findings& findings);

}  // namespace saggar::compose
