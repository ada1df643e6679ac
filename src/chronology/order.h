#pragma once
#include <vector>

#include "chronology/network.h"

namespace saggar::chronology {

// The points but the origin, grouped so that those of a group reach one another through edges of the selection that do
// not touch the origin; a group comes before every group that its edges lead to.
struct Order {
  std::vector<Node> nodes;             // group after group
  std::vector<std::uint32_t> begins;   // where each group begins in `nodes`, and one more: the end
  std::vector<std::uint32_t> groupOf;  // of each node; of the origin, none
  std::vector<std::uint32_t> placeOf;  // of each node, in `nodes`
  std::vector<Node> loops;             // that an edge leads back to, the origin among them
  std::size_t groups() const { return begins.size() - 1; }
  std::span<const Node> group(std::size_t i) const {
    return std::span(nodes).subspan(begins[i], begins[i + 1] - begins[i]);
  }
};

// Tarjan's strongly connected components ("Depth-first search and linear graph algorithms", SIAM J. Comput. 1, 1972),
// without recursion, of what is left when all that is on no ring and not between two is taken off.
Order orderOf(const Network& network, const Selection& selection);

}  // namespace saggar::chronology
