#include "diagnostics/rules.h"

#include <algorithm>

namespace saggar::diagnostics {
namespace {

constexpr auto kIds = [] {
  std::array<std::string_view, kRules.size()> ids{};
  for (std::size_t i = 0; i < ids.size(); ++i) ids[i] = kRules[i].id;
  return ids;
}();
static_assert(std::is_sorted(kIds.begin(), kIds.end()));
static_assert(std::adjacent_find(kIds.begin(), kIds.end()) == kIds.end());

}  // namespace

std::string_view toString(Severity severity) {
  constexpr std::string_view kNames[] = {"off", "note", "warning", "error"};
  return kNames[static_cast<std::size_t>(severity)];
}

std::optional<Rule> ruleNamed(std::string_view id) {
  const auto found = std::lower_bound(kIds.begin(), kIds.end(), id);
  if (found == kIds.end() || *found != id) return std::nullopt;
  return Rule{static_cast<std::uint8_t>(found - kIds.begin())};
}

std::span<const std::string_view> ruleIds() {
  return kIds;
}

}  // namespace saggar::diagnostics
