#pragma once
#include <string>
#include <vector>

#include "compose/words.h"
#include "study/estimates.h"

// What readers are asked for: every gap of what a guide tells, in groups short enough to be read. For the block, and for
// the sheet that is printed with the checklists.
namespace saggar::compose {

struct WantedLine {
  std::string what;  // "The last year of a shape"
  Inlines which;     // "Cairn and Bryn"
};

struct WantedPart {
  std::string title;  // "Looked for, and not known"
  std::vector<WantedLine> lines;
};

struct HelpWanted {
  std::vector<WantedPart> parts;  // none is empty
  std::vector<study::Estimate> estimates;
  std::vector<RecordIndex> questions;  // the open ones
  std::vector<RecordIndex> pieces;     // that bear a number nobody can read
  bool empty() const { return parts.empty() && estimates.empty() && questions.empty(); }
};

// Of the records given. `most`: as many names or runs of numbers in a line at most, the rest counted.
HelpWanted helpWanted(const Words& words, const std::vector<RecordIndex>& records, std::size_t most);

// "nine decorations seen on 25 pieces, four of them on one piece alone …"
std::string estimateInWords(const study::Estimate& estimate);
// What such a reckoning supposes.
std::string estimatesSuppose();

}  // namespace saggar::compose
