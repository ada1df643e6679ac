#pragma once
#include <string>

#include "compose/materials.h"

namespace saggar::compose {

// One talk, for the lectern: when each segment starts and ends (estimates marked), the pieces to have on the table in
// order, what must not be said because it has been replaced, and segment by segment what is shown, what is said, and the
// records to hand with number, look, dates and evidence in words.
Composed composeOutline(const Materials& materials, RecordIndex talk);

// "0:00 Opening" a line: the chapters of the recording.
std::string composeChapterTimes(const Materials& materials, RecordIndex talk);

}  // namespace saggar::compose
