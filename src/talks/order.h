#pragma once
#include <optional>
#include <vector>

#include "talks/timing.h"

// In which order a talk's segments may stand, and what can go when time is short.
namespace saggar::talks {

// A segment that names another in `after`, and does not come after it.
struct OrderFault {
  std::size_t segment = 0;
  const records::Value* after = nullptr;  // the title as typed
  std::optional<std::size_t> stands;      // where the named segment stands; none: no segment has that title
};

// In the order of the segments. Titles compare whole, letter case and composition aside; of several segments with one
// title, one that comes before is enough.
std::vector<OrderFault> orderFaults(const TalkTimes& times);

// The segments that a segment names in `after`, by their index, in the order typed.
std::vector<std::size_t> buildsOn(const TalkTimes& times, std::size_t segment);

enum class Keep { must, should, may };
Keep keepOf(const SegmentTime& segment);

// The segments that are not `must`, what goes first when time is short first: `may` before `should`, within one the later
// before the earlier.
std::vector<std::size_t> whatGoesFirst(const TalkTimes& times);

}  // namespace saggar::talks
