#include <algorithm>
#include <span>
#include <utility>

#include "diagnostics/rules.h"

namespace saggar::diagnostics {

// Made by the build from why/*.md.
std::span<const std::pair<std::string_view, std::string_view>> explanationFiles();

std::string_view explanation(Rule rule) {
  for (const auto& [name, text] : explanationFiles())
    if (name.size() == rule.id().size() + 3 && name.starts_with(rule.id())) return text;
  return {};
}

}  // namespace saggar::diagnostics
