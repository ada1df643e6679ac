#pragma once
#include <string>
#include <vector>

#include "commands/pipeline.h"
#include "publishing/tree.h"

namespace saggar::commands {

struct OutputResult {
  std::vector<std::string> notices;  // sentences for the author: fonts and signs that were missing
  std::string error;                 // why it could not be done; then nothing may be committed
  std::string hint;
};

// Composes and renders the parts into the open trees: chapter by chapter, checklist by checklist, each written and
// dropped. `own` may be null; then what only the author sees is not made.
OutputResult writeOutputs(const Environment& environment, const Guide& guide, const std::vector<std::string>& parts,
                          publishing::Publication& out, publishing::Publication* own);

}  // namespace saggar::commands
