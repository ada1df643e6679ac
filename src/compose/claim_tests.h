#pragma once
#include "compose/words.h"

namespace saggar::compose {

// Whether the records bear a statement out that tests itself: "the records of this guide bear this out: 12 of 12
// shapes"; "broken by Sorrendale (finial: closed knob) and 2 more shapes"; "open: the finial of Fennimarque is not
// recorded". Empty for a statement that is not tested.
Inlines testInWords(const Words& words, RecordIndex claim);
// The same where nothing is cited for it: what the records do not bear out is then the author's judgement.
Inlines testAloneInWords(const Words& words, const PublishedRecord& claim);

}  // namespace saggar::compose
