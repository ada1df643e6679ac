#include "small_guide.h"

// A date code that clashes: what the eye could take it for is said beside what to do. All data is invented.
using namespace saggar::checks::testing;

namespace {

// A plate with a date code on a shape first offered in 1936.
std::string plate(const std::string& code, const std::string& alike) {
  return R"(- source: book
  title: The Book
  type: decoration-book
  date: 1930/1940
- maker: tarn
  name: Tarn
  cite: book
  works:
    - {works: low, name: Low works, letter: U, used: 1900/1950, cite: [{book: leaf 1}]}
  codes:
    - rule: date code
      on: specimen.date-code
      written: WORKS YY QUARTER
      parts: {WORKS: maker.works.letter, YY: year 19YY, QUARTER: quarter}
)" + alike +
         R"(      cite:
        - book: leaf 1
- shape: bryn
  name: Bryn
  maker: tarn
  introduced: 1936
  cite:
    - book: leaf 3
- treatment: br-1
  shape: bryn
  motif: unknown
  code: unknown
  introduced: 1936
  cite:
    - book: leaf 4
- form: plate
  name: plate
  cite: book
- specimen: seen
  treatment: br-1
  form: plate
  date-code: )" +
         code + "\n  seen: {on: 14 May 2019, how: in-hand}\n";
}

std::string hintOf(const Small& guide) {
  for (const auto& one : guide.report.findings)
    if (one.rule == saggar::diagnostics::ruleNamed("dates-clash")) return one.hint;
  return guide.text;
}

}  // namespace

TEST_CASE("the other reading that would resolve a contradiction, and all that stand at one place") {
  CHECK(hintOf(Small(plate("U344", "      alike: [4 9]\n"))) ==
        "one wrong fact is the likely cause: look at this one first; the eye can take `U344` for `U394`, of "
        "October "
        "to December 1939, and then the rest could all be true");
}

TEST_CASE("none where no sign is alike, or the other reading would not resolve it") {
  const std::string plain = "one wrong fact is the likely cause: look at this one first";
  CHECK(hintOf(Small(plate("U344", ""))) == plain);
  CHECK(hintOf(Small(plate("U341", "      alike: [1 2]\n"))) == plain);
  CHECK(hintOf(Small(plate("U344", "      alike: [3 1]\n"))) == plain);
}
