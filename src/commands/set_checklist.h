#pragma once
#include <string>
#include <vector>

#include "commands/print_faults.h"

namespace saggar::commands {

struct SetChecklist {
  std::string bytes;  // the PDF; empty if `error` is not
  std::vector<linking::RecordIndex> madeFrom;
  std::vector<std::string> notices;  // sentences for the author
  std::string error;
  std::string hint;
};

// Composes one checklist and sets it with the layout it asks for, row by row. A layout that is not there or cannot be read
// (a finding of `check`) is replaced by the built-in one. Fonts come from the guide's fonts/, then from the machine.
SetChecklist setChecklist(const Environment& environment, const Guide& guide, linking::RecordIndex checklist,
                          PrintFaults& faults);

}  // namespace saggar::commands
