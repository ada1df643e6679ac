#include "chronology/network.h"

namespace saggar::chronology {

FactId Network::addFact(std::uint8_t weakness) {
  weakness_.push_back(weakness);
  return static_cast<FactId>(weakness_.size() - 1);
}

EdgeId Network::addEdge(Node from, Node to, Days days, FactId fact) {
  const auto id = static_cast<EdgeId>(edges_.size());
  const bool fits = days > INT32_MIN && days <= INT32_MAX;
  edges_.push_back({from, to, fact, fits ? static_cast<std::int32_t>(days) : kBig});
  if (!fits) big_.emplace(id, days);
  return id;
}

void Network::setDays(EdgeId id, Days days) {
  const bool fits = days > INT32_MIN && days <= INT32_MAX;
  edges_[id].small = fits ? static_cast<std::int32_t>(days) : kBig;
  big_.erase(id);
  if (!fits) big_.emplace(id, days);
}

void Network::notAfter(Node node, dates::Day day, FactId fact) {
  if (day.isFinite()) addEdge(kOrigin, node, day.number(), fact);
}

void Network::notBefore(Node node, dates::Day day, FactId fact) {
  if (day.isFinite()) addEdge(node, kOrigin, -day.number(), fact);
}

template <class Key>
Network::Rows Network::rowsBy(std::uint32_t count, Key key) const {
  Rows rows;
  rows.offsets.assign(count + 1, 0);
  for (const Edge& edge : edges_)
    if (key(edge) < count) ++rows.offsets[key(edge) + 1];
  for (std::uint32_t i = 0; i < count; ++i) rows.offsets[i + 1] += rows.offsets[i];
  rows.entries.resize(rows.offsets[count]);
  std::vector<std::uint32_t> next(rows.offsets.begin(), rows.offsets.end() - 1);
  for (EdgeId id = 0; id < edges_.size(); ++id)
    if (key(edges_[id]) < count) rows.entries[next[key(edges_[id])]++] = id;
  return rows;
}

void Network::finish() {
  in_ = rowsBy(nodes_, [](const Edge& edge) { return edge.to; });
  out_ = rowsBy(nodes_, [](const Edge& edge) { return edge.from; });
}

std::span<const EdgeId> Network::edgesOf(FactId fact) const {
  if (ofFact_.offsets.empty())
    ofFact_ =
        rowsBy(static_cast<std::uint32_t>(weakness_.size()), [](const Edge& edge) { return edge.fact; });
  return ofFact_.of(fact);
}

}  // namespace saggar::chronology
