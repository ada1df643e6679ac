#pragma once
#include "compose/checklist.h"

namespace saggar::compose {

inline constexpr std::string_view kHelpSheet = "help-wanted";

// The sheet of what readers are asked for, as a checklist is set: what is missing, of which, and room to write in.
// `madeFrom` receives the records (as indices, sorted, each once). Calls nothing, and gives false, where nothing is
// missing.
bool composeHelpSheet(const Materials& materials, const ChecklistSink& sink,
                      std::vector<RecordIndex>& madeFrom);

}  // namespace saggar::compose
