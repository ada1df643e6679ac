#include "code_guide.h"

using saggar::checks::testing::decoration;
using saggar::checks::testing::Planted;

TEST_CASE("one number that stands for two motifs, though the whole codes differ") {
  const std::string wren =
      decoration("jm-203-wren", "jessamount", "wren-and-medlar", "JM-203-D/1", "{edge-line: gold}", "1941");
  const Planted bad(wren);
  CHECK(bad.found == "planted.yaml:4 error code-shared");
  CHECK(bad.only().message ==
        "`JM-203` stands for more than one motif: `jm-203` (Gooseberry Wreath) and `jm-203-wren` (Wren and "
        "Medlar)");
  CHECK(bad.only().records == std::vector<std::string>{"treatment:jm-203", "treatment:jm-203-wren"});
  CHECK(bad.only().related.size() == 1);

  const std::string waiver =
      "guide: Small\nwaivers:\n  - rule: code-shared\n    records: [treatment:jm-203, "
      "treatment:jm-203-wren]\n    because: An open question.\n";
  CHECK(Planted(wren, waiver).found == "planted.yaml:4 error code-shared waived");
  // A third under the number brings it back.
  const std::string third =
      decoration("jm-203-posy", "jessamount", "none", "JM-203-B/0", "{edge-line: none}", "1942");
  CHECK(Planted(wren + third, waiver).found ==
        "guide.yaml:3 warning waiver-unused\nplanted.yaml:12 error code-shared");
  CHECK(Planted(wren + third).only().records ==
        std::vector<std::string>{"treatment:jm-203", "treatment:jm-203-wren", "treatment:jm-203-posy"});
}

TEST_CASE("one motif may have its number in several price groups and linings") {
  CHECK(
      Planted(decoration("new", "jessamount", "gooseberry-wreath", "JM-203-B/0", "{edge-line: none}", "1939"))
          .found == "");
}

TEST_CASE("the same code on another shape, or with another look") {
  const std::string old =
      decoration("new", "[linnavere]", "none", "1422", "{edge-line: gold, verge-line: none}", "1911");
  CHECK(
      Planted(decoration("new", "orrinstead", "none", "1422", "{edge-line: gold, verge-line: none}", "1911"))
          .found == "planted.yaml:4 error code-shared");
  const Planted look(
      decoration("new", "orrinstead", "none", "1422", "{edge-line: gold, verge-line: none}", "1911"));
  CHECK(look.only().message ==
        "`1422` stands for more than one decoration: `od-1422` (no motif) and `new` (no motif), which differ "
        "in verge-line");
  const std::string shape =
      "- shape: hollinstane\n  maker: wesperling\n  introduced: 1899\n  withdrawn: 1919\n  look: {outline: "
      "scalloped, handle: looped}\n  cite:\n    - books: vol. 1\n";
  const Planted other(shape + decoration("new", "hollinstane", "none", "1422", "{edge-line: gold}", "1911"));
  CHECK(other.found == "planted.yaml:11 error code-shared");
  CHECK(other.messages.find("which differ in shape") != std::string::npos);
  // Several differences between the same two are one finding.
  const Planted both(
      shape + decoration("new", "hollinstane", "barrow-of-blooms", "1422", "{edge-line: none}", "1911") +
      "  note: dated wrong\n");
  CHECK(both.found.find("code-shared") == both.found.rfind("code-shared"));
}

TEST_CASE("what is not recorded, doubted or varies tells nothing apart") {
  auto shared = [](const std::string& motif, const std::string& look) {
    const std::string found = Planted(decoration("new", "orrinstead", motif, "1422", look, "1911")).found;
    return found.find("code-shared") != std::string::npos;
  };
  CHECK(shared("none", "{edge-line: none}"));
  CHECK_FALSE(shared("none", "{verge-line: [gold, none]}"));
  CHECK_FALSE(shared("none", "{verge-line: unknown}"));
  CHECK_FALSE(shared("none", "{verge-line: {is: none, doubted: worn}}"));
  CHECK_FALSE(shared("unknown", "{edge-line: gold}"));
  CHECK(shared("{is: barrow-of-blooms, cite: books}", "{edge-line: gold}"));
}

TEST_CASE("the same text under two makers is no shared code") {
  const std::string other =
      "- maker: brathermoor\n  codes:\n    - {rule: number, written: N, parts: {N: 1 to 9999}}\n  cite:\n    "
      "- books: rivals\n"
      "- shape: octagon\n  maker: brathermoor\n  look: {handle: ring}\n  cite:\n    - books: rivals\n";
  CHECK(Planted(other + decoration("new", "octagon", "none", "1422", "{edge-line: none}", "1911")).found ==
        "");
}

TEST_CASE("codes are the same whatever their case and dashes") {
  CHECK(
      Planted(decoration("new", "jessamount", "barrow-of-blooms", "jm–061–C/1", "{edge-line: gold}", "1935"))
          .found == "planted.yaml:4 error code-shared");
}
