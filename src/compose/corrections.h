#pragma once
#include <string_view>

#include "compose/places.h"

namespace saggar::compose {

// The list of corrections: every claim that corrects something, in the order in which they were issued, with all that a
// correction must hold (ICMJE Recommendations; COPE Retraction Guidelines; Elsevier's kinds; NISO RP-45-2024 for what is
// withdrawn). `places` leads to where the corrected text stands, in the guide whose files lie in `folder` ("guide/");
// null: then nothing of the guide is linked.
Composed composeCorrections(const Materials& materials, const Places* places, std::string_view folder = {});

// The same as blocks, for a `corrections` block: those of `chosen`. The first block of each is its title in bold.
Blocks correctionBlocks(const Materials& materials, const Places* places,
                        const std::vector<choosing::Chosen>& chosen);

// Links to the corrections about a record, for the corrected text: "corrigendum of 2 May 2020", each once; empty if there
// are none (or they are described nowhere).
Inlines correctionLinks(const Materials& materials, const Places& places, RecordIndex record);

}  // namespace saggar::compose
