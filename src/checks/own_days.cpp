#include "checks/own_days.h"

#include "base/text.h"

namespace saggar::checks {

std::string gapInWords(dates::Day from, dates::Day to) {
  if (!from.isFinite() || !to.isFinite()) return {};
  const auto days = static_cast<long long>(to.number() - from.number());
  if (days >= 365) return base::counted(static_cast<std::size_t>((days + 182) / 365), "year");
  if (days >= 60) return base::counted(static_cast<std::size_t>(days / 30), "month");
  return base::counted(static_cast<std::size_t>(days), "day");
}

}  // namespace saggar::checks
