#include <sstream>

#include "choosing/query.h"
#include "choosing/range.h"
#include "guide.h"

using namespace saggar;
using namespace saggar::choosing;
using saggar::choosing::testing::Guide;
using saggar::choosing::testing::kRecords;

namespace {

// "rule at `what is marked`: message | hint", one a line.
std::string shown(const diagnostics::Findings& findings, std::string_view text) {
  std::string all;
  for (const diagnostics::Finding& one : findings.all()) {
    if (!all.empty()) all += '\n';
    const bool inside = one.span.end <= text.size() && one.span.begin <= one.span.end;
    all += std::string(one.rule.id()) + " at `" +
           (inside ? std::string(text.substr(one.span.begin, one.span.end - one.span.begin)) : "?") +
           "`: " + one.message + " | " + one.hint;
  }
  return all;
}

// The same for a condition on treatments, or another kind.
std::string wrong(std::string_view braces, Kind kind = Kind::treatment) {
  Guide guide(kRecords);
  guide.condition(braces, kind);
  const std::string text = "- checklist: c\n  show: " + std::string(records::name(kind)) +
                           "\n  where: " + std::string(braces) + "\n";
  return shown(guide.conditionFindings, text);
}

std::string wrongQuery(std::string_view yaml, Kind kind = Kind::treatment) {
  Guide guide(kRecords);
  diagnostics::Findings findings;
  const reading::FileTextMap places(0);
  readQuery(yaml, places, kind, guide.collection, findings);
  return shown(findings, yaml);
}

}  // namespace

TEST_CASE("keys that are no path") {
  CHECK(wrong("{shpae: round}") ==
        "field-unknown at `shpae`: a treatment has no field `shpae` | did you mean `shape`?");
  CHECK(wrong("{shape.mkaer: ambry}") ==
        "field-unknown at `mkaer`: a shape has no field `mkaer` | did you mean `shape.maker`?");
  CHECK(wrong("{\"shape.mkaer\": ambry}") ==
        "field-unknown at `mkaer`: a shape has no field `mkaer` | did you mean `shape.maker`?");
  CHECK(wrong("{shape: {mkaer: ambry}}") ==
        "field-unknown at `mkaer`: a shape has no field `mkaer` | did you mean `maker`?");
  CHECK(wrong("{kept: shelf 3}").starts_with("field-unknown at `kept`: `kept` is private"));
  CHECK(wrong("{or: [{shape: round}]}") ==
        "field-unknown at `or`: a treatment has no field `or` | alternatives go under `any:`, a list: `any: "
        "[{…}, {…}]`");
  CHECK(wrong("{all: [{shape: round}]}")
            .ends_with("several keys are all required as they are: write them one below the other"));
  CHECK(wrong("{not: {motif.suplier: cole}}") ==
        "field-unknown at `suplier`: a motif has no field `suplier` | did you mean `motif.supplier`?");
}

TEST_CASE("values that do not fit what the path reaches") {
  CHECK(wrong("{shape: runod}") ==
        "reference-missing at `runod`: there is no shape `runod` | did you mean `round`?");
  CHECK(wrong("{shape: [round, motif:rose]}") ==
        "value-unfit at `motif:rose`: `shape` cannot name a motif | it takes the id of a shape");
  CHECK(wrong("{shape: shap:round}") ==
        "value-unfit at `shap:round`: `shap` is no kind of record | did you mean `shape:round`?");
  CHECK(wrong("{status: smaple}") ==
        "value-unfit at `smaple`: `smaple` is no value of `status` | did you mean `sample`?");
  CHECK(wrong("{met: daily}") ==
        "value-unfit at `daily`: `daily` is no value of `met` | it takes `often`, `sometimes`, `rarely` or "
        "`once`");
  CHECK(wrong("{look.edge: godl}")
            .starts_with(
                "value-unfit at `godl`: `godl` is no value of the feature `edge` | did you mean `gold`?"));
  CHECK(wrong("{look.edge: bronze}").ends_with("| its values are `gold`, `silver` or `none`"));
  CHECK(wrong("{look: gold}") ==
        "value-unfit at `gold`: `look` has features, and one must be named | write `look.FEATURE: gold`");
  CHECK(wrong("{more: hard}") ==
        "value-unfit at `hard`: `more` has headings, and one must be named | write `more.Heading: hard`");
  CHECK(wrong("{code: {letter: A}}") ==
        "value-unfit at `{letter: A}`: `code` takes a plain value, here is a mapping | write the value "
        "itself, or a list of values");
  CHECK(wrong("{code: [[RD-1]]}")
            .starts_with("value-unfit at `[RD-1]`: a list stands inside the list of `code`"));
  CHECK(wrong("{code: []}").starts_with("value-unfit at `[]`: this list is empty"));
  CHECK(wrong("{number: three}", Kind::talk) ==
        "value-unfit at `three`: `number` takes a number or a range of numbers, here is `three` | write `3`, "
        "or `3 to 5`");
  CHECK(wrong("{number: 5 to 3}", Kind::talk).starts_with("value-unfit at `5 to 3`"));
  CHECK(wrong("{budget: 28}", Kind::talk).starts_with("value-unfit at `28`: `budget` takes a time"));
  CHECK(wrong("{nominal: seven}", Kind::form) ==
        "value-unfit at `seven`: `seven` is no measure and no range of measures | write `7 in`, or `7 in to "
        "9 in`, the smaller first");
  CHECK(wrong("{nominal: 7 in to 24 fl oz}", Kind::form).starts_with("value-unfit at `7 in to 24 fl oz`"));
  CHECK(wrong("{sure: perhaps}", Kind::checklist)
            .starts_with("value-unfit at `perhaps`: `sure` is `yes` or `no`"));
  CHECK(wrong("{test: known, where: x}", Kind::checklist).starts_with("field-unknown at `test`"));
  CHECK(wrong("{where: x}", Kind::checklist)
            .starts_with("value-unfit at `x`: nothing can be chosen by what stands in `where`"));
  CHECK(wrong("{about: rode}", Kind::claim)
            .starts_with("reference-missing at `rode`: there is no record `rode` | did you mean"));
}

TEST_CASE("dates that cannot be read, at the place in them") {
  CHECK(wrong("{introduced: 1932-13}").starts_with("date-unreadable at `13`"));
  CHECK(wrong("{introduced: [1932, sometime]}").starts_with("date-unreadable at `sometime`"));
}

TEST_CASE("combinations typed otherwise than they are taken") {
  CHECK(
      wrong("{not: round}") ==
      "value-unfit at `round`: `not` takes a condition of its own | write it as `not: {shape: jessamount}`");
  CHECK(wrong("{not: [{shape: round}]}").ends_with("write `not: {any: [{…}, {…}]}`"));
  CHECK(wrong("{any: {shape: round}}")
            .starts_with("value-unfit at `{shape: round}`: `any` takes a list of conditions"));
  CHECK(wrong("{any: [round]}")
            .starts_with("value-unfit at `round`: an alternative of `any` is a condition, here is `round`"));
  CHECK(wrong("round").starts_with("value-unfit at `round`: `where` takes a condition"));
  CHECK(
      wrong("[{shape: round}]").starts_with("value-unfit at `[{shape: round}]`: `where` takes a condition"));
  CHECK(wrongQuery("where: round")
            .starts_with("value-unfit at `round`: a condition is a mapping of fields to values, here is a "
                         "plain value"));
  CHECK(wrongQuery("where: [{shape: round}]")
            .starts_with("value-unfit at `[{shape: round}]`: a condition is a mapping of fields to values, "
                         "here is a list"));
}

TEST_CASE("a condition that asks for nothing") {
  CHECK(wrong("{not: {}}").starts_with("value-unfit at `{}`: nothing is asked for here"));
  CHECK(wrong("{any: [{}, {shape: round}]}").starts_with("value-unfit at `{}`: nothing is asked for here"));
  CHECK(wrong("{shape: {}}").starts_with("value-unfit at `{}`: nothing is asked for here"));
  CHECK(wrong("{}").empty());
}

TEST_CASE("what is wrong is left out, the rest holds") {
  Guide guide(kRecords);
  const Condition condition = guide.condition(
      "{shpae: square, motif: rose, any: [{x: y}], look.edge: [bronze, gold]}", Kind::treatment);
  CHECK(guide.conditionFindings.all().size() == 3);
  CHECK(condition.of(guide.at("treatment:t1"), guide.collection, *guide.own) == Answer::yes);
  CHECK(condition.of(guide.at("treatment:t2"), guide.collection, *guide.own) == Answer::no);
  CHECK(guide.condition("{shpae: square}", Kind::treatment).always());
}

TEST_CASE("a reference to a record that could not be read is not missing") {
  Guide guide(
      "- shape: broken\n  name: \"open\n- motif: m\n  name: M\n- treatment: t\n  motif: m\n- shpae: lost\n  "
      "name: Lost\n");
  guide.condition("{shape: lost}", Kind::treatment);
  CHECK(guide.conditionFindings.empty());
  guide.condition("{shape: other}", Kind::treatment);
  CHECK(guide.conditionFindings.all().size() == 1);
}

TEST_CASE("ids that could be two records") {
  Guide guide("- shape: rose\n- motif: rose\n- claim: c\n  says: Yes.\n  about: [shape:rose]\n");
  guide.condition("{about: rose}", Kind::claim);
  REQUIRE(guide.conditionFindings.all().size() == 1);
  CHECK(guide.conditionFindings.all()[0].rule.id() == "reference-ambiguous");
  CHECK(guide.conditionFindings.all()[0].message == "`rose` could be `shape:rose` or `motif:rose`");
  CHECK(guide.ask("{about: shape:rose}", "claim:c") == "yes");
}

TEST_CASE("ranges") {
  CHECK(readRange("3")->high == 3);
  CHECK(readRange("3 to 5")->low == 3);
  CHECK(readRange("3 to 5")->has(5));
  for (const char* text : {"", "3-5", "to 5", "3 to", "5 to 3", "-1", "3 to 5 to 7", "99999999999999999999"})
    CHECK_FALSE(readRange(text));
  CHECK(readTimeRange("1:05:30")->low == 3930);
  for (const char* text : {"", "6", "6:0", "6:60", "a:00", "6:00 to 5:00"}) CHECK_FALSE(readTimeRange(text));
  CHECK(readMeasureRange("7 to 9 in")->has(*records::readMeasure("8 in")));
  CHECK(readMeasureRange("7 to 9⅛ in")->has(*records::readMeasure("9 1/8 in")));
  CHECK(readMeasureRange("7 in to 230 mm")->has(*records::readMeasure("8 in")));
  for (const char* text : {"", "in", "7", "7 to 9", "9 in to 7 in", "7 in to 36s", "3 x 4 in to 5 in"})
    CHECK_FALSE(readMeasureRange(text));
}

TEST_CASE("the YAML of a block") {
  Guide guide(kRecords);
  diagnostics::Findings findings;
  const reading::NoTextMap nowhere;
  const Query query = readQuery(
      "where: {shape: round}\nsure: yes\nin-order-of: [introduced, code]\ngrouped: shape\ncolumns: [code, "
      "Picture: motif.name]\ntitle: On Round\n",
      nowhere, Kind::treatment, guide.collection, findings);
  CHECK(findings.empty());
  CHECK(guide.ids(guide.chooser->choose(query.kind, query.where, query.sure)) == "t1 t2 t5");
  CHECK(query.sure);
  CHECK(query.inOrderOf.size() == 2);
  CHECK(query.grouped.text() == "shape");
  REQUIRE(query.columns.size() == 2);
  CHECK(query.columns[0].heading == "");
  CHECK(query.columns[1].heading == "Picture");
  CHECK(query.columns[1].path.text() == "motif.name");
  CHECK(query.title == "On Round");
  const Query empty = readQuery("# everything\n", nowhere, Kind::treatment, guide.collection, findings);
  CHECK(findings.empty());
  CHECK(empty.where.always());
  const Query mapped = readQuery("columns: {Number: code, Motif: motif}\nin-order-of: code\n", nowhere,
                                 Kind::treatment, guide.collection, findings);
  CHECK(findings.empty());
  REQUIRE(mapped.columns.size() == 2);
  CHECK(mapped.columns[0].heading == "Number");
}

TEST_CASE("what is wrong in a block, where it stands") {
  CHECK(wrongQuery("shape: round") ==
        "field-unknown at `shape`: a block has no key `shape` | a condition goes under `where`: write "
        "`where: {shape: round}`");
  CHECK(wrongQuery("shape.maker: [ambry]").ends_with("write `where: {shape.maker: …}`"));
  CHECK(wrongQuery("wheer: {shape: round}").ends_with("did you mean `where`?"));
  CHECK(wrongQuery("quantity: 3") ==
        "field-unknown at `quantity`: a block has no key `quantity` | it takes `where`, `sure`, "
        "`in-order-of`, `grouped`, `columns` and `title`");
  CHECK(wrongQuery("where: {shape: runod}") ==
        "reference-missing at `runod`: there is no shape `runod` | did you mean `round`?");
  CHECK(wrongQuery("in-order-of: intorduced") ==
        "field-unknown at `intorduced`: a treatment has no field `intorduced` | did you mean `introduced`?");
  CHECK(wrongQuery("columns: [code, Motif: motif.nmae]") ==
        "field-unknown at `nmae`: a motif has no field `nmae` | did you mean `motif.name`?");
  CHECK(wrongQuery("grouped: [shape, motif]")
            .starts_with("value-unfit at `[shape, motif]`: `grouped` takes one field"));
  CHECK(wrongQuery("sure: maybe").starts_with("value-unfit at `maybe`: `sure` is `yes` or `no`"));
  CHECK(wrongQuery("- shape").starts_with("value-unfit at `"));
  CHECK(wrongQuery("round").starts_with(
      "value-unfit at `round`: what a block lists is said by keys, here is a plain text"));
  CHECK(wrongQuery("where: {shape: round").starts_with("yaml-broken"));
  CHECK(wrongQuery("where: \xFF").starts_with("text-unfit"));
}

TEST_CASE("places in a block are those of the prose file") {
  Guide guide(kRecords);
  const std::string file = "# Head\n\n> ```treatments\n> where:\n>   shape: runod\n> ```\n";
  const std::string yaml = "where:\n  shape: runod\n";
  const auto begin = static_cast<std::uint32_t>(file.find("> where"));
  const reading::LinesTextMap places(file, {7, begin, static_cast<std::uint32_t>(file.rfind("> ```"))}, yaml);
  diagnostics::Findings findings;
  readQuery(yaml, places, Kind::treatment, guide.collection, findings);
  REQUIRE(findings.all().size() == 1);
  CHECK(findings.all()[0].span.file == 7);
  CHECK(file.substr(findings.all()[0].span.begin, 5) == "runod");
}

TEST_CASE("all conditions and paths of a guide") {
  const std::string text = std::string(kRecords) + R"(
- maker: eave
  name: Eave
  codes:
    - rule: one
      where: {shape: runod}
      written: NUMBER
      parts: {NUMBER: 1 to 9}
    - rule: two
      on: specimen.date-code
      where: {seen.how: in-hand, form: plaet}
      written: NUMBER
      parts: {NUMBER: 1 to 9}
    - rule: three
      on: registered
      where: {maker: ambry, name: Rose}
      written: NUMBER
      parts: {NUMBER: 1 to 9}
- claim: tested
  says: Something.
  test:
    - every: shape
      where: {maekr: ambry}
      has: {look.edge: godl}
    - count: shape
      where: {maker: ambry}
      makes: few
    - same: [shape:round, shape:sqaure, look.edge]
    - differ: [shape:round, shape:square, nmae]
    - same: [shape:round, maker]
    - every: shape
      where: {maker: ambry}
    - count: shape
    - {no: shape, some: shape, has: {maker: ambry}}
- checklist: l
  title: L
  show: treatment
  where: {motif: roes}
  grouped: shpae
  in-order-of: [code, intorduced]
  columns: [code, Maker: shape.maekr]
)";
  const std::string yaml = R"(guide: Test
by: Nobody
edition: 1
contents:
  - division: One
    holds:
      - prose/a.md
      - a-chapter-for-every: shape
        where: {maker: amrby}
        in-order-of: intorduced
      - a-chapter-for-every: shapes
)";
  Guide guide(text, yaml);
  CHECK(guide.faults() == "");
  diagnostics::Findings findings;
  checkConditions(guide.collection, findings);
  std::string all;
  for (const diagnostics::Finding& one : findings.all())
    all += one.record + " " + one.field + " `" + std::string(guide.collection.sources().text(one.span)) +
           "` " + one.hint + '\n';
  CHECK(all == R"(maker:eave codes `runod` did you mean `round`?
maker:eave codes `plaet` did you mean `plate`?
claim:tested test `maekr` did you mean `maker`?
claim:tested test `godl` did you mean `gold`?
claim:tested test `few` write `1`, or `3 to 5`
claim:tested test `shape:sqaure` did you mean `shape:square`?
claim:tested test `nmae` did you mean `name`?
claim:tested test `[shape:round, maker]` write it as `same: [shape:linnavere, shape:sorrendale, maker]`
claim:tested test `shape` add `has: {…}`, as `has: {look.finial: slot}`
claim:tested test `shape` add `makes: 3`, or a range: `makes: 3 to 5`
claim:tested test `shape` write two tests, each as an item of its own
checklist:l where `roes` did you mean `rose`?
checklist:l grouped `shpae` did you mean `shape`?
checklist:l in-order-of `intorduced` did you mean `introduced`?
checklist:l columns `maekr` did you mean `shape.maker`?
 contents `amrby` did you mean `ambry`?
 contents `intorduced` did you mean `introduced`?
 contents `shapes` did you mean `shape`?
)");
}
