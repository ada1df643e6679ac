#include "compose/claim_tests.h"

#include "compose/claims.h"
#include "guide_of.h"

// What a reader is told of a statement that tests itself. The data is that of kPottery, invented.
using namespace saggar;
using namespace saggar::compose;
using namespace saggar::compose::testing;

namespace {

std::string told(const std::string& test, const std::string& more = {}) {
  const Guide guide(Texts{
      {"records.yaml", kPottery + more + "- claim: c\n  says: Something.\n  test:\n    - " + test + "\n"}});
  return plain(testInWords(guide.unlinked(), guide.at("claim:c")));
}

std::string evidenceOf(const std::string& claim) {
  const Guide guide(Texts{{"records.yaml", kPottery + claim}});
  return plain(claimEvidence(guide.unlinked(), guide.record("claim:c")));
}

}  // namespace

TEST_CASE("what the records bear out") {
  CHECK(told("{every: treatment, where: {motif: fern}, has: {shape: known}}") ==
        "the records of this guide bear this out: 2 of 2 decorations");
  CHECK(told("{no: treatment, where: {shape: bryn}, has: {code: none}}") ==
        "the records of this guide bear this out: none of 2 decorations");
  CHECK(told("{no: treatment, where: {status: doubtful}}") ==
        "the records of this guide bear this out: no decoration speaks against it");
  CHECK(told("{some: treatment, where: {motif: fern}}") ==
        "the records of this guide bear this out: BR-01-1 Fern and Fern on Cairn");
  CHECK(told("{count: treatment, where: {motif: fern}, makes: 1 to 2}") ==
        "the records of this guide bear this out: 2 decorations, BR-01-1 Fern and Fern on Cairn");
  CHECK(told("before: [shape:cairn, shape:bryn.withdrawn]") == "open: the order is not proven");
  CHECK(told("before: [motif:fern, treatment:br-01.withdrawn]") ==
        "the records of this guide bear this out: the order is proven");
  CHECK(told("same: [treatment:br-01, treatment:br-02, shape]") ==
        "the records of this guide bear this out: the shape is the same");
  CHECK(told("differ: [treatment:br-01, treatment:br-02, look.edge-line]") ==
        "the records of this guide bear this out: the edge line differs");
}

TEST_CASE("what breaks it") {
  CHECK(told("{every: treatment, where: {shape: bryn}, has: {look.edge-line: gold}}") ==
        "broken by BR-02-0 without a motif (edge line: none)");
  CHECK(told("{no: treatment, has: {motif: fern}}") == "broken by BR-01-1 Fern (motif: Fern) and 1 more");
  CHECK(told("{some: treatment, where: {shape: bryn}, has: {look.edge-line: silver}}") == "");
  CHECK(told("{some: treatment, where: {shape: bryn}, has: {code: none}}") ==
        "broken: no decoration on record is so");
  CHECK(told("{count: treatment, where: {motif: fern}, makes: 3}") == "broken: 2 decorations are on record");
  CHECK(told("before: [treatment:br-01.withdrawn, motif:fern]") ==
        "broken: it was not the earlier, as the records prove");
  CHECK(told("same: [treatment:br-01, treatment:br-02, look.edge-line]") ==
        "broken: they differ (BR-01-1 Fern: gold; BR-02-0 without a motif: none)");
  CHECK(told("differ: [treatment:br-01, treatment:br-02, shape]") ==
        "broken: they are alike (BR-01-1 Fern: Bryn; BR-02-0 without a motif: Bryn)");
}

TEST_CASE("what leaves it open") {
  CHECK(told("{every: shape, has: {look.embossing: in panels}}") ==
        "open: the embossing of Cairn is not recorded, nor that of one other");
  CHECK(told("{no: shape, where: {modeller: mo}, has: {prefix: CA}}") ==
        "open: the modeller of Cairn is not known, nor that of one other");
  CHECK(told("{every: treatment, has: {forms: plate}}") ==
        "open: the forms of BR-02-0 without a motif are not recorded, nor those of one other");
  CHECK(
      told("{no: treatment, where: {shape: bryn}, has: {introduced: 1920/1921}}").starts_with("the records"));
  CHECK(told("{no: shape, where: {maker: amblecote}, has: {introduced: 1930}}") ==
        "open: when Cairn was introduced (about 1930) does not settle it");
}

TEST_CASE("with its sources, and without") {
  const std::string test = "  test: {no: treatment, where: {status: doubtful}}\n";
  const std::string broken = "  test: {no: treatment, has: {motif: fern}}\n";
  const std::string cite = "  cite:\n    - pattern-book: p. 9\n";
  CHECK(evidenceOf("- claim: c\n  says: So.\n" + test) ==
        "the author's judgement; the records of this guide bear this out: no decoration speaks against it");
  CHECK(evidenceOf("- claim: c\n  says: So.\n" + broken) ==
        "the author's judgement; broken by BR-01-1 Fern (motif: Fern) and 1 more");
  CHECK(evidenceOf("- claim: c\n  says: So.\n" + cite + broken) ==
        "The Pattern Book of Amblecote & Tarn, p. 9; documented; broken by BR-01-1 Fern (motif: Fern) and 1 "
        "more");
  CHECK(evidenceOf("- claim: c\n  says: So.\n" + cite) ==
        "The Pattern Book of Amblecote & Tarn, p. 9; documented");
  CHECK(evidenceOf("- claim: c\n  says: So.\n  status: withdrawn\n" + test) ==
        "the author's judgement, from the entries of this guide");
}
