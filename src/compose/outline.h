#pragma once
#include <string>

#include "compose/materials.h"

namespace saggar::compose {

// One talk, for the desk and the recording: running times, the pieces to have on the table in order, each segment's
// records with number, look, dates and evidence in words, and what must not be said because it has been replaced.
Composed composeOutline(const Materials& materials, RecordIndex talk);

// "0:00 Opening" a line: the chapters of the recording.
std::string composeChapterTimes(const Materials& materials, RecordIndex talk);

}  // namespace saggar::compose
