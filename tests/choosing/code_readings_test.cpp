#include "choosing/code_readings.h"

#include "guide.h"
#include "tollivane.h"

using namespace saggar;
using namespace saggar::choosing;
using saggar::choosing::testing::Guide;
using saggar::choosing::testing::kTollivane;

namespace {

class Codes : public Guide {
 public:
  explicit Codes(const std::string& more = {}, const std::string& base = kTollivane)
      : Guide(base + more), text_(base + more) {
    const std::size_t before = findings.all().size();
    codes = CodeReadings::read(*chooser, findings);
    for (std::size_t i = before; i < findings.all().size(); ++i) {
      const diagnostics::Finding& one = findings.all()[i];
      const std::string place =
          one.span.end <= text_.size() ? text_.substr(one.span.begin, one.span.end - one.span.begin) : "?";
      said += std::string(one.rule.id()) + " at `" + place + "`: " + one.message + " | " + one.hint + '\n';
    }
  }

  // "rule: possible" or why not, one reading a line.
  std::string read(std::string_view reference) const {
    std::string all;
    for (const CodeOnRecord& code : codes.of(at(reference))) {
      if (code.readings.empty()) all += std::string(code.value->text) + ": none\n";
      for (const CodeReading& one : code.readings) {
        all += std::string(code.value->text) + ": " + one.rule->name + ": ";
        const auto against = codes.against(code, one);
        CHECK(against.empty() == one.possible);
        for (const Against& reason : against) all += reason.says + "; ";
        all += one.possible ? "possible\n" : "\n";
      }
    }
    return all;
  }

  CodeReadings codes;
  std::string said;

 private:
  std::string text_;
};

std::string treatment(std::string_view fields) {
  return "\n- treatment: new\n  " + std::string(fields) + "\n";
}
std::string specimen(std::string_view fields) {
  return "\n- specimen: new\n  " + std::string(fields) + "\n";
}

// The loose readings of a text: "rule: possible" or why not.
std::string loose(const Codes& guide, std::string_view text,
                  std::optional<RecordIndex> maker = std::nullopt) {
  std::string all;
  for (const auto& one : guide.codes.readLoose(text, maker).readings) {
    all += one.rule->name + ":";
    for (const Against& reason : one.against) all += ' ' + reason.says + ';';
    all += one.possible ? " possible" : "";
    for (RecordIndex match : one.matches) all += ' ' + guide.collection[match].reference();
    all += '\n';
  }
  return all;
}

}  // namespace

TEST_CASE("every rule of the small guide is compiled, and every code of it read") {
  const Codes guide;
  CHECK(guide.faults() == "");
  CHECK(guide.said == "");
  CHECK(guide.codes.rules().size() == 8);
  CHECK(guide.codes.all().size() == 6);
  for (const CodeOnRecord& code : guide.codes.all()) {
    CHECK(code.applies);
    CHECK(code.possibleCount() > 0);
  }
  CHECK(guide.collection[guide.codes.makerOf(guide.at("treatment:jm-018"))].id == "wesperling");
  CHECK(guide.codes.makerOf(guide.at("motif:teasel-row")) == records::kNoRecord);
}

TEST_CASE("a code may have several readings, and all are kept") {
  const Codes guide;
  CHECK(guide.read("treatment:jm-203") ==
        "JM-203-C/1: decoration code: the rule holds only where `{not: {shape: jessamount}}`; \n"
        "JM-203-C/1: decoration code on Jessamount: possible\n"
        "JM-203-C/1: copied serial: possible\n");
  const CodeOnRecord& shared = guide.codes.of(guide.at("treatment:jm-203"))[0];
  CHECK(shared.possibleCount() == 2);
  CHECK(shared.only() == nullptr);
  const CodeOnRecord& plain = guide.codes.of(guide.at("treatment:jm-018"))[0];
  REQUIRE(plain.only() != nullptr);
  CHECK(plain.only()->rule->name == "decoration code on Jessamount");
  CHECK(plain.only()->reading.number->number == 18);
  CHECK(plain.only()->reading.alone == "jm-018");
}

TEST_CASE("`like` takes over what a rule does not set: field, years, form, parts, order") {
  const Codes guide;
  const auto rules = guide.codes.rules();
  const MakerRule& own = rules[2];
  CHECK(own.name == "decoration code on Jessamount");
  CHECK(own.on == "treatment.code");
  CHECK(own.used == rules[1].used);
  CHECK(own.rule->ordered());
  CHECK(own.rule->orderFrom() == "decoration code");
  CHECK(rules[3].rule->ordered() == false);
  CHECK(rules[3].used != rules[1].used);
  CHECK_FALSE(own.where.always());
}

TEST_CASE("a path that gives another text rules a reading out, with the place") {
  const Codes guide(treatment("shape: linnavere\n  motif: none\n  code: JM-045-A/0\n  introduced: 1937"));
  const CodeOnRecord& code = guide.codes.of(guide.at("treatment:new"))[0];
  const auto against = guide.codes.against(code, code.readings[0]);
  REQUIRE(against.size() == 1);
  CHECK(against[0].reason == Against::Reason::path);
  CHECK(against[0].says == "the prefix of Linnavere is `LV`, not `JM`, and no other (`for`) is recorded");
  CHECK(against[0].record == guide.at("shape:linnavere"));
  CHECK(guide.collection.sources().text(against[0].span) == "LV");
}

TEST_CASE("what is unknown or not recorded rules nothing out") {
  auto possible = [](std::string_view fields) {
    const Codes guide(treatment(fields));
    const auto codes = guide.codes.of(guide.at("treatment:new"));
    REQUIRE(codes.size() == 1);
    return codes[0].possibleCount();
  };
  CHECK(possible("shape: linnavere\n  motif: none\n  code: LV-20-A/0") == 1);
  CHECK(possible("shape: linnavere\n  for: unknown\n  code: QM-20-A/0") ==
        1);  // the customer may be Quennock
  CHECK(possible("shape: linnavere\n  for: quennock\n  code: QM-20-A/0") == 1);
  CHECK(possible("shape: linnavere\n  code: QM-20-A/0") == 0);  // whose number it is wants saying
  CHECK(possible("shape: unknown\n  code: LV-20-A/0") == 1);
  CHECK(possible("shape: {is: linnavere, doubted: too faint}\n  code: LX-20-A/0") == 1);
  CHECK(possible("shape: linnavere\n  code: LV-20-A/0\n  look: {edge-line: unknown}") == 1);
  CHECK(possible("shape: linnavere\n  code: LV-20-A/0\n  look: {edge-line: [gold, none]}") == 1);
  CHECK(possible("shape: linnavere\n  code: LV-20-A/0\n  look: {edge-line: gold}") == 0);
  CHECK(possible("shape: linnavere\n  code: LV-20-A/0\n  look: {edge-line: {is: gold, doubted: worn}}") == 1);
  CHECK(possible("shape: linnavere\n  code: LV-20-A/2\n  look: {edge-line: gold}") == 1);
  CHECK(possible("shape: linnavere\n  code: LV-20-A/2\n  look: {edge-line: gold, verge-line: none}") == 0);
  CHECK(possible("shape: linnavere\n  code: X-123\n  status: sample") == 1);
  CHECK(possible("shape: linnavere\n  code: X-123") == 0);
  CHECK(possible("shape: linnavere\n  motif: unknown\n  code: LV-203-C/1") == 2);  // copied or not
  CHECK(possible("shape: linnavere\n  motif: teasel-row\n  code: LV-203-C/1") ==
        2);  // its supplier is not recorded
}

TEST_CASE("a shape without a recorded prefix leaves its codes alone") {
  std::string base = kTollivane;
  base.replace(base.find("  prefix: LV\n"), 13, "");
  const Codes guide(treatment("shape: linnavere\n  code: LV-20-A/0\n  for: quennock"), base);
  CHECK(guide.codes.of(guide.at("treatment:new"))[0].possibleCount() == 1);
}

TEST_CASE("dates outside the years of a rule rule it out, at wide bounds and without doubted dates") {
  auto read = [](std::string_view introduced) {
    const Codes guide(
        treatment("shape: linnavere\n  motif: gooseberry-wreath\n  code: LV-203-C/0\n  introduced: " +
                  std::string(introduced)));
    const auto code = guide.codes.of(guide.at("treatment:new"))[0];
    std::string rules;
    for (const CodeReading& one : code.readings)
      if (one.possible) rules += one.rule->name + ' ';
    return rules;
  };
  CHECK(read("1940") == "decoration code copied serial ");
  CHECK(read("1946") == "decoration code ");
  CHECK(read("1946~") == "decoration code copied serial ");  // five years either way
  CHECK(read("1946?") == "decoration code copied serial ");
  CHECK(read("{is: 1946, doubted: blotted}") == "decoration code copied serial ");
  CHECK(read("1945/1947") == "decoration code copied serial ");
  CHECK(read("by 1937") == "decoration code ");
  CHECK(read("1920") == "");
  const Codes old(
      treatment("shape: orrinstead\n  code: [1500, OD-11-A/0]\n  introduced: 1913\n  withdrawn: 1926"));
  CHECK(old.read("treatment:new") ==
        "1500: old decoration number: possible\nOD-11-A/0: decoration code: possible\n");
  const Codes early(
      treatment("shape: orrinstead\n  code: [1500, OD-11-A/0]\n  introduced: 1913\n  withdrawn: 1925"));
  CHECK(early.read("treatment:new") ==
        "1500: old decoration number: possible\nOD-11-A/0: decoration code: 1500 on Orrinstead was last "
        "offered in 1925, and "
        "such codes were given from 1926 to 1968; \n");
}

TEST_CASE("a date code is read with its works, and those have years too") {
  auto read = [](std::string_view code) {
    return Codes(specimen("treatment: jm-018\n  date-code: " + std::string(code))).read("specimen:new");
  };
  CHECK(read("U341") == "U341: date code: possible\n");
  // The last that is left binds, and is told as a clash of dates.
  CHECK(read("T261") == "T261: date code: possible\n");
  CHECK(read("[T261, T251]") ==
        "T261: date code: it would be of 1st quarter 1926, and Tunnel works was used from 1927 to 1962; \n"
        "T251: date code: it would be of 1st quarter 1925, and Tunnel works was used from 1927 to 1962; \n");
  CHECK(read("T271") == "T271: date code: possible\n");
  CHECK(read("U241") ==
        "U241: date code: it would be of 1st quarter 1924, and such codes were used from 1925 to 1951; \n");
  CHECK(read("X341") == "X341: none\n");
  CHECK(read("5614") == "5614: batch: possible\n");
  CHECK(read("5654") == "5654: none\n");
  CHECK(read("unknown") == "");
  CHECK(read("none") == "");
  CHECK(Codes(specimen("treatment: jm-018\n  date-code: T3?2")).codes.all().back().readings.size() == 10);
  CHECK(Codes(specimen("treatment: jm-018\n  made: 1952\n  date-code: U341")).read("specimen:new") ==
        "U341: date code: `new` was made in 1952, and such codes were used from 1925 to 1951; \n");
}

TEST_CASE("what is seen on a piece is read by its own rules and by those of the treatments") {
  auto read = [](std::string_view fields) { return Codes(specimen(fields)).read("specimen:new"); };
  CHECK(read("treatment: jm-018\n  code-seen: JM-018-C/1") ==
        "JM-018-C/1: decoration code: the rule holds only where `{not: {shape: jessamount}}`; \n"
        "JM-018-C/1: decoration code on Jessamount: possible\n"
        "JM-018-C/1: copied serial: JM-018-C/1 Teasel Row was introduced in 1932, and such codes were given "
        "from 1938 to 1945; \n");
  CHECK(read("treatment: jm-018\n  code-seen: TR") == "TR: cipher: possible\n");
  CHECK(read("treatment: jm-018\n  code-seen: TR-6") == "TR-6: none\n");
  CHECK(read("shape: linnavere\n  motif: none\n  code-seen: LV-12-A/0") ==
        "LV-12-A/0: decoration code: possible\n");
  // A piece without a treatment may be a customer's; one with a treatment is that customer's.
  CHECK(Codes(specimen("shape: linnavere\n  code-seen: QM-31-A/0")).codes.of(0).empty());
  const Codes customers(specimen("shape: linnavere\n  code-seen: QM-31-A/0"));
  CHECK(customers.codes.of(customers.at("specimen:new"))[0].possibleCount() == 1);
  const Codes ours(specimen("treatment: lv-12\n  code-seen: QM-31-C/0"));
  CHECK(ours.codes.of(ours.at("specimen:new"))[0].possibleCount() == 0);
  const Codes theirs(specimen("treatment: qm-112\n  code-seen: QM-112-C/0"));
  CHECK(theirs.codes.of(theirs.at("specimen:new"))[0].possibleCount() == 1);
  // The look is the piece's own, else its treatment's.
  const Codes line(specimen("treatment: jm-018\n  code-seen: JM-018-C/0"));
  CHECK(line.codes.of(line.at("specimen:new"))[0].possibleCount() == 0);
  const Codes own(specimen("treatment: jm-018\n  look: {edge-line: none}\n  code-seen: JM-018-C/0"));
  CHECK(own.codes.of(own.at("specimen:new"))[0].possibleCount() != 0);
}

TEST_CASE("whose rules apply: the shape's maker's, of a customer's ware too; with no maker known all") {
  const std::string other = R"(
- maker: brathermoor
  codes:
    - rule: pattern number
      written: NUMBER
      parts: {NUMBER: 1 to 9999}
- maker: quiet
- shape: octagon
  maker: brathermoor
- shape: plain
  maker: quiet
- shape: stray
  maker: unknown
- treatment: a
  shape: octagon
  code: 1187
- treatment: b
  shape: plain
  code: 1187
- treatment: c
  shape: stray
  code: 1187
- treatment: d
  shape: [octagon, jessamount]
  code: 1187
- treatment: e
  shape: linnavere
  for: brathermoor
  code: 1187
)";
  const Codes guide(other);
  CHECK(guide.said == "");
  CHECK(guide.read("treatment:a") == "1187: pattern number: possible\n");
  CHECK(guide.read("treatment:b") == "1187: none\n");
  CHECK_FALSE(guide.codes.of(guide.at("treatment:b"))[0].applies);
  CHECK(guide.read("treatment:c") ==
        "1187: old decoration number: possible\n1187: pattern number: possible\n");
  CHECK(guide.read("treatment:d") ==
        "1187: old decoration number: possible\n1187: pattern number: possible\n");
  CHECK(guide.read("treatment:e") == "1187: old decoration number: possible\n");
}

TEST_CASE("what is wrong with a rule is said where it stands") {
  auto said = [](std::string_view rules) {
    return Codes("", "- maker: m\n  prefix: M\n  codes:\n" + std::string(rules) +
                         "- shape: s\n  maker: m\n- treatment: t\n  shape: s\n  code: QQQ\n- feature: line\n "
                         " of: treatment\n  values: {gold: x, none: y}\n")
        .said;
  };
  CHECK(said("    - {rule: a, written: N, parts: {N: 2 digits}}\n") == "");
  CHECK(said("    - {rule: a, written: N, parts: {N: 2 digitz}}\n") ==
        "value-unfit at `2 digitz`: `2 digitz` is not understood | did you mean `2 digits`?\n");
  CHECK(said("    - {rule: numbers, written: N, parts: {N: 2 digits}}\n    - {rule: b, like: nubmers, parts: "
             "{N: 3 digits}}\n") ==
        "value-unfit at `nubmers`: no rule of this maker is called `nubmers` | did you mean `numbers`?\n");
  CHECK(said("    - {rule: a, like: b}\n    - {rule: b, like: a}\n")
            .starts_with("value-unfit at `a`: `b` is like `a`, which in the end is like itself"));
  CHECK(said("    - {rule: a, like: a}\n").starts_with("value-unfit at `a`: "));
  CHECK(said("    - {rule: a, written: P-N, parts: {P: shape.prefxi, N: 2 digits}}\n") ==
        "field-unknown at `prefxi`: a shape has no field `prefxi` | did you mean `shape.prefix`?\n");
  CHECK(said("    - {rule: a, written: P-N, parts: {P: [shape.prefix, fro.prefix], N: last 2 of "
             "motif.suplier-number}}\n") ==
        "field-unknown at `fro`: a treatment has no field `fro` | did you mean `for`?\n"
        "field-unknown at `suplier-number`: a motif has no field `suplier-number` | did you mean "
        "`motif.supplier-number`?\n");
  CHECK(said("    - {rule: a, written: P-N, parts: {P: maker.prefiks, N: 2 digits}}\n")
            .starts_with("field-unknown at `prefiks`: a maker has no field `prefiks`"));
  CHECK(said("    - {rule: a, written: N, parts: {N: {1: {look: {lien: gold}}}}}\n") ==
        "reference-missing at `lien`: there is no feature `lien` | did you mean `line`?\n");
  CHECK(said("    - {rule: a, written: N, parts: {N: {1: {look: {line: golt}}}}}\n") ==
        "value-unfit at `golt`: `golt` is no value of the feature `line` | did you mean `gold`?\n");
  CHECK(said("    - {rule: a, written: N, parts: {N: {1: {loko: {line: gold}}}}}\n")
            .starts_with("field-unknown at `loko`: `loko` is nothing that a row of a table can say | did you "
                         "mean `look`?"));
  CHECK(said("    - {rule: a, written: N, parts: {N: {1: {month: 13}}}}\n")
            .starts_with("value-unfit at `13`: there is no month `13`"));
  CHECK(said("    - {rule: a, written: N, parts: {N: 1 to 99}, order: M}\n")
            .starts_with("value-unfit at `M`: `order` names `M`"));
  CHECK(said("    - {rule: a, written: N, parts: {N: 1 to 99}, order: N, on-date: {12: 19x2}}\n")
            .starts_with("date-unreadable at `"));
  CHECK(said("    - {rule: a, written: N, parts: {N: 1 to 99}, order: N, on-date: {120: 1912}}\n")
            .starts_with("value-unfit at `120`: the number 120 is not from 1 to 99"));
  CHECK(said("    - {rule: a, written: N, parts: {N: 1 to 99}, order: N, on-date: {12: 1912, 13: 1911}}\n")
            .starts_with("value-unfit at `13`: number 12 under `on-date`"));
  CHECK(said("    - {rule: a, written: N, parts: [1, 2]}\n").starts_with("value-unfit at `[1, 2"));
  CHECK(said("    - {rule: a, written: N, parts: {N: 1 to 99}, alike: [4]}\n")
            .starts_with("value-unfit at `4`: one sign alone is like nothing"));
  CHECK(said("    - {rule: a, parts: {N: 1 to 99}}\n")
            .starts_with("value-unfit at `a`: the rule does not say how the code is written"));
  CHECK(said("    - {rule: a, pattern: '(?P<N>[0-9', parts: {N: 1 to 99}}\n")
            .starts_with("value-unfit at `'(?P<N>[0-9'`"));
  CHECK(said("    - {rule: a, written: N, parts: {N: 2 digits}}\n    - {rule: a, written: M, parts: {M: 3 "
             "digits}}\n") ==
        "value-unfit at `a`: two rules of this maker are called `a` | give one of the two another name\n");
  // What a rule takes over is reported once, where it stands.
  CHECK(said("    - {rule: a, written: N, parts: {N: 2 digitz}}\n    - {rule: b, like: a}\n") ==
        "value-unfit at `2 digitz`: `2 digitz` is not understood | did you mean `2 digits`?\n");
}

TEST_CASE("a rule that could not be compiled may be the one that reads a code: nothing is said of that") {
  const Codes guide("",
                    "- maker: m\n  codes:\n    - {rule: a, written: N, parts: {N: 2 digitz}}\n    - {rule: "
                    "b, written: N, parts: {N: 3 digits}}\n"
                    "- shape: s\n  maker: m\n- treatment: t\n  shape: s\n  code: 12\n- treatment: u\n  "
                    "shape: s\n  code: 123\n");
  CHECK_FALSE(guide.codes.of(guide.at("treatment:t"))[0].applies);
  CHECK(guide.codes.of(guide.at("treatment:u"))[0].possibleCount() == 1);
}

TEST_CASE("the code that a mark carries is named by a rule of its maker") {
  auto said = [](std::string_view carries) {
    return Codes("- mark: k\n  maker: wesperling\n  carries: " + std::string(carries) + "\n").said;
  };
  CHECK(said("date code") == "");
  CHECK(said("[date code, batch]") == "");
  CHECK(said("unknown") == "");
  CHECK(said("date cod") ==
        "value-unfit at `date cod`: no rule for codes is called `date cod` at the maker `wesperling` | did "
        "you mean `date code`?\n");
  CHECK(Codes("- mark: k\n  maker: orvenholt\n  carries: batch\n").said.find("how such a code is written") !=
        std::string::npos);
}

TEST_CASE("a row of a table may stand for several things, each a reading of its own") {
  const Codes guide("",
                    "- maker: m\n  codes:\n    - rule: a\n      on: specimen.date-code\n      written: M "
                    "YYYY\n      parts:\n        M:\n"
                    "          R: {month: [8, 9]}\n          S: [{month: 1}, {month: March, means: "
                    "spring}]\n        YYYY: year YYYY\n"
                    "- shape: s\n  maker: m\n- specimen: p\n  shape: s\n  date-code: R1857\n- specimen: q\n  "
                    "shape: s\n  date-code: S1857\n");
  CHECK(guide.said == "");
  const auto august = guide.codes.of(guide.at("specimen:p"))[0];
  REQUIRE(august.readings.size() == 2);
  CHECK(august.readings[0].reading.dateInWords() == "August 1857");
  CHECK(august.readings[1].reading.dateInWords() == "September 1857");
  const auto spring = guide.codes.of(guide.at("specimen:q"))[0];
  REQUIRE(spring.readings.size() == 2);
  CHECK(guide.codes.inFull(spring)[1].parts[0].means == "spring");
  CHECK(spring.readings[1].reading.dateInWords() == "March 1857");
}

TEST_CASE("a pattern's named groups are parts like any other") {
  const Codes guide("",
                    "- maker: m\n  codes:\n    - rule: a\n      pattern: '(?P<P>[A-Z]+)[ "
                    "-](?P<N>[0-9]{2})'\n      parts: {P: shape.prefix}\n"
                    "- shape: s\n  maker: m\n  prefix: AB\n- treatment: t\n  shape: s\n  code: AB 12\n- "
                    "treatment: u\n  shape: s\n  code: AC-12\n");
  CHECK(guide.said == "");
  CHECK(guide.read("treatment:t") == "AB 12: a: possible\n");
  CHECK(guide.read("treatment:u") == "AC-12: a: the prefix of S is `AB`, not `AC`; \n");
}

TEST_CASE("the condition of a rule is told on one line, however it is laid out") {
  const Codes guide("",
                    "- maker: m\n  codes:\n    - rule: a\n      written: P\n      parts: {P: 2 letters}\n"
                    "      where:\n        not:\n          any:\n            - {shape: s}\n"
                    "- shape: s\n  maker: m\n- treatment: t\n  shape: s\n  code: AB\n");
  CHECK(guide.read("treatment:t") == "AB: a: the rule holds only where `{not: {any: [{shape: s}]}}`; \n");
}

TEST_CASE("texts that a rule says are none of its codes") {
  const Codes guide("",
                    "- maker: m\n  codes:\n    - {rule: a, written: P-N, parts: {P: 2 letters, N: 4 digits}, "
                    "unlike: {JM-1932: a year}}\n"
                    "- shape: s\n  maker: m\n- treatment: t\n  shape: s\n  code: [jm-1932, JM-1933]\n");
  const auto codes = guide.codes.of(guide.at("treatment:t"));
  REQUIRE(codes.size() == 2);
  CHECK(codes[0].readings.empty());
  REQUIRE(codes[0].unlike != nullptr);
  CHECK(*codes[0].unlike == "a year");
  CHECK(codes[1].readings.size() == 1);
  CHECK(codes[1].unlike == nullptr);
}

TEST_CASE("a code that stands on no record: judged on those that carry it, else by what is on record") {
  const Codes guide(specimen("treatment: jm-203\n  code-seen: JM-203-C/1\n  date-code: U391"));
  CHECK(loose(guide, "JM-203-C/1") ==
        "decoration code: the rule holds only where `{not: {shape: jessamount}}`;\n"
        "decoration code on Jessamount: possible treatment:jm-203 specimen:new\n"
        "copied serial: possible treatment:jm-203 specimen:new\n");
  CHECK(loose(guide, "jm-203-c/1") == loose(guide, "JM-203-C/1"));
  CHECK(loose(guide, "ZZ-12-A/0") ==
        "decoration code: nothing on record has `ZZ` as its `shape.prefix` or `for.prefix`;\n");
  CHECK(loose(guide, "LV-13-A/0") == "decoration code: possible\n");
  CHECK(loose(guide, "OD-13-A/0") == "decoration code: possible\n");  // no treatment has the prefix yet
  CHECK(loose(guide, "JM-13-A/0") ==
        "decoration code: the rule holds only where `{not: {shape: jessamount}}`;\n");
  CHECK(loose(guide, "T261") ==
        "date code: it would be of 1st quarter 1926, and Tunnel works was used from 1927 to 1962;\n");
  CHECK(loose(guide, "LV-13-A/0", guide.at("maker:quennock")) == "");

  const auto unread = guide.codes.readLoose("5654", std::nullopt);
  CHECK(unread.readings.empty());
  CHECK(unread.whyNot == "after \"56\" a week from 01 to 53 is wanted (WEEK), here is \"54\"");
  REQUIRE(unread.nearest != nullptr);
  CHECK(unread.nearest->name == "batch");
  const auto two = guide.codes.readLoose("JM-13-A/0", std::nullopt);
  REQUIRE(two.nearest != nullptr);
  CHECK(two.nearest->name == "decoration code on Jessamount");
  CHECK(two.whyNot == "after \"JM-\" three digits are wanted (SERIAL), here are two: \"13\"");

  const auto begun = guide.codes.readLoose("JM-203", std::nullopt);
  CHECK(begun.readings.empty());
  REQUIRE(begun.begun.size() == 1);
  CHECK(guide.collection[begun.begun[0]].id == "jm-203");

  const auto stamp = guide.codes.readLoose("U341", std::nullopt);
  REQUIRE(stamp.readings.size() == 1);
  CHECK(stamp.matches.empty());
  REQUIRE(stamp.similar.size() == 1);
  CHECK(stamp.similar[0].code.text == "U391");
  CHECK(stamp.similar[0].rule->name == "date code");
  const auto scratched = guide.codes.readLoose("U3?1", std::nullopt);
  CHECK(scratched.readings.size() == 10);
  std::size_t carried = 0;
  for (const auto& one : scratched.readings) carried += one.matches.size();
  CHECK(carried == 1);
  REQUIRE(scratched.readings[9].matches.size() == 1);  // the piece of 1939
  REQUIRE(stamp.readings[0].reading.parts.size() == 3);
  CHECK(stamp.readings[0].reading.parts[0].means == "Upper Bench works");
  const auto prefix = guide.codes.readLoose("QM-13-A/0", std::nullopt);
  REQUIRE(prefix.readings[0].named.size() == 1);
  CHECK(guide.collection[prefix.readings[0].named[0].record].id == "quennock");
}

TEST_CASE("a number in a table is read by the prefixes on record where it could be several") {
  const auto rule = [](const std::string& table) {
    return "- maker: p\n  codes:\n    - rule: pattern number\n      used: 1921/1959\n      written: PREFIX "
           "SERIAL\n"
           "      parts: {PREFIX: shape.prefix, SERIAL: 1 to 9999}\n      order: SERIAL within PREFIX\n"
           "      first-of: {" +
           table + "}\n      cite: b\n- source: b\n  type: ledger\n  title: B\n";
  };
  const std::string shapes =
      "- shape: o\n  maker: p\n  prefix: OS\n- shape: v\n  maker: p\n  prefix: [VE, OS1]\n";
  const Codes known("", rule("OS 350: 1931") + shapes);
  CHECK(known.said == "");
  REQUIRE(known.codes.rules().size() == 1);
  const auto entries = known.codes.rules()[0].rule->series().entriesOf("os");
  REQUIRE(entries.size() == 1);
  CHECK(entries[0].at.number == 350);
  // Both OS and OS1 are prefixes.
  CHECK(Codes("", rule("OS150: 1931") + shapes).said.find("can be ") != std::string::npos);
}

TEST_CASE("what a text wants is told by the texts on record, and where the text stands") {
  const Codes guide(
      "",
      "- maker: p\n  works: [{works: yard, name: Old Yard, letter: Y, used: 1908/1936}]\n  codes:\n"
      "    - rule: pattern\n      written: PREFIX/SERIAL\n"
      "      parts: {PREFIX: shape.prefix, SERIAL: 3 digits}\n"
      "    - rule: letters\n      on: specimen.date-code\n      written: WORKS MONTH-YY\n"
      "      used: 1921/1955\n      alike: [3 8, 1 7]\n"
      "      parts: {WORKS: maker.works.letter, MONTH: month, YY: year 19YY}\n"
      "- shape: o\n  maker: p\n  prefix: OS\n"
      "- specimen: s\n  shape: o\n  date-code: K6-31\n  seen: 2000\n");
  CHECK(guide.said == "");
  const auto seen = guide.codes.readLoose("K6-31", std::nullopt);
  REQUIRE(seen.nearest != nullptr);
  CHECK(seen.nearest->name == "letters");
  CHECK(seen.whyNot.find("(WORKS), here is \"K6\"") != std::string::npos);
  const auto unknown = guide.codes.readLoose("QQ-1", std::nullopt);
  CHECK(unknown.whyNot.find("QQ-1\" \"/\"") == std::string::npos);
  // What the eye could take it for, with what rules that out.
  const auto yard = guide.codes.readLoose("Y6-31", std::nullopt);
  REQUIRE(yard.readings.size() == 1);
  CHECK(yard.readings[0].possible);
  CHECK_FALSE(yard.similar.empty());
  for (const auto& one : yard.similar) {
    CHECK_FALSE(one.possible());
    CHECK(one.against.at(0).at(0).says.find("Old Yard was used from 1908 to 1936") != std::string::npos);
  }
  const auto early = guide.codes.readLoose("Y6-37", std::nullopt);
  REQUIRE_FALSE(early.similar.empty());
  CHECK(early.similar[0].code.text == "Y6-31");
  CHECK(early.similar[0].possible());
}

TEST_CASE("no rules, no guide, no code: nothing is said") {
  const Codes none("", "- shape: s\n  maker: unknown\n- treatment: t\n  shape: s\n  code: 12\n");
  CHECK_FALSE(none.codes.of(none.at("treatment:t"))[0].applies);
  CHECK(none.codes.readLoose("12", std::nullopt).whyNot == "no rule for codes is recorded");
  // A rule with a fault is not denied, but named.
  const Codes faulty("", "- maker: m\n  codes: [{rule: plain, written: NUMBER, parts: {NUMBER: 2 digts}}]\n");
  const auto unread = faulty.codes.readLoose("12", std::nullopt);
  CHECK(unread.whyNot == "no rule for codes could be read");
  CHECK(unread.faulty == std::vector<std::string>{"plain"});
  CHECK(none.codes.readLoose("12", std::nullopt).faulty.empty());
  const CodeReadings nothing;
  CHECK(nothing.all().empty());
  CHECK(nothing.rules().empty());
  CHECK(nothing.readLoose("12", std::nullopt).readings.empty());
}

TEST_CASE("the same readings whatever the number of records: shares are put together in order") {
  std::string many;
  for (int i = 0; i < 9000; ++i) {
    const std::string serial = std::to_string(i % 899 + 101);
    many +=
        "\n- treatment: many-" + std::to_string(i) + "\n  shape: linnavere\n  code: LV-" + serial + "-A/0\n";
  }
  const Codes guide(many);
  const auto all = guide.codes.all();
  REQUIRE(all.size() == 9006);
  for (std::size_t i = 1; i < all.size(); ++i) REQUIRE(all[i - 1].record < all[i].record);
  for (int i = 0; i < 9000; i += 997) {
    const auto codes = guide.codes.of(guide.at("treatment:many-" + std::to_string(i)));
    REQUIRE(codes.size() == 1);
    REQUIRE(codes[0].readings.size() >= 1);
    CHECK(codes[0].readings[0].reading.number->number == i % 899 + 101);
  }
}
