// Two records of one decoration: same shape, motif, customer and every recorded feature, at least one recorded.
#include "small_guide.h"

using namespace saggar::checks::testing;
using saggar::operator""_rule;

namespace {

const std::string kWorld =
    "- {shape: s, introduced: 1900, cite: books}\n- {shape: t, introduced: 1900, cite: books}\n"
    "- {motif: m, introduced: 1900, cite: books}\n- {motif: n, introduced: 1900, cite: books}\n"
    "- {maker: q, trade: retailer, cite: books}\n- {feature: edge, values: {gold: g, none: no}}\n"
    "- {feature: glaze, values: {ivory: i, white: w}}\n" +
    kBooks;

std::string pair(const std::string& one, const std::string& other) {
  return "- {treatment: a, cite: books, " + one + "}\n- {treatment: b, cite: books, " + other + "}\n" +
         kWorld;
}

bool twice(const std::string& one, const std::string& other) {
  const std::string found = Small(pair(one, other), {"variant-twice"_rule}).found;
  INFO(found);
  REQUIRE((found.empty() || found == "2:15 variant-twice"));
  return !found.empty();
}

const std::string kSame = "shape: s, motif: m, look: {edge: gold}";

}  // namespace

TEST_CASE("the same variant, and what tells two apart") {
  silent(pair(kSame, "shape: s, motif: n, look: {edge: gold}"));
  caught(pair(kSame, kSame), "2:15", "variant-twice");
  const Small bad(pair(kSame, kSame));
  CHECK(bad.one().message ==
        "treatment:b is the same variant as treatment:a: shape, motif, customer and every recorded feature "
        "agree");
  CHECK(bad.one().records == std::vector<std::string>{"treatment:a", "treatment:b"});
  CHECK_FALSE(twice(kSame, "shape: t, motif: m, look: {edge: gold}"));
  CHECK_FALSE(twice(kSame, "shape: s, motif: m, look: {edge: none}"));
  CHECK_FALSE(twice(kSame, "shape: s, motif: m, look: {edge: gold}, for: q"));
  CHECK_FALSE(twice(kSame, "shape: s, motif: m, look: {edge: gold, glaze: ivory}"));
  CHECK_FALSE(twice(kSame, "shape: s, motif: none, look: {edge: gold}"));
}

TEST_CASE("written otherwise, and still the same") {
  CHECK(twice(
      kSame, "motif: {is: m, cite: books}, look: {edge: {is: gold, judged: by the colour}}, shape: shape:s"));
  CHECK(twice("shape: [s, t], motif: m, look: {edge: [gold, none]}",
              "shape: [t, s], motif: m, look: {edge: [none, gold]}"));
  CHECK(twice("shape: s, motif: none, look: {edge: gold}", "shape: s, motif: none, look: {edge: gold}"));
  CHECK(twice("shape: s, motif: m, look: {edge: gold, glaze: white}",
              "shape: s, motif: m, look: {glaze: white, edge: gold}"));
  CHECK(twice(kSame, kSame + ", for: none"));
  CHECK(twice(kSame + ", code: JM-1", kSame + ", introduced: 1932"));
  // What was looked for and is not known is not recorded.
  CHECK(twice(kSame, "shape: s, motif: m, look: {edge: gold, glaze: unknown}"));
}

TEST_CASE("where nothing is recorded nothing can be said") {
  CHECK_FALSE(twice("shape: s, motif: m", "shape: s, motif: m"));
  CHECK_FALSE(
      twice("shape: s, motif: m, look: {edge: unknown}", "shape: s, motif: m, look: {edge: unknown}"));
  CHECK_FALSE(
      twice("shape: s, motif: unknown, look: {edge: gold}", "shape: s, motif: unknown, look: {edge: gold}"));
  CHECK_FALSE(twice("motif: m, look: {edge: gold}", "motif: m, look: {edge: gold}"));
  CHECK(twice("shape: s, motif: m, look: {edge: none}", "shape: s, motif: m, look: {edge: none}"));
}

TEST_CASE("a treatment that was renumbered is the same, and says so") {
  CHECK_FALSE(twice(kSame, kSame + ", continues: a"));
  CHECK_FALSE(twice(kSame + ", continues: b", kSame));
  silent("- {treatment: c, cite: books, continues: b, " + kSame + "}\n" +
         pair(kSame, kSame + ", continues: a"));
  // A ring of records that continue one another ends as well.
  CHECK_FALSE(twice(kSame + ", continues: b", kSame + ", continues: a"));
}

TEST_CASE("three of them are two findings, each about the first") {
  const Small three("- {treatment: c, cite: books, " + kSame + "}\n" + pair(kSame, kSame));
  CHECK(three.found == "2:15 variant-twice\n3:15 variant-twice");
  CHECK(three.report.findings[1].records == std::vector<std::string>{"treatment:c", "treatment:b"});
}
