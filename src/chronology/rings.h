#pragma once
#include "chronology/order.h"

namespace saggar::chronology {

// Rings of edges among the points of one group whose days sum to less than nothing. They need no date: `a` before `b`
// before `a` is one.
class Rings {
 public:
  Rings(const Network& network, const Selection& selection, const Order& order, std::uint32_t group);

  // Some rings, no two with a point in common, each one edge after the other; none if there is none. To be asked again
  // when the selection has changed: edges may have been taken away.
  std::vector<std::vector<EdgeId>> find();

 private:
  struct Part {
    std::uint32_t from, to;  // places in the group
    EdgeId id;
    Days days;
  };
  bool sweep(bool backwards);
  std::vector<std::vector<EdgeId>> closed() const;

  const Selection& selection_;
  std::size_t points_;
  std::vector<Part> parts_;  // by `to`
  bool negative_ = false;    // some edge is
  std::vector<Days> days_;
  std::vector<std::uint32_t> via_;  // into parts_
};

}  // namespace saggar::chronology
