#pragma once
#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "commands/print_faults.h"

namespace saggar::commands {

struct SetChecklist {
  std::vector<linking::RecordIndex> madeFrom;
  std::vector<std::string> notices;  // sentences for the author
  std::string error;
  std::string hint;
};

// Composes one checklist and sets it with the layout it asks for, row by row. A layout that is not there or cannot be read
// (a finding of `check`) is replaced by the built-in one. Fonts come from the guide's fonts/, then from the machine. `take`
// gets the PDF in pieces, which are worth nothing if there is an error.
SetChecklist setChecklist(const Environment& environment, const Guide& guide, linking::RecordIndex checklist,
                          PrintFaults& faults, const std::function<void(std::string_view)>& take);

// The sheet of what readers are asked for, with the layout of the guide's settings. Nothing is taken, and nothing made
// from, where nothing is missing.
SetChecklist setHelpSheet(const Environment& environment, const Guide& guide, PrintFaults& faults,
                          const std::function<void(std::string_view)>& take);

}  // namespace saggar::commands
