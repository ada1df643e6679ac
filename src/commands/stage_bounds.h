#pragma once
#include <string>

#include "commands/pipeline.h"

namespace saggar::commands {

// `saggar stage bounds`: of a record every event with its proven and its likely days, filled in or not, as intervals of
// days ("../1936-03-31"); nothing for a record of a kind without events.
void putBounds(std::string& out, const Guide& guide, linking::RecordIndex record);

}  // namespace saggar::commands
