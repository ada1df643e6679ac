#include "layout/built_in.h"

#include <span>
#include <string>
#include <utility>

namespace saggar::layout {

// Made from the files of layouts/ when the program is built (build-scripts/embed.cmake).
std::span<const std::pair<std::string_view, std::string_view>> builtInFiles();

std::optional<std::string_view> builtInLayout(std::string_view name) {
  std::string full(name);
  if (full.find('.') == std::string::npos) full += ".xml";
  for (const auto& [file, text] : builtInFiles())
    if (file == full) return text;
  return std::nullopt;
}

std::vector<std::string_view> builtInLayoutNames() {
  std::vector<std::string_view> names;
  for (const auto& [file, text] : builtInFiles())
    if (file.ends_with(".xml")) names.push_back(file.substr(0, file.size() - 4));
  return names;
}

}  // namespace saggar::layout
