// How many there were at least, against the literature and by counting pieces.
#include "study/estimates.h"

#include "small_study.h"

using namespace saggar::study;
using saggar::records::Kind;
using saggar::study::testing::Records;

// The butterflies that Corbet collected in Malaya, of R. A. Fisher, A. S. Corbet, C. B. Williams, "The relation between the
// number of species and the number of individuals in a random sample of an animal population", Journal of Animal Ecology 12
// (1943), 42-58: 620 species, 118 of them caught once and 74 twice, among 9,031 butterflies. From memory.
TEST_CASE("the butterflies of Malaya") {
  const Frequencies seen{.kinds = 620, .pieces = 9031, .once = 118, .twice = 74};
  CHECK(leastKinds(seen) == doctest::Approx(714.08).epsilon(0.00001));
  CHECK(coverage(seen) == doctest::Approx(0.98693).epsilon(0.00001));
}

TEST_CASE("by hand") {
  const std::vector<std::size_t> pieces{1, 1, 1, 2, 2, 5, 0};
  const Frequencies seen = frequenciesOf(pieces);
  CHECK(seen.kinds == 6);
  CHECK(seen.pieces == 12);
  CHECK(seen.once == 3);
  CHECK(seen.twice == 2);
  CHECK(leastKinds(seen) == doctest::Approx(6 + 9.0 / 4));
  CHECK(coverage(seen) == doctest::Approx(0.75));
  // None seen twice.
  CHECK(leastKinds({.kinds = 4, .pieces = 9, .once = 3, .twice = 0}) == doctest::Approx(4 + 3.0));
  CHECK(leastKinds({.kinds = 4, .pieces = 9, .once = 0, .twice = 0}) == doctest::Approx(4));
  CHECK(coverage({}) == 0);
}

namespace {

std::string piece(int number, const std::string& treatment, const std::string& rest = {}) {
  return "- {specimen: p" + std::to_string(number) + ", treatment: " + treatment +
         ", seen: {on: 2019, how: in-hand}" + rest + "}\n";
}

const std::string kWare =
    "- {source: books, title: Books, type: ledger, date: 1930/1940}\n"
    "- {shape: s}\n- {motif: m}\n"
    "- {treatment: a, shape: s, motif: m}\n- {treatment: b, shape: s, motif: m}\n"
    "- {treatment: c, shape: s, motif: m}\n- {treatment: d, shape: s, motif: m, cite: books}\n"
    "- {treatment: board, shape: s, motif: m, status: sample}\n";

}  // namespace

TEST_CASE("pieces of one owner count once, and those of which nobody is named each") {
  std::string records = kWare;
  int number = 0;
  for (int i = 0; i < 15; ++i) records += piece(++number, "a");
  for (int i = 0; i < 4; ++i) records += piece(++number, "b", ", holder: private collection");
  const auto of = [](const Records& guide) {
    return estimatesOf(guide.collection, *guide.weights, guide.all(Kind::shape));
  };
  CHECK(of(Records(records)).empty());  // nineteen
  // Two pieces of one owner are the twentieth; a sample and what was only reported are none.
  const std::string more = piece(30, "c", ", owner: Miss Hobblegarth") +
                           piece(31, "c", ", owner: miss  hobblegarth, holder: private") +
                           piece(32, "board") +
                           "- {specimen: told, treatment: c, seen: {on: 2019, how: reported}}\n";
  const auto found = of(Records(records + more));
  REQUIRE(found.size() == 1);
  CHECK(found[0].seen.kinds == 3);
  CHECK(found[0].seen.pieces == 20);
  CHECK(found[0].seen.once == 1);
  CHECK(found[0].seen.twice == 0);
  CHECK(found[0].least == doctest::Approx(3));
  CHECK(found[0].covered == doctest::Approx(0.95));
  CHECK(found[0].documentsOnly == 1);
}
