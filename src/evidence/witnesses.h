#pragma once
#include <cstdint>
#include <span>
#include <string>
#include <unordered_map>
#include <vector>

#include "linking/collection.h"

// Who is whose witness: what the sources draw on, to any depth, and who wrote them.
//
// The problem: two sources are one witness if one goes back to the other, or both to a third, however long the way, and
// the ways may run in rings. The choice: whoever goes back to something in common goes back to a last thing in common,
// one that draws on nothing further (or a ring that draws on nothing outside it). So each source keeps the last things
// it comes from, and nothing of what lies between; most have one or two. The cost: a source that comes from more than
// sixteen keeps the first sixteen, and where these settle nothing, the ways are walked.
namespace saggar::evidence {

using linking::Collection;
using linking::RecordIndex;

class Witnesses {
 public:
  explicit Witnesses(const Collection& collection);

  // Two things that can be cited (sources, specimens, photos) are independent if they differ, neither goes back to the
  // other nor both to a third, and nobody has a part in both (`by`). A ring is one witness. A photo goes back to the
  // pieces it shows; a piece is a witness of its own, but of two pieces that were only reported the one who reported
  // speaks.
  bool independent(RecordIndex one, RecordIndex other) const;

  // What both go back to, the nearest to `other` (either may be it itself): why two are not independent. kNoRecord if
  // there is nothing, and somebody has a part in both. Walks all that `one` draws on.
  RecordIndex commonTo(RecordIndex one, RecordIndex other) const;

  // The rings of `draws-on` (a source that draws on itself is one), each in the order of file and place.
  std::span<const std::vector<RecordIndex>> rings() const { return rings_; }

 private:
  static constexpr std::size_t kKept = 16;
  static constexpr std::uint32_t kNoNode = 0xFFFFFFFF;

  struct Node {  // a source or photo; the next node begins where this one ends
    std::uint32_t edges = 0;
    std::uint32_t roots = 0;
    std::uint32_t people = 0;
    bool more = false;  // it comes from more things than are kept
  };
  class Search;

  void readPeople();
  void addPeople(const records::Value* by, std::vector<std::uint32_t>& people) const;
  std::span<const RecordIndex> rootsOf(const RecordIndex& thing) const;
  std::span<const std::uint32_t> edgesOf(std::uint32_t node) const;
  bool shareSomebody(RecordIndex one, RecordIndex other) const;
  bool meet(RecordIndex one, RecordIndex other) const;
  std::vector<bool> reachedFrom(std::uint32_t node) const;

  const Collection& collection_;
  std::vector<std::uint32_t> nodeOf_;
  std::vector<Node> nodes_;  // and one behind the last
  std::vector<RecordIndex> recordOf_;
  std::vector<std::uint32_t> edges_;
  std::vector<RecordIndex> roots_;
  std::vector<std::uint32_t> people_;
  std::unordered_map<std::string, std::uint32_t>
      names_;  // folded; the number of a person or maker, or one of its own
  std::vector<std::vector<RecordIndex>> rings_;
};

}  // namespace saggar::evidence
