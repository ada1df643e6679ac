#pragma once
#include <cstdint>
#include <span>
#include <unordered_map>
#include <vector>

#include "base/prefetch.h"
#include "dates/day.h"

// A Simple Temporal Problem over days (Dechter, Meiri, Pearl, "Temporal constraint networks", Artificial Intelligence
// 49, 1991): points in time, and edges that say by how many days at most one may come after another. A fact is one or
// more edges that stand or fall together; whoever fills the network in knows what a fact is. Pure: no record is seen
// here.
namespace saggar::chronology {

using Days = dates::Int128;
using Node = std::uint32_t;
using FactId = std::uint32_t;
using EdgeId = std::uint32_t;

inline constexpr Node kOrigin = 0;             // the day 0, 1 January 1970: a date is an edge from or to it
inline constexpr FactId kNoFact = 0xFFFFFFFF;  // of an edge that nobody states and nobody can doubt
inline constexpr EdgeId kNoEdge = 0xFFFFFFFF;

// Days by number. Nearly all fit in 32 bits; those that do not (years of many digits) are kept beside them.
class DayList {
 public:
  DayList() = default;
  explicit DayList(std::size_t count) : small_(count, kNone) {}
  std::size_t size() const { return small_.size(); }
  bool has(std::uint32_t i) const { return small_[i] != kNone; }
  // Of one that there is.
  Days of(std::uint32_t i) const { return small_[i] != kBig ? small_[i] : big_.at(i); }
  void set(std::uint32_t i, Days days) {
    if (small_[i] == kBig) big_.erase(i);
    const bool fits = days > kNone && days < kBig;
    small_[i] = fits ? static_cast<std::int32_t>(days) : kBig;
    if (!fits) big_.insert_or_assign(i, days);
  }

 private:
  static constexpr std::int32_t kNone = INT32_MIN;
  static constexpr std::int32_t kBig = INT32_MAX;
  std::vector<std::int32_t> small_;
  std::unordered_map<std::uint32_t, Days> big_;
};

// The day of `to` is at most `days` after the day of `from` (negative: at least so many before it).
struct Edge {
  Node from = kOrigin;
  Node to = kOrigin;
  FactId fact = kNoFact;
  std::int32_t small = 0;  // the days, or kBig: then the network keeps them beside
};

// An edge as the point at one of its ends sees it: all that is asked on the way from point to point stands together,
// since each look elsewhere in a large network waits for memory.
struct Arc {
  static constexpr std::uint32_t kUnstated = 15;  // the weakness of an edge that nobody states

  EdgeId edge = kNoEdge;
  std::int32_t small = 0;     // as of the edge
  Node other : 28 = kOrigin;  // the point at its other end
  std::uint32_t weakness : 4 = kUnstated;
};
static_assert(sizeof(Arc) == 12);  // points of 28 bits: what has as many events takes over 50 GB to read

// Which edges count. The network itself never changes once it is finished.
class Selection {
 public:
  Selection() = default;
  Selection(std::size_t edges, bool in) : in_(edges, in) {}
  bool has(EdgeId edge) const { return in_[edge]; }
  void set(EdgeId edge, bool in) { in_[edge] = in; }
  std::size_t size() const { return in_.size(); }

 private:
  std::vector<bool> in_;
};

class Network {
 public:
  Node addNode() { return nodes_++; }
  Node addNodes(std::uint32_t count) { return (nodes_ += count) - count; }
  // `weakness`: 0 for the best known, below Arc::kUnstated; breaks ties between chains, and the weaker fact gives way.
  FactId addFact(std::uint8_t weakness);
  // Before the network is finished.
  void setWeakness(FactId fact, std::uint8_t weakness) { weakness_[fact] = weakness; }
  // Edges between a point and itself are kept: they can clash.
  EdgeId addEdge(Node from, Node to, Days days, FactId fact);
  // The day of the point is not after (not before) a day; nothing is added for a day that is not finite.
  void notAfter(Node node, dates::Day day, FactId fact);
  void notBefore(Node node, dates::Day day, FactId fact);
  // `later` is at least so many days after `earlier`; at most.
  void atLeast(Node earlier, Node later, Days days, FactId fact) { addEdge(later, earlier, -days, fact); }
  void atMost(Node earlier, Node later, Days days, FactId fact) { addEdge(earlier, later, days, fact); }

  // Before anything below is asked.
  void finish();
  // What finish() made of edges by their points and facts; to be finished again before it is asked for.
  void dropIndex() {
    in_ = out_ = {};
    outOfOrigin_ = {};
    ofFact_ = {};
  }
  void reserve(std::size_t facts, std::size_t edges) {
    weakness_.reserve(facts);
    edges_.reserve(edges);
  }
  // Of an edge that there is already, once the network is finished.
  void setDays(EdgeId id, Days days);

  std::uint32_t nodes() const { return nodes_; }
  std::size_t facts() const { return weakness_.size(); }
  std::size_t edges() const { return edges_.size(); }
  const Edge& edge(EdgeId id) const { return edges_[id]; }
  Days days(EdgeId id) const {
    const std::int32_t small = edges_[id].small;
    return small != kBig ? small : big_.at(id);
  }
  std::uint8_t weakness(FactId fact) const { return weakness_[fact]; }
  Days days(const Arc& arc) const { return arc.small != kBig ? arc.small : big_.at(arc.edge); }
  // Of points but the origin; in the order of the edges.
  std::span<const Arc> into(Node node) const { return in_.of(node); }
  std::span<const Arc> outOf(Node node) const { return out_.of(node); }
  // Hints for whoever will go through the rows of many points: where a row stands, and, some points later, the row.
  [[gnu::always_inline]] void expectPlace(Node node, bool into) const {
    prefetch(&(into ? in_ : out_).offsets[node]);
  }
  [[gnu::always_inline]] void expectRow(Node node, bool into) const {
    const std::span<const Arc> row = (into ? in_ : out_).of(node);
    prefetch(row.data());
    prefetch(row.data() + kArcsALine);
  }
  // Only what looks for contradictions asks for these: each index is made when it first does, so by one thread.
  std::span<const Arc> outOfOrigin() const;
  std::span<const EdgeId> edgesOf(FactId fact) const;
  Selection all() const { return Selection(edges_.size(), true); }

 private:
  static constexpr std::int32_t kBig = INT32_MIN;
  static constexpr std::size_t kArcsALine = 64 / sizeof(Arc);  // of the processor's memory
  template <class Entry>
  struct Rows {  // the list of i is entries[offsets[i]] to entries[offsets[i + 1]]
    std::vector<std::uint32_t> offsets;
    std::vector<Entry> entries;
    std::span<const Entry> of(std::uint32_t i) const {
      return std::span(entries).subspan(offsets[i], offsets[i + 1] - offsets[i]);
    }
    std::span<Entry> of(std::uint32_t i) {
      return std::span(entries).subspan(offsets[i], offsets[i + 1] - offsets[i]);
    }
  };
  template <class Key, class Make>
  auto rowsBy(std::uint32_t count, Key key, Make make) const;
  Arc arc(EdgeId id, Node other) const {
    const Edge& edge = edges_[id];
    return {id, edge.small, other, edge.fact == kNoFact ? Arc::kUnstated : weakness_[edge.fact]};
  }

  std::uint32_t nodes_ = 1;
  std::vector<std::uint8_t> weakness_;
  std::vector<Edge> edges_;
  std::unordered_map<EdgeId, Days> big_;  // years of many digits
  Rows<Arc> in_, out_;
  mutable std::vector<Arc> outOfOrigin_;
  mutable Rows<EdgeId> ofFact_;
};

}  // namespace saggar::chronology
