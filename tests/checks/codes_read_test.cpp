#include <random>

#include "code_guide.h"

using saggar::checks::testing::decoration;
using saggar::checks::testing::Planted;

namespace {

std::string piece(const std::string& fields) {
  return "- specimen: new\n  form: plate-7\n" + fields;
}

}  // namespace

TEST_CASE("the small guide has no finding at all") {
  const Planted nothing("");
  CHECK(nothing.found == "");
  CHECK(nothing.messages == "");
}

TEST_CASE("a serial of two digits on a shape whose serials have three") {
  const Planted bad(
      decoration("new", "jessamount", "barrow-of-blooms", "JM-61-C/1", "{edge-line: gold}", "1936"));
  CHECK(bad.found == "planted.yaml:4 error code-disagrees");
  CHECK(bad.only().message ==
        "`JM-61-C/1` cannot be meant here, by `decoration code`: the rule holds only where `{not: {shape: "
        "jessamount}}`; "
        "by `decoration code on Jessamount`, which holds here: after \"JM-\" three digits are wanted "
        "(SERIAL), here are two: \"61\"");
  CHECK(bad.only().records == std::vector<std::string>{"treatment:new"});
  CHECK(
      Planted(decoration("new", "jessamount", "barrow-of-blooms", "JM-071-C/1", "{edge-line: gold}", "1936"))
          .found == "");
}

TEST_CASE("a platinum line before there was any agrees with its code: only the look is out of time") {
  const Planted bad(
      decoration("new", "jessamount", "teasel-row", "JM-070-C/3", "{edge-line: platinum}", "1935"));
  CHECK(bad.found == "planted.yaml:6 error look-out-of-time");
  CHECK(Planted(decoration("new", "jessamount", "teasel-row", "JM-070-C/3", "{edge-line: platinum}", "1937"))
            .found == "");
}

TEST_CASE("a batch of week 54: a note, since it was only seen on a piece") {
  const Planted bad(piece("  treatment: jm-203\n  date-code: 5654\n"));
  CHECK(bad.found == "planted.yaml:4 note code-unread");
  CHECK(bad.only().message ==
        "no rule reads `5654`; `batch` comes nearest: after \"56\" a week from 01 to 53 is wanted (WEEK), "
        "here is \"54\"");
  CHECK(Planted(piece("  treatment: unknown\n  date-code: 5614\n")).found == "");
}

TEST_CASE("a works that had not opened yet") {
  const Planted bad(piece("  date-code: T261\n"));
  CHECK(bad.found == "planted.yaml:3 error works-out-of-time");
  CHECK(bad.only().message ==
        "`new` bears the date code `T261`, of January to March 1926, but `new` bears in `T261` the letter "
        "`T` of Tunnel works, which worked from 1927 to 1962: at least 9 months short");
  CHECK(bad.only().related.back().message == "the years of the works stand here");
  CHECK(bad.only().records == std::vector<std::string>{"specimen:new"});
  CHECK(Planted(piece("  date-code: U261\n")).found == "");
}

TEST_CASE("a code of a treatment that no rule reads is an error") {
  const Planted bad(decoration("new", "linnavere", "none", "LV 13", "{edge-line: none}", "1939"));
  CHECK(bad.found == "planted.yaml:4 error code-unread");
  CHECK(bad.only().related.size() == 1);
  CHECK(Planted(decoration("new", "linnavere", "none", "unknown", "{edge-line: none}", "1939")).found == "");
  CHECK(Planted(decoration("new", "linnavere", "none", "none", "{edge-line: none}", "1939")).found == "");
}

TEST_CASE("a prefix of another shape, and a customer's number without the customer") {
  const Planted bad(decoration("new", "linnavere", "none", "JX-13-A/0", "{edge-line: none}", "1939"));
  CHECK(bad.found == "planted.yaml:4 error code-disagrees");
  CHECK(bad.messages.find("the prefix of Linnavere is `LV`, not `JX`, and no other (`for`) is recorded") !=
        std::string::npos);
  CHECK(bad.only().records == std::vector<std::string>{"treatment:new", "shape:linnavere"});
  const Planted customer(decoration("new", "linnavere", "none", "QM-113-A/0", "{edge-line: none}", "1939"));
  CHECK(customer.only().hint ==
        "put the code or the record right; a customer's number wants the customer, `for: …`");
  CHECK(Planted(decoration("new", "linnavere", "none", "QM-113-A/0", "{edge-line: none}", "1939") +
                "  for: quennock\n")
            .found == "");
}

TEST_CASE("a line that the code does not allow") {
  const Planted bad(decoration("new", "linnavere", "none", "LV-13-A/0", "{edge-line: gold}", "1939"));
  CHECK(bad.found == "planted.yaml:4 error code-disagrees");
  CHECK(bad.only().message ==
        "`LV-13-A/0` cannot be meant here, by `decoration code`: `0` (LINING) means the edge-line is `none`, "
        "but the look has `gold`");
  CHECK(Planted(decoration("new", "linnavere", "none", "LV-13-A/0", "{edge-line: none}", "1939")).found ==
        "");
}

TEST_CASE("what the eye allows is one code: enough if one of the readings can be meant") {
  CHECK(Planted(piece("  shape: orrinstead\n  date-code: [F251, F321]\n")).found == "");
  CHECK(Planted(piece("  shape: orrinstead\n  date-code: [F251, 9999]\n")).found == "");
  const Planted bad(piece("  treatment: jm-018\n  date-code: [F331, F321]\n"));
  CHECK(bad.found == "planted.yaml:4 error code-disagrees");
  CHECK(bad.only().message ==
        "none of the readings that the eye allows can be meant here, `F331` by `date code`: it would be of "
        "1st quarter 1933, and Ferry Street works was used from 1889 to 1931; "
        "`F321` by `date code`: it would be of 1st quarter 1932, and Ferry Street works was used from 1889 "
        "to 1931");
  CHECK(Planted(piece("  treatment: jm-018\n  date-code: [V331, 9999]\n")).found ==
        "planted.yaml:4 note code-unread");
}

TEST_CASE("what is wrong with a treatment's code is not said again of the pieces that bear it") {
  const std::string bad = decoration("new", "linnavere", "none", "LV-13-A/0", "{edge-line: gold}", "1939");
  CHECK(Planted(bad + "- specimen: a\n  treatment: new\n  code-seen: LV-13-A/0\n").found ==
        "planted.yaml:4 error code-disagrees");
  const std::string unread = decoration("new", "linnavere", "none", "LV 13", "{edge-line: gold}", "1939");
  CHECK(Planted(unread + "- specimen: a\n  treatment: new\n  code-seen: LV 13\n").found ==
        "planted.yaml:4 error code-unread");
  // A piece whose number is another than its treatment's is its own affair.
  CHECK(Planted(piece("  treatment: jm-018\n  code-seen: JM-018-C/0\n")).found ==
        "planted.yaml:4 error code-disagrees");
}

TEST_CASE("where a rule is only usual, a disagreement is a note") {
  std::string base = saggar::choosing::testing::kTollivane;
  const std::string name = "    - rule: decoration code\n";
  base.replace(base.find(name), name.size(), name + "      usual: yes\n");
  const Planted note(decoration("new", "linnavere", "none", "LV-13-A/0", "{edge-line: gold}", "1939"), {},
                     base);
  CHECK(note.found == "planted.yaml:4 note code-disagrees");
}

TEST_CASE("what an author says is no code is accounted for on a piece, and wrong as a treatment's number") {
  std::string base = saggar::choosing::testing::kTollivane;
  const std::string name = "    - rule: decoration code\n";
  base.replace(base.find(name), name.size(), name + "      unlike: {\"LV 13\": a gilder's tally}\n");
  CHECK(Planted(piece("  treatment: lv-12\n  code-seen: LV 13\n"), {}, base).found == "");
  const Planted bad(decoration("new", "linnavere", "none", "LV 13", "{edge-line: none}", "1939"), {}, base);
  CHECK(bad.found == "planted.yaml:4 error code-unread");
  CHECK(bad.messages.find("a gilder's tally") != std::string::npos);
}

TEST_CASE("of ware whose maker has no rules there is nothing to say") {
  const std::string other =
      "- maker: brathermoor\n  cite:\n    - books: rivals\n- shape: octagon\n  maker: brathermoor\n  look: "
      "{handle: ring}\n  cite:\n    - books: rivals\n";
  CHECK(
      Planted(other +
              "- treatment: t\n  shape: octagon\n  motif: none\n  code: 12 B\n  cite:\n    - books: rivals\n")
          .found == "");
}

TEST_CASE("one sign wrong anywhere in the rules: findings, and nothing worse") {
  const std::string base = saggar::choosing::testing::kTollivane;
  const std::size_t rules = base.find("- maker: orvenholt");
  const std::string piece =
      "- specimen: new\n  treatment: jm-203\n  code-seen: JM-2?3-C/1\n  date-code: [U3?1, T3??]\n";
  std::mt19937 random(7);
  const std::string signs = " :-{}[]\"'?#,.\n\t0Az%&*!|>\xC3";
  std::size_t found = 0;
  for (int round = 0; round < 600; ++round) {
    std::string edited = base;
    const std::size_t at = random() % rules;
    switch (random() % 3) {
      case 0: edited[at] = signs[random() % signs.size()]; break;
      case 1: edited.erase(at, 1 + random() % 3); break;
      default: edited.insert(at, 1, signs[random() % signs.size()]);
    }
    CAPTURE(at);
    const Planted planted(piece, {}, edited);
    found += planted.report.findings.size();
    for (const auto& one : planted.report.findings) {
      CHECK(one.span.known());
      CHECK(one.span.begin <= one.span.end);
      CHECK_FALSE(one.message.empty());
    }
  }
  CHECK(found > 300);
}

TEST_CASE("one code on three pieces that nothing reads is one finding, naming them all") {
  auto bears = [](const std::string& id, const std::string& code) {
    return "- specimen: " + id + "\n  treatment: jm-203\n  form: plate-7\n  date-code: " + code + "\n";
  };
  const Planted bad(bears("one", "5654") + bears("two", "5654") + bears("three", "5654"));
  CHECK(bad.found == "planted.yaml:4 note code-unread");
  CHECK(bad.only().message.ends_with("here is \"54\"; 3 pieces bear it"));
  CHECK(bad.only().records == std::vector<std::string>{"specimen:one", "specimen:two", "specimen:three"});
  REQUIRE(bad.only().related.size() == 3);
  CHECK(bad.only().related[1].message == "it stands on specimen:two too");
  CHECK(bad.only().facts.size() == 3);
  CHECK(Planted(bears("one", "5654") + bears("two", "5655")).found ==
        "planted.yaml:4 note code-unread\nplanted.yaml:8 note code-unread");
  const std::string waiver =
      "guide: G\nwaivers:\n  - rule: code-unread\n    records: [specimen:one, specimen:two]\n    because: a "
      "dealer's own number\n";
  CHECK(Planted(bears("one", "5654") + bears("two", "5654"), waiver).found ==
        "planted.yaml:4 note code-unread waived");
}
