#pragma once
#include "compose/places.h"

namespace saggar::compose {

// The list of corrections: every claim that corrects something, with all that a correction must hold (ICMJE
// Recommendations; COPE Retraction Guidelines; Elsevier's kinds; NISO RP-45-2024 for what is withdrawn). `places` may
// be null: then nothing is linked.
Composed composeCorrections(const Materials& materials, const Places* places);

// The same as blocks, for a `corrections` block: those of `chosen`.
Blocks correctionBlocks(const Materials& materials, const Places* places, const std::vector<choosing::Chosen>& chosen);

}  // namespace saggar::compose
