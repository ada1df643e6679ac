#pragma once
#include <optional>
#include <string>

#include "chronology/events.h"

namespace saggar::commands {

// The event that a command's EVENT names: `kind:id`, `kind:id.field`, of a span `kind:id.field.from` or `.until` (the
// beginning where neither is written). nullopt with words otherwise.
std::optional<chronology::Event> eventNamed(const linking::Collection& collection,
                                            const chronology::Events& events, const std::string& typed,
                                            std::string& error, std::string& hint);

}  // namespace saggar::commands
