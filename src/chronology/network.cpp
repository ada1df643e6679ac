#include "chronology/network.h"

#include <algorithm>

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

namespace {

Arc& arcOf(std::span<Arc> arcs, EdgeId id) {
  return *std::lower_bound(arcs.begin(), arcs.end(), id,
                           [](const Arc& arc, EdgeId sought) { return arc.edge < sought; });
}

}  // namespace

void Network::setDays(EdgeId id, Days days) {
  const bool fits = days > INT32_MIN && days <= INT32_MAX;
  Edge& edge = edges_[id];
  edge.small = fits ? static_cast<std::int32_t>(days) : kBig;
  big_.erase(id);
  if (!fits) big_.emplace(id, days);
  for (const auto& [rows, node] : {std::pair(&in_, edge.to), std::pair(&out_, edge.from)})
    if (node != kOrigin) arcOf(rows->of(node), id).small = edge.small;
  if (!outOfOrigin_.empty() && edge.from == kOrigin) arcOf(outOfOrigin_, id).small = edge.small;
}

void Network::notAfter(Node node, dates::Day day, FactId fact) {
  if (day.isFinite()) addEdge(kOrigin, node, day.number(), fact);
}

void Network::notBefore(Node node, dates::Day day, FactId fact) {
  if (day.isFinite()) addEdge(node, kOrigin, -day.number(), fact);
}

// A key of `count` or more has no row.
template <class Key, class Make>
auto Network::rowsBy(std::uint32_t count, Key key, Make make) const {
  Rows<decltype(make(EdgeId{}))> rows;
  rows.offsets.assign(count + 1, 0);
  for (const Edge& edge : edges_)
    if (key(edge) < count) ++rows.offsets[key(edge) + 1];
  for (std::uint32_t i = 0; i < count; ++i) rows.offsets[i + 1] += rows.offsets[i];
  rows.entries.resize(rows.offsets[count]);
  std::vector<std::uint32_t> next(rows.offsets.begin(), rows.offsets.end() - 1);
  for (EdgeId id = 0; id < edges_.size(); ++id)
    if (key(edges_[id]) < count) rows.entries[next[key(edges_[id])]++] = make(id);
  return rows;
}

// Most edges are dates, so at the origin; nearly nothing asks for its row.
void Network::finish() {
  const auto unlessOrigin = [&](Node node) { return node == kOrigin ? nodes_ : node; };
  in_ = rowsBy(
      nodes_, [&](const Edge& edge) { return unlessOrigin(edge.to); },
      [&](EdgeId id) { return arc(id, edges_[id].from); });
  out_ = rowsBy(
      nodes_, [&](const Edge& edge) { return unlessOrigin(edge.from); },
      [&](EdgeId id) { return arc(id, edges_[id].to); });
}

std::span<const Arc> Network::outOfOrigin() const {
  if (outOfOrigin_.empty())
    for (EdgeId id = 0; id < edges_.size(); ++id)
      if (edges_[id].from == kOrigin) outOfOrigin_.push_back(arc(id, edges_[id].to));
  return outOfOrigin_;
}

std::span<const EdgeId> Network::edgesOf(FactId fact) const {
  if (ofFact_.offsets.empty())
    ofFact_ = rowsBy(
        static_cast<std::uint32_t>(weakness_.size()), [](const Edge& edge) { return edge.fact; },
        [](EdgeId id) { return id; });
  return ofFact_.of(fact);
}

}  // namespace saggar::chronology
