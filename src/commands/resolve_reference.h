#pragma once
#include <optional>
#include <string>

#include "linking/collection.h"

namespace saggar::commands {

// The record that a command's REF names: "kind:id", or an id that only one kind has. nullopt with words otherwise.
std::optional<linking::RecordIndex> recordNamed(const linking::Collection& collection,
                                                const std::string& reference, std::string& error,
                                                std::string& hint);

}  // namespace saggar::commands
