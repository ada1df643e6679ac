// The order of a talk's segments, and what goes first when time is short.
#include "small_talk.h"

namespace saggar::talks::testing {
namespace {

using Places = std::vector<std::size_t>;

TEST_CASE("segments that come before what they build on") {
  CHECK(orderFaults(Small(talk("    - {title: A}\n    - {title: B, after: A}\n")).times).empty());
  const Small wrong(talk("    - {title: B, after: [A, C]}\n    - {title: A}\n"));
  const std::vector<OrderFault> faults = orderFaults(wrong.times);
  REQUIRE(faults.size() == 2);
  CHECK(faults[0].segment == 0);
  CHECK(faults[0].after->text == "A");
  REQUIRE(faults[0].stands.has_value());
  CHECK(faults[0].stands.value_or(9) == 1);
  CHECK(faults[1].after->text == "C");
  CHECK_FALSE(faults[1].stands.has_value());
}

TEST_CASE("titles compare whole, case and composition aside") {
  CHECK(orderFaults(
            Small(talk("    - {title: \"Caf\\u00e9 ware\"}\n    - {title: B, after: \"cafe\\u0301 WARE\"}\n"))
                .times)
            .empty());
  CHECK(orderFaults(Small(talk("    - {title: A ware}\n    - {title: B, after: A}\n")).times).size() == 1);
}

TEST_CASE("of several segments with one title one that comes before is enough") {
  const Small one(talk("    - {title: A}\n    - {title: B, after: A}\n    - {title: A}\n"));
  CHECK(orderFaults(one.times).empty());
  CHECK(buildsOn(one.times, 1) == Places{0});
  const Small self(talk("    - {title: A, after: A}\n"));
  CHECK(orderFaults(self.times).size() == 1);
  CHECK(buildsOn(self.times, 0).empty());
}

TEST_CASE("what a segment builds on, in the order typed") {
  const Small one(talk("    - {title: A}\n    - {title: B}\n    - {title: C, after: [B, nobody, A]}\n"));
  CHECK(buildsOn(one.times, 2) == Places{1, 0});
  CHECK(buildsOn(one.times, 0).empty());
}

TEST_CASE("what goes first when time is short: may before should, the later before the earlier") {
  const Small one(
      talk("    - {title: A, keep: should}\n    - {title: B, keep: may}\n    - {title: C}\n"
           "    - {title: D, keep: should}\n    - {title: E, keep: may}\n    - {title: F, keep: must}\n"));
  CHECK(whatGoesFirst(one.times) == Places{4, 1, 3, 0});
  CHECK(keepOf(one.times.segments[2]) == Keep::must);
  CHECK(whatGoesFirst(Small(talk("    - {title: A}\n")).times).empty());
}

}  // namespace
}  // namespace saggar::talks::testing
