#include "chronology/rings.h"

#include <algorithm>

// Bellman's and Ford's sweeps, to and fro, from a point that stands no day before any other; where the edges that
// shortened last close a ring, that ring is less than nothing (Cherkassky, Goldberg, "Negative-cycle detection
// algorithms", Mathematical Programming 85, 1999).
namespace saggar::chronology {

Rings::Rings(const Network& network, const Selection& selection, const Order& order, std::uint32_t group)
    : selection_(selection), points_(order.group(group).size()) {
  const std::uint32_t first = order.begins[group];
  for (std::uint32_t i = 0; i < points_; ++i)
    for (const Arc& arc : network.into(order.nodes[first + i])) {
      if (!selection.has(arc.edge) || arc.other == kOrigin || order.groupOf[arc.other] != group) continue;
      parts_.push_back({order.placeOf[arc.other] - first, i, arc.edge, network.days(arc)});
      negative_ |= network.days(arc) < 0;
    }
}

std::vector<std::vector<EdgeId>> Rings::find() {
  if (!negative_) return {};
  days_.assign(points_, 0);
  via_.assign(points_, UINT32_MAX);
  for (std::size_t sweeps = 0;; ++sweeps) {
    if (!sweep(sweeps % 2 == 1)) return {};
    if (sweeps >= 3 && (sweeps & (sweeps - 1)) != 0 && sweeps <= points_) continue;
    if (auto rings = closed(); !rings.empty()) return rings;
  }
}

bool Rings::sweep(bool backwards) {
  bool changed = false;
  const std::size_t count = parts_.size();
  for (std::size_t step = 0; step < count; ++step) {
    const auto i = static_cast<std::uint32_t>(backwards ? count - 1 - step : step);
    const Part& part = parts_[i];
    if (days_[part.from] + part.days >= days_[part.to] || !selection_.has(part.id)) continue;
    days_[part.to] = days_[part.from] + part.days;
    via_[part.to] = i;
    changed = true;
  }
  return changed;
}

std::vector<std::vector<EdgeId>> Rings::closed() const {
  std::vector<std::vector<EdgeId>> rings;
  std::vector<std::uint32_t> seen(points_, 0);
  for (std::uint32_t start = 0; start < points_; ++start) {
    std::uint32_t at = start;
    while (seen[at] == 0 && via_[at] != UINT32_MAX) {
      seen[at] = start + 1;
      at = parts_[via_[at]].from;
    }
    if (seen[at] != start + 1 || via_[at] == UINT32_MAX) continue;
    std::vector<EdgeId> ring;
    const std::uint32_t first = at;
    do {
      ring.push_back(parts_[via_[at]].id);
      at = parts_[via_[at]].from;
    } while (at != first);
    std::reverse(ring.begin(), ring.end());
    rings.push_back(std::move(ring));
  }
  return rings;
}

}  // namespace saggar::chronology
