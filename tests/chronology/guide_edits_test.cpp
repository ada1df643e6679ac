// A thousand random edits of an invented guide, one after the other as an author makes them: after each, the days of
// every event and the facts in dispute are those that SEMANTICS, "Facts, conflicts, proofs", gives when it is spelled
// out by brute force from what the records state (spelled_out.cpp, stated.cpp).
#include "compared.h"

using namespace saggar;
using namespace saggar::chronology;

namespace {

std::string inWords(const spelled::Days& days) {
  const auto day = [](const std::optional<long>& one) {
    return one ? dates::Day::fromNumber(*one).toString() : std::string("-");
  };
  return day(days.first) + " … " + day(days.last);
}

std::string daysIn(const Reasoned& program, const invented::Stated& stated,
                   const std::vector<spelled::Days>& expected, BoundsOf which) {
  std::map<std::string, spelled::Days> days;
  for (std::size_t i = 0; i < expected.size(); ++i) days[stated.points[i]] = expected[i];
  std::string differ;
  for (Node node = 1; node < program.chronology.events().count(); ++node) {
    const std::string event = program.chronology.events().text(*program.chronology.events().eventOf(node));
    const spelled::Days found = daysOf(program.chronology.bounds(node, which));
    if (found == days[event]) continue;
    differ += event + ": " + inWords(found) + ", expected " + inWords(days[event]) + "; because ";
    for (const auto end : {dates::End::Earliest, dates::End::Latest})
      differ += program.because(node, which, end) + " | ";
    differ += '\n';
  }
  return differ;
}

std::string disputedIn(const Reasoned& program, const invented::Stated& stated,
                       const std::set<long>& expected) {
  std::set<long> found;
  for (const FactId fact : program.chronology.disputed()) found.insert(placeOf(program, fact));
  if (found == expected) return {};
  std::string differ;
  for (const FactId fact : program.chronology.disputed())
    if (!expected.contains(placeOf(program, fact)))
      differ += "disputed: " + program.reasons.says(fact) + '\n';
  for (const auto& one : stated.told.statements)
    if (expected.contains(one.place) && !found.contains(one.place))
      differ += "not disputed: " + one.what + '\n';
  return differ;
}

}  // namespace

TEST_CASE("a thousand edits: days and disputes are those of the page spelled out") {
  invented::Guide guide(20261125);
  std::optional<spelled::Answer> expected;
  std::size_t clashing = 0, bounds = 0;
  for (int round = 0; round < 1000; ++round) {
    // An author settles what clashes, sooner or later.
    const std::string edit =
        expected && !expected->clashing.empty() && round % 3 == 0 ? guide.settle(*expected) : guide.edit();
    CAPTURE(round);
    CAPTURE(edit);
    const std::string text = guide.yaml();
    INFO(text);
    const invented::Stated stated = invented::statedBy(guide);
    expected = spelled::spelledOut(stated.told);
    const Reasoned program(text);
    INFO(disputedIn(program, stated, expected->disputed));
    REQUIRE(daysIn(program, stated, expected->proven, BoundsOf::proven) == "");
    REQUIRE(daysIn(program, stated, expected->likely, BoundsOf::likely) == "");
    REQUIRE(daysIn(program, stated, expected->tests, BoundsOf::tests) == "");
    REQUIRE(disputedIn(program, stated, expected->disputed) == "");
    clashing += !expected->clashing.empty();
    for (const spelled::Days& days : expected->proven) bounds += days.first || days.last;
  }
  // Neither always at peace nor always in dispute, and something to compare.
  CHECK(clashing > 300);
  CHECK(clashing < 900);
  CHECK(bounds > 20000);
}
