#pragma once
#include <optional>
#include <string_view>
#include <vector>

// The project's own layouts/ folder, carried inside the program.
namespace saggar::layout {

// The text of one file by its name in layouts/; a name without an ending means ".xml" ("checklist").
std::optional<std::string_view> builtInLayout(std::string_view name);

// The names without their ending of all layouts in XML, sorted.
std::vector<std::string_view> builtInLayoutNames();

}  // namespace saggar::layout
