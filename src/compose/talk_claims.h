#pragma once
#include <string>
#include <vector>

#include "compose/words.h"

// Which statements must no longer be made in a talk.
namespace saggar::compose {

struct Retired {
  RecordIndex claim = records::kNoRecord;  // whose words no longer hold
  RecordIndex now =
      records::kNoRecord;             // the claim that holds instead, perhaps the same one; none: withdrawn
  std::vector<std::size_t> segments;  // those it concerns, by their place in the talk
  std::string said;                   // where in this very talk it was said; empty: nowhere
};

// The claims that were replaced, withdrawn, or correct words of their own, and concern the talk: they are about a record
// that a segment is about, shows or links to in what is said (of a piece also its treatment); such a segment links to
// them or to what replaced them; or they say that they were stated in it. In the order of file and place.
std::vector<Retired> retiredIn(const Materials& materials, RecordIndex talk);

// The claims that say they are stated in this talk at the segment of that title, and still hold.
std::vector<RecordIndex> statedIn(const Materials& materials, RecordIndex talk,
                                  std::string_view segmentTitle);

}  // namespace saggar::compose
