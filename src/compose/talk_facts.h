#pragma once
#include <vector>

#include "compose/words.h"

// What a speaker needs of a record, in one line, and which statements must no longer be made.
namespace saggar::compose {

// "JM-045-C/0: no edge line, ivory glaze; 1933 to 1950 (Decoration Books 2-6, vol. 3, June 1933)".
Inlines factLine(const Words& words, RecordIndex record);

struct Retired {
  RecordIndex claim = records::kNoRecord;
  RecordIndex by = records::kNoRecord;  // what replaces it; none: withdrawn
};

// The replaced and withdrawn claims about any of these records (or about what they are of: a treatment's shape and
// motif), in the order of file and place.
std::vector<Retired> retiredAbout(const Materials& materials, const std::vector<RecordIndex>& records);

// The records a talk is about, shows or links to in what is said.
std::vector<RecordIndex> recordsOfTalk(const Materials& materials, RecordIndex talk);

}  // namespace saggar::compose
