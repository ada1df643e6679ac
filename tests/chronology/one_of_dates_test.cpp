// Dates that are one of several and values with `but`, in random guides: which members documented facts strike out, and the days and disputes
// that are left, are those of SEMANTICS spelled out by brute force. All data is invented.
#include "compared.h"

using namespace saggar;
using namespace saggar::chronology;

namespace {

void compare(const Reasoned& program, const invented::Stated& stated, const spelled::Answer& expected) {
  std::map<std::string, std::size_t> places;
  for (std::size_t i = 0; i < stated.points.size(); ++i) places[stated.points[i]] = i;
  for (Node node = 1; node < program.chronology.events().count(); ++node) {
    const std::string event = program.chronology.events().text(*program.chronology.events().eventOf(node));
    const auto place = places.find(event);
    if (place == places.end()) continue;
    CAPTURE(event);
    REQUIRE(daysOf(program.chronology.bounds(node, BoundsOf::proven)) == expected.proven[place->second]);
    REQUIRE(daysOf(program.chronology.bounds(node, BoundsOf::likely)) == expected.likely[place->second]);
    REQUIRE(daysOf(program.chronology.bounds(node, BoundsOf::tests)) == expected.tests[place->second]);
  }
  std::set<long> disputed;
  for (const FactId fact : program.chronology.disputed()) disputed.insert(placeOf(program, fact));
  REQUIRE(disputed == expected.disputed);
}

}  // namespace

TEST_CASE("random guides: one of several dates, and values that another source denies") {
  invented::Guide guide(1926);
  std::size_t compared = 0, struckOut = 0, left = 0, again = 0, spoken = 0;
  for (int round = 0; round < 400; ++round) {
    guide.edit();
    invented::Guide trial = guide;
    trial.maybeSeveral();
    if (round % 4 == 0) trial.maybeDisputed();
    const std::string text = trial.yaml();
    INFO(text);
    const invented::Stated stated = invented::statedBy(trial);
    const auto expected = spelled::spelledOut(stated.told);
    if (!expected) continue;
    if (!expected->clashing.empty() && round % 2 == 0) guide.settle(*expected);
    const Reasoned program(text);
    std::size_t found = 0;
    for (Node node = 1; node < program.chronology.events().count(); ++node) {
      const Choice* choice = program.chronology.choiceOf(node);
      if (choice == nullptr || choice->ofCode) continue;
      const auto& members = expected->oneOf.at(placeOf(program, choice->fact));
      CAPTURE(program.reasons.says(choice->fact));
      REQUIRE(choice->members.size() == members.size());
      std::size_t standing = 0;
      for (std::size_t i = 0; i < members.size(); ++i) {
        CAPTURE(i);
        REQUIRE(choice->members[i].struckOut == members[i].struckOut);
        CHECK((!members[i].struckOut || !choice->members[i].against.empty()));
        struckOut += members[i].struckOut;
        standing += !members[i].struckOut;
      }
      REQUIRE(standing > 0);
      left += standing;
      ++found;
    }
    REQUIRE(found == expected->oneOf.size());
    compare(program, stated, *expected);
    ++compared;
    again += expected->rounds > 1;
    for (const auto& one : stated.told.statements) spoken += one.disputed && one.standing == 0;
  }
  CHECK(compared > 300);
  CHECK(struckOut > 200);
  CHECK(left > 1000);
  CHECK(spoken > 100);  // against what would prove
  CHECK(again > 10);    // one striking out led to another
}
