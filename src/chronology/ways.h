#pragma once
#include <vector>

#include "chronology/order.h"

// The shortest ways between the origin and every point: the latest day of a point is the length of the shortest way
// from the origin to it, its earliest day that of the shortest way back, negated. Each way is a chain of reasons.
//
// The problem: a queue that relaxes edges one by one takes quadratic time where the latest dates fall as the numbers of
// a series rise. The choice: points that reach one another are one group, groups are gone through in the order of the
// edges between them, so that each edge is looked at once; within a group of several points the edges are swept to and
// fro until nothing changes (Yen, "An algorithm for finding shortest routes from all source nodes to a given
// destination in general networks", Quart. Appl. Math. 27, 1970). The cost: a group whose shortest ways turn round often takes
// as many sweeps as they turn.
namespace saggar::chronology {

inline constexpr Days kFar = static_cast<Days>(1) << 121;  // no way

enum class Direction : std::uint8_t { fromOrigin, toOrigin };

struct Ways {
  Direction direction = Direction::fromOrigin;
  DayList days;             // of the points that there is a way to
  std::vector<EdgeId> via;  // the edge next to the point on its way; kNoEdge for no way

  bool reaches(Node node) const { return node == kOrigin || days.has(node); }
  Days of(Node node) const { return node == kOrigin ? 0 : days.has(node) ? days.of(node) : kFar; }
};

// No group may hold a ring of less than nothing (Rings).
Ways waysOf(const Network& network, const Selection& selection, const Order& order, Direction direction);

// The edges of the way, from its beginning to its end. It touches the origin at one end alone.
std::vector<EdgeId> edgesOf(const Network& network, const Ways& ways, Node node);

// A way between two points through edges that do not touch the origin, of at most so many days; none if there is none,
// or if it leads further afield than a few hundred edges.
std::vector<EdgeId> shortWay(const Network& network, const Selection& selection, Node from, Node to,
                             Days most);

// From a point to all others through edges that do not touch the origin; `of(start)` is 0.
Ways waysFrom(const Network& network, const Selection& selection, const Order& order, Node start);

}  // namespace saggar::chronology
