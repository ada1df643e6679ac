// Shapes of one maker, and treatments of one shape and motif, that no feature recorded tells apart.
#include "small_guide.h"

using namespace saggar::checks::testing;
using saggar::operator""_rule;

namespace {

const std::string kWorld =
    "- {maker: w, trade: pottery, cite: books}\n- {maker: v, trade: pottery, cite: books}\n"
    "- {feature: outline, effort: 1, values: {round: r, square: s}}\n"
    "- {feature: rim, effort: 1, values: {yes: y, no: n}}\n"
    "- {feature: finial, effort: 3, values: {slot: s, loop: l}}\n"
    "- {feature: edge, values: {gold: g, none: no}}\n- {feature: glaze, values: {ivory: i, white: w}}\n"
    "- {maker: q, trade: retailer, cite: books}\n"
    "- {motif: m, cite: books}\n- {motif: n, cite: books}\n" +
    kBooks;

std::string shape(const std::string& id, const std::string& look, const std::string& maker = "w") {
  return "- {shape: " + id + ", maker: " + maker + ", look: {" + look + "}, cite: books}\n";
}

std::string treatment(const std::string& id, const std::string& fields) {
  return "- {treatment: " + id + ", cite: books, " + fields + "}\n";
}

// What is said of two records, on the lines 1 and 2.
bool areTwins(const std::string& one, const std::string& other) {
  const std::string found = Small(one + other + kWorld).found;
  INFO(found);
  REQUIRE((found.empty() || found.starts_with("2:")));
  REQUIRE((found.empty() || found.ends_with(" twins")));
  return !found.empty();
}

bool shapesAre(const std::string& one, const std::string& other) {
  return areTwins(shape("a", one), shape("b", other));
}

const std::string kShapes = "- {shape: s, cite: books}\n- {shape: t, cite: books}\n";

bool treatmentsAre(const std::string& one, const std::string& other) {
  return areTwins(treatment("a", one), treatment("b", other) + kShapes);
}

}  // namespace

TEST_CASE("two shapes of one maker that look the same") {
  const std::string row = "outline: round, rim: yes, finial: slot";
  caught(shape("a", row) + shape("b", row) + kWorld, "2:11", "twins");
  const Small bad(shape("a", row) + shape("b", row) + kWorld);
  CHECK(bad.one().message ==
        "no feature recorded tells shape:a and shape:b apart: they agree in `outline`, "
        "`rim` and `finial`");
  CHECK(bad.one().hint == "record a feature that a collector can tell them by");
  CHECK(bad.one().records == std::vector<std::string>{"shape:a", "shape:b"});
  CHECK(bad.report.notes == 1);
  silent(shape("a", row) + shape("b", row, "v") + kWorld);
  silent(shape("a", row) + shape("b", "outline: round, rim: yes, finial: loop") + kWorld);
}

TEST_CASE("twins that words tell apart stay twins, and the hint repeats the words") {
  const Small said(
      shape("a", "outline: round") +
      "- {shape: b, maker: w, look: {outline: round}, cite: books, resembles: {tell: The foot is "
      "rough., shape: a}}\n" +
      kWorld);
  CHECK(said.one().message == "no feature recorded tells shape:a and shape:b apart: they agree in `outline`");
  CHECK(said.one().hint ==
        "the `tell` of shape:b is words alone (`The foot is rough.`): record it as a feature of each, and "
        "lists "
        "and checklists can go by it");
  // Words that tell it from something else are none that tell these apart.
  CHECK(Small(shape("a", "outline: round") +
              "- {shape: b, maker: w, look: {outline: round}, cite: books, resembles: {shape: c, tell: "
              "Rough.}}\n" +
              shape("c", "outline: square") + kWorld)
            .one()
            .hint == "record a feature that a collector can tell them by");
}

TEST_CASE("what is not recorded, or not certain, of one of them tells nothing") {
  CHECK(shapesAre("outline: round, rim: yes", "outline: round, finial: slot"));
  CHECK(shapesAre("outline: round, rim: yes", "outline: round, rim: unknown"));
  CHECK(shapesAre("outline: round, rim: yes", "outline: round, rim: {is: no, doubted: worn}"));
  CHECK(shapesAre("outline: round, finial: [slot, unknown]", "outline: round, finial: loop"));
  CHECK_FALSE(shapesAre("outline: round, rim: {is: yes, doubted: worn}", "outline: square, rim: yes"));
  CHECK(Small(shape("a", "outline: round, finial: slot") + shape("b", "outline: round, rim: yes") + kWorld)
            .one()
            .hint ==
        "record `rim` and `finial` of all of them, or another feature that a collector can tell "
        "them by");
}

TEST_CASE("where nothing is recorded of both there is nothing to compare") {
  CHECK_FALSE(shapesAre("outline: round", "rim: yes"));
  CHECK_FALSE(shapesAre("outline: unknown", "outline: unknown"));
  silent("- {shape: a, maker: w, cite: books}\n- {shape: b, maker: w, cite: books}\n" + kWorld);
  silent("- {shape: a, look: {rim: yes}, cite: books}\n- {shape: b, look: {rim: yes}, cite: books}\n" +
         kWorld);
}

TEST_CASE("what varies tells two apart only where they never look the same") {
  CHECK(shapesAre("finial: [slot, loop]", "finial: slot"));
  CHECK(shapesAre("outline: [round, {is: square, used: 1930/..}]", "outline: square"));
  CHECK_FALSE(shapesAre("outline: [{is: round, used: ../1930}]", "outline: square"));
  CHECK_FALSE(shapesAre("outline: round, finial: [slot, loop]", "outline: square, finial: slot"));
  // What another source says, and is not set aside, may be so.
  CHECK(shapesAre("outline: {is: round, but: [{is: square, cite: books}]}", "outline: square"));
  CHECK_FALSE(shapesAre("outline: {is: round, but: [{is: square, cite: books, set-aside: a slip}]}",
                        "outline: square"));
}

TEST_CASE("two treatments of one shape and motif") {
  CHECK(treatmentsAre("shape: s, motif: m, look: {edge: gold}",
                      "shape: s, motif: m, look: {edge: gold, glaze: ivory}"));
  CHECK(treatmentsAre("shape: s, motif: none, look: {edge: gold}",
                      "shape: s, motif: none, look: {edge: gold, glaze: ivory}"));
  CHECK(treatmentsAre("shape: [s, t], motif: m, look: {edge: gold}",
                      "shape: t, motif: m, look: {edge: gold, glaze: ivory}"));
  CHECK_FALSE(treatmentsAre("shape: s, motif: m, look: {edge: gold}",
                            "shape: s, motif: m, look: {edge: none, glaze: ivory}"));
  CHECK_FALSE(treatmentsAre("shape: s, motif: m, look: {edge: gold}",
                            "shape: t, motif: m, look: {edge: gold, glaze: ivory}"));
  CHECK_FALSE(treatmentsAre("shape: s, motif: m, look: {edge: gold}",
                            "shape: s, motif: n, look: {edge: gold, glaze: ivory}"));
  CHECK_FALSE(treatmentsAre("shape: s, motif: unknown, look: {edge: gold}",
                            "shape: s, motif: unknown, look: {edge: gold, glaze: ivory}"));
  // For another customer it is another variant, and still nothing to be seen on a piece.
  CHECK(treatmentsAre("shape: s, motif: m, look: {edge: gold}",
                      "shape: s, motif: m, look: {edge: gold}, for: q"));
}

TEST_CASE("one variant recorded twice, or renumbered, is no twin of itself") {
  const std::string same = "shape: s, motif: m, look: {edge: gold}";
  CHECK(Small(treatment("a", same) + treatment("b", same) + kShapes + kWorld).found == "2:15 variant-twice");
  CHECK_FALSE(treatmentsAre(same, same + ", continues: a"));
  CHECK_FALSE(treatmentsAre(same + ", continues: b", same));
  CHECK_FALSE(treatmentsAre(same + ", continues: b", same + ", continues: a"));
  CHECK_FALSE(treatmentsAre(same, "shape: s, motif: m, look: {edge: gold, glaze: ivory}, continues: a"));
}

TEST_CASE("a group is one finding, at its last record") {
  const std::string row = "outline: round, rim: yes";
  const Small three(shape("c", row) + shape("a", row) + shape("b", row) + kWorld);
  CHECK(three.found == "3:11 twins");
  CHECK(three.messages ==
        "no feature recorded tells shape:c, shape:a and shape:b apart: they agree in `outline` and `rim`\n");
  CHECK(three.one().related.size() == 2);
  const Small hub(shape("a", "outline: round, rim: yes") + shape("b", "outline: round, rim: no") +
                  shape("c", "outline: round") + kWorld);
  CHECK(hub.found == "3:11 twins");
  CHECK(hub.messages ==
        "no feature recorded tells shape:c from shape:a and shape:b: they agree in `outline`\n");
  const Small chain(shape("a", "outline: round, rim: yes") + shape("b", "outline: round, finial: slot") +
                    shape("c", "outline: [round, square], rim: no") + shape("d", "outline: square, rim: no") +
                    kWorld);
  CHECK(chain.found == "4:11 twins");
  CHECK(
      chain.messages ==
      "each of shape:a, shape:b, shape:c and shape:d is so recorded that no feature tells it from another of "
      "them: they agree in `outline`\n");
  // Two groups of one maker, and those of another.
  const Small two(shape("a", "outline: round") + shape("b", "outline: square") +
                  shape("c", "outline: round") + shape("d", "outline: square") +
                  shape("e", "outline: round", "v") + kWorld);
  CHECK(two.found == "3:11 twins\n4:11 twins");
}

TEST_CASE("a waiver names the whole group") {
  const std::string row = "outline: round, rim: yes";
  const std::string guide =
      "guide: G\nwaivers: [{rule: twins, records: [shape:b, shape:a], because: told by the relief}]\n";
  const Small both(
      FilesOfGuide{{"guide.yaml", guide}, {"records.yaml", shape("a", row) + shape("b", row) + kWorld}});
  CHECK(both.report.notes == 0);
  CHECK(both.report.waived == 1);
  const Small third(FilesOfGuide{
      {"guide.yaml", guide}, {"records.yaml", shape("a", row) + shape("b", row) + shape("c", row) + kWorld}});
  CHECK(third.report.notes == 1);
}

TEST_CASE("ten thousand shapes of one maker, all different but in what is not recorded") {
  std::string records;
  constexpr int kShapesOfOne = 10'000;
  for (int i = 0; i < kShapesOfOne; ++i) {
    std::string look = "rim: yes";
    for (int bit = 0; bit < 14; ++bit) {
      const bool on = (i >> bit & 1) != 0;
      look += ", f" + std::to_string(bit) + (on ? ": yes" : ": no");
    }
    records += shape("s" + std::to_string(i), look);
  }
  for (int bit = 0; bit < 14; ++bit)
    records += "- {feature: f" + std::to_string(bit) + ", values: {yes: y, no: n}}\n";
  CHECK(Small(records + kWorld, {"twins"_rule}).found.empty());
  // One that has nothing but the rim could be any of them.
  const Small hub(records + shape("plain", "rim: yes") + kWorld, {"twins"_rule});
  CHECK(hub.one().message.starts_with("no feature recorded tells shape:plain from shape:s0, shape:s1, "));
  CHECK(hub.one().message.ends_with(" and 9995 others: they agree in `rim`"));
}
