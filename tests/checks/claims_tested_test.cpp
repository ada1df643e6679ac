#include "../choosing/tollivane.h"
#include "small_guide.h"

// Claims that the records contradict, or do not settle yet. All data is invented.
using namespace saggar;
using namespace saggar::checks::testing;

namespace {

const std::string kRings = R"(- claim: ring-handles-and-slots
  says: Ring handles came only with slot finials.
  stated:
    - {edition: 1, at: p. 41}
    - {talk: twelve-shapes, at: Round plates}
    - {talk: twelve-shapes, at: "9:40"}
  test:
    - every: shape
      where: {look.handle: ring}
      has: {look.finial: slot}
- talk: twelve-shapes
  title: Twelve shapes
  budget: 10:00
  segments:
    - title: Round plates
      say: As [we know](claim:ring-handles-and-slots).
      time: 10:00
- feature: handle
  of: shape
  values: {ring: a round ring, looped: a loop}
- feature: finial
  of: shape
  values: {slot: a bar, knob: a knob}
)";

std::string shape(const std::string& id, const std::string& look,
                  const std::string& rest = "  cite: books\n") {
  return "- shape: " + id + "\n  name: Sorrendale\n  look: " + look + '\n' + rest;
}

Small guide(const std::string& claim, const std::string& records) {
  return Small(FilesOfGuide{{"records.yaml", claim + records + kBooks},
                            {"prose/page.md", "Only [these](claim:ring-handles-and-slots).\n"},
                            {"guide.yaml", "guide: An example\ncontents: [prose/page.md]\n"}});
}

std::string severityOf(const diagnostics::Finding& finding) {
  return std::string(toString(finding.weight()));
}

std::string relatedIn(const diagnostics::Finding& finding) {
  std::string out;
  for (const diagnostics::Related& one : finding.related) out += one.message + '\n';
  return out;
}

}  // namespace

TEST_CASE(
    "what breaks a claim is named with its standing, and so is every place where the claim was stated") {
  const Small broken = guide(kRings, shape("sorrendale", "{handle: ring, finial: knob}"));
  CHECK(broken.found == "8:14 claim-broken");
  const diagnostics::Finding& one = broken.one();
  CHECK(severityOf(one) == "error");
  CHECK(one.message ==
        "`ring-handles-and-slots` is broken by shape:sorrendale, where `look.finial` is `knob` (documented) "
        "and "
        "`look.handle` is `ring` (documented)");
  CHECK(one.record == "claim:ring-handles-and-slots");
  CHECK(one.records == std::vector<std::string>{"claim:ring-handles-and-slots", "shape:sorrendale"});
  REQUIRE(one.facts.size() == 2);
  CHECK(one.facts[0].record == "shape:sorrendale");
  CHECK(one.facts[0].field == "look.finial");
  CHECK(one.facts[0].value == "knob");
  CHECK(one.facts[0].standing == "documented");
  CHECK(relatedIn(one) ==
        "`look.finial` of shape:sorrendale is `knob` (documented)\n"
        "`look.handle` of shape:sorrendale is `ring` (documented)\n"
        "it was stated in edition 1, p. 41\n"
        "it was stated in the talk `twelve-shapes`, Round plates\n"
        "it was stated in the talk `twelve-shapes`, 9:40\n"
        "a text links to it here\n"
        "a text links to it here\n");
}

TEST_CASE("a time of a talk is placed at the segment then running") {
  const Small broken = guide(
      "- talk: twelve-shapes\n  title: Twelve shapes\n  budget: 20:00\n  segments:\n    - title: Round "
      "plates\n"
      "      time: 9:00\n    - title: Square plates\n      time: 11:00\n"
      "- claim: ring-handles-and-slots\n  says: Ring handles came only with slot finials.\n  stated:\n"
      "    - {talk: twelve-shapes, at: \"9:40\"}\n    - {talk: twelve-shapes, at: \"0:00\"}\n"
      "    - {talk: twelve-shapes, at: \"45:00\"}\n"
      "  test:\n    - every: shape\n      where: {look.handle: ring}\n      has: {look.finial: slot}\n"
      "- feature: handle\n  of: shape\n  values: {ring: a ring}\n- feature: finial\n  of: shape\n  values: "
      "{slot: a "
      "bar, knob: a knob}\n",
      shape("sorrendale", "{handle: ring, finial: knob}"));
  INFO(broken.text);
  for (const char* place : {"records.yaml:7:14: it was stated in the talk `twelve-shapes`, 9:40",
                            "records.yaml:5:14: it was stated in the talk `twelve-shapes`, 0:00",
                            // There is no such time: where it is stated.
                            "records.yaml:14:7: it was stated in the talk `twelve-shapes`, 45:00"})
    CHECK(broken.text.find(place) != std::string::npos);
}

TEST_CASE("an order that is not proven: what all that is recorded says of it") {
  const auto told = [](const std::string& pair) {
    return Small(
               "- {shape: harbour, introduced: {is: 1930, cite: memoir}}\n"
               "- {shape: lantern, introduced: {is: 1938, cite: memoir}}\n"
               "- {source: memoir, title: A memoir, type: book, date: 1974}\n"
               "- claim: order\n  says: One came first.\n  test: {before: [" +
                   pair + "]}\n",
               {"claim-open"_rule})
        .one()
        .message;
  };
  CHECK(told("shape:lantern, shape:harbour")
            .starts_with("`order` is open: which was first is not proven, and by all that is recorded it was "
                         "the other way "
                         "round; "));
  CHECK(told("shape:harbour, shape:lantern").starts_with("`order` is open: which was first is not proven; "));
}

TEST_CASE("an error only where the facts are documented or supported") {
  const std::string look = "{handle: ring, finial: knob}";
  const std::string guide1974 =
      "- {source: guide-1974, title: A guide, type: book, date: 1974}\n- {source: other, title: Another, "
      "type: book, "
      "date: 1981}\n";
  const auto severity = [&](const std::string& records, const std::string& claim = kRings) {
    const Small found = guide(claim, records + guide1974);
    for (const diagnostics::Finding& one : found.report.findings)
      if (one.rule == "claim-broken"_rule) return severityOf(one);
    return std::string("none");
  };
  CHECK(severity(shape("a", look)) == "error");
  CHECK(severity(shape("a", look, "  cite:\n    - guide-1974: p. 1\n    - other: p. 2\n")) == "error");
  CHECK(severity(shape("a", look, "  cite:\n    - guide-1974: p. 1\n")) == "warning");
  CHECK(severity(shape("a", look, "")) == "warning");
  CHECK(severity(shape("a", "{handle: ring, finial: {is: knob, judged: it looks like one}}")) == "warning");
  CHECK(severity(shape("a", "{handle: ring, finial: {is: knob, doubted: chipped, cite: books}}")) ==
        "warning");
  CHECK(severity(shape("a", "{handle: ring, finial: {is: knob, cite: books, but: [{is: slot}]}}")) ==
        "warning");
  // One that is well known is enough.
  CHECK(severity(shape("a", look, "") + shape("b", look)) == "error");
  for (const char* status : {"supposed", "doubted"}) {
    std::string claim = kRings;
    claim.insert(claim.find("  stated:"), "  status: " + std::string(status) + '\n');
    CHECK(severity(shape("a", look), claim) == "note");
  }
}

TEST_CASE("a piece that turns up breaks it") {
  const std::string sound = shape("a", "{handle: ring, finial: slot}");
  const std::string piece = "- specimen: sugar\n  shape: a\n  look: {finial: knob}\n  seen: {on: 2019, how: ";
  CHECK(guide(kRings, sound).found == "");
  const Small inHand = guide(kRings, sound + piece + "in-hand}\n");
  CHECK(severityOf(inHand.one()) == "error");
  CHECK(inHand.one().message.starts_with(
      "`ring-handles-and-slots` is broken by specimen:sugar, where `look.finial` is "
      "`knob` (documented)"));
  CHECK(severityOf(guide(kRings, sound + piece + "reported}\n").one()) == "warning");
}

TEST_CASE("what leaves a claim open") {
  const Small open = guide(kRings, shape("a", "{handle: ring, finial: unknown}") +
                                       shape("b", "{handle: ring}") + shape("c", "{finial: knob}"));
  CHECK(open.found == "8:14 claim-open");
  CHECK(severityOf(open.one()) == "note");
  CHECK(open.one().message ==
        "`ring-handles-and-slots` is open: shape:a, where `look.finial` is not known; likewise shape:b and "
        "shape:c");
  CHECK(open.one().records == std::vector<std::string>{"claim:ring-handles-and-slots"});
}

TEST_CASE("a list that may leave something out is shown, at its place, with what would close it") {
  for (const std::string marks : {"[m1]", "m1", "{is: m1, note: a note}"}) {
    const std::string records =
        "- claim: c\n  says: Something.\n  test: {some: specimen, has: {marks: m2}}\n- mark: m1\n- mark: m2\n"
        "- specimen: sp\n  marks: " +
        marks + "\n  seen: 2000\n";
    const Small open(records, {"claim-open"_rule});
    const diagnostics::Finding& finding = open.one();
    CHECK(finding.message ==
          "`c` is open: specimen:sp, where `marks` is `m1` (documented; the list may leave something out)");
    CHECK(finding.hint.find("`complete: yes`") != std::string::npos);
    CHECK(relatedIn(finding).starts_with("`marks` of specimen:sp is `m1`"));
    CHECK(finding.related.at(0).span.begin > records.find("marks: " + marks));
  }
}

TEST_CASE("of a record with a fault nothing is concluded, and that is said") {
  const Small open(
      "- claim: c\n  says: Something.\n  test: {no: shape, has: {introduced: 1939/..}}\n"
      "- shape: a\n  introduced: 1938\n  look: {handle: }\n  cite: books\n" +
          kBooks,
      {"claim-open"_rule});
  CHECK(
      open.messages.find("where `introduced` is `1938` (documented; part of the record could not be read)") !=
      std::string::npos);
}

TEST_CASE("the other ways to test, in words") {
  const auto message = [](const std::string& test) {
    const std::string records = "- claim: c\n  says: Something.\n  test:\n    - " + test + '\n' +
                                "- {feature: handle, of: shape, values: {ring: a ring, looped: a loop}}\n" +
                                shape("a", "{handle: ring}", "  introduced: 1930\n  cite: books\n") +
                                shape("b", "{handle: looped}", "  introduced: 1940\n  cite: books\n");
    const Small found(records + kBooks);
    return found.report.findings.size() == 1 ? found.one().message : found.found + found.messages;
  };
  CHECK(message("{no: shape, has: {introduced: ../1935}}") ==
        "`c` is broken by shape:a, where `introduced` is `1930` (documented)");
  CHECK(message("{some: shape, where: {look.handle: ring}, has: {introduced: 1950/..}}") ==
        "`c` is broken: the one shape looked at is not as its `has` asks; shape:a, where `introduced` is "
        "`1930` "
        "(documented) and `look.handle` is `ring` (documented)");
  CHECK(message("{some: shape, where: {introduced: 1950/..}}") ==
        "`c` is broken: no shape is as its `where` asks");
  CHECK(message("{count: shape, makes: 3}") ==
        "`c` is broken: the records have 2 shapes, and it says 3: shape:a; shape:b");
  CHECK(message("before: [shape:b, shape:a]") ==
        "`c` is broken: `introduced` of shape:b is `1940` (documented) and `introduced` of shape:a is `1930` "
        "(documented), so that the first of its events was not the earlier");
  CHECK(message("before: [shape:a, shape:b.withdrawn]") == "");
  CHECK(message("before: [shape:a.withdrawn, shape:b.withdrawn]") ==
        "`c` is open: which was first is not proven; `withdrawn` of shape:a is not recorded and `withdrawn` "
        "of shape:b "
        "is not recorded");
  CHECK(message("same: [shape:a, shape:b, look.handle]") ==
        "`c` is broken: `look.handle` of shape:a is `ring` (documented) and `look.handle` of shape:b is "
        "`looped` "
        "(documented)");
  CHECK(message("same: [shape:a, shape:b, modeller]") ==
        "`c` is open: `modeller` of shape:a is not recorded and `modeller` of shape:b is not recorded");
}

TEST_CASE("what can be no test is told once, at its place, and is neither broken nor open") {
  CHECK(Small("- claim: c\n  says: Something.\n  test:\n    - no: shape\n      where: {lok.handle: ring}\n")
            .found == "5:15 field-unknown");
  CHECK(Small("- claim: c\n  says: Something.\n  test:\n    - {no: shape, has: {maker: wesperlin}}\n- maker: "
              "wesperling\n- {shape: a, maker: wesperling}\n",
              {"claim-broken"_rule, "claim-open"_rule, "reference-missing"_rule})
            .found == "4:32 reference-missing");
  CHECK(Small("- claim: c\n  says: Something.\n  test:\n    - before: [shape:a]\n- shape: a\n").found ==
        "4:15 value-unfit");
}
