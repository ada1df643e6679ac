#pragma once
#include <string>
#include <vector>

#include "commands/pipeline.h"
#include "publishing/tree.h"

namespace saggar::commands {

struct OutputResult {
  diagnostics::Findings findings;    // what only setting pages can find: font-missing, sign-missing
  std::vector<std::string> notices;  // sentences for the author
  std::string error;                 // why it could not be done; then nothing may be committed
  std::string hint;
};

// The parts that `make` must make when these are asked for, in a fixed order; none asked for: all. Corrections link into
// the guide, so a new guide beside corrections that are there (`stand`) has them made again.
std::vector<std::string> partsToMake(const std::vector<std::string>& asked, bool correctionsStand);

// Composes and renders the parts into the open trees: chapter by chapter, checklist by checklist, each written and
// dropped. `own` may be null; then what only the author sees is not made.
OutputResult writeOutputs(const Environment& environment, const Guide& guide,
                          const std::vector<std::string>& parts, publishing::Publication& out,
                          publishing::Publication* own);

}  // namespace saggar::commands
