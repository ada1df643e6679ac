#include <sstream>

#include "guide.h"

using namespace saggar;
using namespace saggar::choosing;
using saggar::choosing::testing::Guide;
using saggar::choosing::testing::kRecords;

namespace {

// Lines of `record | condition | answer`.
void table(Guide& guide, const char* rows) {
  std::istringstream lines(rows);
  std::string line;
  int count = 0;
  while (std::getline(lines, line)) {
    std::vector<std::string> cells;
    std::size_t at = 0;
    for (std::size_t bar = line.find(" | "); bar != std::string::npos; bar = line.find(" | ", at)) {
      cells.push_back(line.substr(at, bar - at));
      at = bar + 3;
    }
    cells.push_back(line.substr(at));
    if (cells.size() != 3) continue;
    for (std::string& cell : cells) {
      while (!cell.empty() && cell.front() == ' ') cell.erase(0, 1);
      while (!cell.empty() && cell.back() == ' ') cell.pop_back();
    }
    CAPTURE(line);
    CHECK(guide.ask(cells[1], cells[0]) == cells[2]);
    ++count;
  }
  CHECK(count > 3);
}

}  // namespace

TEST_CASE("the guide of these tests has no fault of its own") {
  Guide guide(kRecords);
  CHECK(guide.faults() == "");
}

TEST_CASE("a value, any of a list, what is not recorded") {
  Guide guide(kRecords);
  table(guide, R"(
    treatment:t1 | {shape: round} | yes
    treatment:t1 | {shape: square} | no
    treatment:t1 | {shape: shape:round} | yes
    treatment:t1 | {shape: [square, round]} | yes
    treatment:t1 | {shape: [square, third]} | no
    treatment:t1 | {motif: rose, shape: round} | yes
    treatment:t1 | {motif: fern, shape: round} | no
    treatment:t3 | {for: brock} | maybe
    treatment:t5 | {motif: rose} | maybe
    treatment:t2 | {motif: rose} | no
    treatment:t5 | {for: ambry} | no
    treatment:t1 | {for: brock, shape: square} | no
    treatment:t1 | {for: brock, shape: round} | maybe
    treatment:t1 | {} | yes
    maker:ambry | {name: AMBRY & SONS} | yes
    maker:ambry | {name: Ambry} | no
    shape:fourth | {name: CAFÉ} | yes
    shape:fourth | {name: CAFÉ} | yes
    treatment:t3 | {code: RD-10} | maybe
    treatment:t1 | {code: rd-10} | yes
    specimen:s3 | {code-seen: 203} | no
    specimen:s3 | {code-seen: 0203} | yes
    treatment:t1 | {id: t1} | yes
    treatment:t1 | {id: [t2, treatment:t1]} | yes
    treatment:t1 | {id: t2} | no
  )");
}

TEST_CASE("a look that varies is yes if one fits, and no if none does") {
  Guide guide(kRecords);
  table(guide, R"(
    shape:round | {look.edge: gold} | yes
    shape:round | {look.edge: silver} | yes
    shape:square | {look.edge: silver} | maybe
    shape:square | {look.outline: round} | no
    shape:fourth | {look.outline: round} | maybe
    treatment:t3 | {look.edge: gold} | maybe
    treatment:t2 | {look.edge: gold} | no
    treatment:t2 | {look.edge: none} | yes
    treatment:t2 | {look.edge: "none"} | yes
    treatment:t1 | {look.edge: "none"} | no
    treatment:t4 | {look.edge: "none"} | maybe
    treatment:t4 | {look.edge: none} | no
    treatment:t3 | {look.edge: unknown} | yes
    treatment:t4 | {look.edge: unknown} | no
    shape:round | {look: {outline: round, edge: silver}} | yes
    shape:round | {look: {outline: square, edge: silver}} | no
    shape:round | {look: known} | yes
    shape:fourth | {look: known} | no
    shape:fourth | {look: absent} | yes
    shape:round | {look.edge: [gold, "none"]} | yes
  )");
}

TEST_CASE("none, unknown, known and absent never give maybe") {
  Guide guide(kRecords);
  table(guide, R"(
    treatment:t1 | {motif: known} | yes
    treatment:t1 | {motif: none} | no
    treatment:t1 | {motif: unknown} | no
    treatment:t1 | {motif: absent} | no
    treatment:t2 | {motif: known} | no
    treatment:t2 | {motif: none} | yes
    treatment:t2 | {motif: unknown} | no
    treatment:t2 | {motif: absent} | no
    treatment:t5 | {motif: known} | no
    treatment:t5 | {motif: none} | no
    treatment:t5 | {motif: unknown} | yes
    treatment:t5 | {motif: absent} | no
    treatment:t5 | {motif: [none, unknown]} | yes
    shape:fourth | {maker: known} | no
    shape:fourth | {maker: none} | no
    shape:fourth | {maker: unknown} | no
    shape:fourth | {maker: absent} | yes
    shape:fourth | {maker.place: absent} | yes
    shape:third | {maker.place: unknown} | yes
    treatment:t2 | {motif.supplier: none} | yes
    treatment:t3 | {motif.supplier: unknown} | yes
    treatment:t5 | {motif.supplier: known} | no
    specimen:s2 | {marks: none} | yes
    specimen:s1 | {marks: none} | no
    specimen:s3 | {marks: absent} | yes
    shape:round | {withdrawn: none} | yes
    shape:round | {withdrawn: 1950} | no
    shape:square | {withdrawn: none} | no
    treatment:t1 | {motif: [none, rose]} | yes
    treatment:t5 | {motif: [none, rose]} | maybe
    shape:round | {not: {maker: known}} | no
    shape:round | {name: "known"} | no
  )");
}

TEST_CASE("a member of a list is yes, a missing one maybe, and no only if the list is complete") {
  Guide guide(kRecords);
  table(guide, R"(
    maker:brock | {trade: retailer} | yes
    maker:brock | {trade: wholesaler} | maybe
    maker:dunn | {trade: wholesaler} | yes
    maker:dunn | {trade: pottery} | no
    maker:ambry | {trade: retailer} | no
    treatment:t2 | {shape: third} | maybe
    treatment:t5 | {shape: third} | no
    treatment:t5 | {shape: square} | yes
    treatment:t2 | {code: RD-30} | yes
    treatment:t2 | {code: RD-31} | maybe
    treatment:t1 | {code: RD-31} | no
    specimen:s1 | {marks: k2} | yes
    specimen:s2 | {marks: k2} | no
    mark:k1 | {shapes: round} | yes
    mark:k1 | {shapes: square} | maybe
    mark:k2 | {shapes: square} | maybe
    treatment:t2 | {shape.maker: brock} | yes
    treatment:t2 | {shape.maker: cole} | maybe
    treatment:t5 | {shape.maker: cole} | no
    treatment:t2 | {shape: {name: Round, maker: brock}} | maybe
    treatment:t5 | {shape: {name: Round, maker: brock}} | no
    treatment:t2 | {shape: {name: Round, maker: ambry}} | yes
    claim:c1 | {about: motif:rose} | yes
    claim:c1 | {about: motif:fern} | maybe
    claim:c2 | {about: motif:fern} | no
    claim:c1 | {about: rose} | yes
  )");
}

TEST_CASE("a moment is yes within, no outside, else maybe") {
  Guide guide(kRecords);
  table(guide, R"(
    shape:round | {introduced: 1932} | yes
    shape:round | {introduced: 1930s} | yes
    shape:round | {introduced: 1932-05} | maybe
    shape:round | {introduced: ../1932} | yes
    shape:round | {introduced: ../1931} | no
    shape:round | {introduced: by 1940} | yes
    shape:round | {introduced: 1933/..} | no
    shape:round | {introduced: from 1932} | yes
    shape:round | {introduced: 1930 to 1940} | yes
    shape:square | {introduced: 1936/1938} | yes
    shape:square | {introduced: 1938/1940} | maybe
    shape:square | {introduced: 1939/1940} | no
    shape:square | {introduced: [1936, 1937/1938]} | yes
    shape:square | {introduced: [1936, 1938]} | maybe
    shape:third | {introduced: 1933} | no
    shape:third | {introduced: 1932/1934} | yes
    shape:third | {introduced: [1932, 1934]} | yes
    shape:third | {introduced: 1932} | maybe
    shape:third | {introduced: "[1932,1934]"} | yes
    shape:fourth | {introduced: 1932} | maybe
    treatment:t2 | {introduced: ../1935} | yes
    treatment:t2 | {introduced: 1930/1935} | maybe
    treatment:t2 | {introduced: 1936/..} | no
    treatment:t1 | {introduced: known} | yes
    specimen:s1 | {seen.on: 2019} | yes
    specimen:s1 | {seen: 2019} | yes
    specimen:s1 | {seen: 2020} | no
    specimen:s2 | {seen: 2020} | yes
    specimen:s2 | {seen: 2017} | maybe
    specimen:s3 | {seen: ../2020} | no
  )");
}

TEST_CASE("a span is yes if it surely overlaps") {
  Guide guide(kRecords);
  table(guide, R"(
    mark:k1 | {used: 1930} | yes
    mark:k1 | {used: ../1924} | no
    mark:k1 | {used: 1952/..} | no
    mark:k1 | {used: 1951} | yes
    mark:k1 | {used: 1951-12} | maybe
    mark:k2 | {used: 1990} | yes
    mark:k2 | {used: 1936} | no
    maker:ambry | {active: 1900/1910} | yes
    maker:brock | {active: 1900} | yes
    maker:cole | {active: 1900} | maybe
    maker:brock | {active: 1899} | no
  )");
}

TEST_CASE("an end that is an event is as late as that event's record says") {
  Guide guide(R"(
- shape: a
  introduced: 1932
- shape: b
  introduced: ../shape:a
- shape: c
  introduced: shape:a/1940
- shape: loop
  introduced: ../shape:loop
- mark: m
  used: shape:a/mark:n
- mark: n
  used: 1950/1955
)");
  CHECK(guide.faults() == "");
  table(guide, R"(
    shape:b | {introduced: 1933/..} | no
    shape:b | {introduced: ../1932} | yes
    shape:c | {introduced: 1932/1940} | yes
    shape:c | {introduced: ../1931} | no
    shape:loop | {introduced: 1932} | maybe
    mark:m | {used: 1940} | yes
    mark:m | {used: ../1931} | no
  )");
}

TEST_CASE("numbers, times and measures match a value or a range") {
  Guide guide(kRecords);
  table(guide, R"(
    talk:t | {number: 3} | yes
    talk:t | {number: 3 to 5} | yes
    talk:t | {number: 4 to 5} | no
    talk:t | {number: [1, 3]} | yes
    talk:t | {budget: 28:00} | yes
    talk:t | {budget: 20:00 to 30:00} | yes
    talk:t | {pace: 130} | maybe
    talk:t | {segments.time: 2:00} | yes
    form:plate | {nominal: 7 in} | yes
    form:plate | {nominal: 178 mm} | yes
    form:plate | {nominal: 179 mm} | no
    form:plate | {nominal: 7 in to 9 in} | yes
    form:plate | {actual: 7 to 9 1/4 in} | yes
    form:plate | {actual: 7 in to 9 in} | no
    form:plate | {actual: 23 cm to 24 cm} | yes
    form:plate | {actual: 24 fl oz} | no
    form:teapot | {holds: 24 fl oz} | yes
    form:teapot | {holds: 709 ml} | yes
    form:teapot | {holds: 1 l to 2 l} | no
    form:teapot | {nominal: 7 in} | maybe
    form:platter | {actual: 12 in} | yes
    form:platter | {actual: 9 in} | no
    form:platter | {actual: 12 x 9 in} | yes
    form:platter | {actual: 12 x 8 in} | no
    form:cup | {nominal: 36s} | yes
    form:cup | {nominal: 42s to 30s} | yes
    form:cup | {nominal: 3 in} | no
    specimen:s1 | {size: 9 in to 9 1/4 in} | yes
  )");
}

TEST_CASE("a choice that is left out is the first of its list") {
  Guide guide(kRecords);
  table(guide, R"(
    treatment:t1 | {status: production} | yes
    treatment:t1 | {status: [sample, premium]} | no
    treatment:t2 | {status: production} | no
    claim:c1 | {status: held} | yes
    claim:c2 | {status: held} | no
    claim:c1 | {status: absent} | yes
    claim:c1 | {status: known} | yes
    claim:c2 | {status: absent} | no
    claim:c1 | {status: held, change: absent} | yes
    claim:c2 | {change: known} | yes
    claim:c1 | {change: erratum} | maybe
    specimen:s1 | {seen.how: in-hand} | yes
    specimen:s2 | {seen.how: in-hand} | maybe
    specimen:s2 | {seen.how: reported} | yes
    specimen:s3 | {seen.how: in-hand} | yes
    form:plate | {measured: overall} | yes
    talk:t | {segments.keep: must} | yes
  )");
}

TEST_CASE("mappings in a record: their first field, their parts, and several parts of one") {
  Guide guide(kRecords);
  table(guide, R"(
    specimen:s1 | {marks.at: beside it} | yes
    specimen:s1 | {marks: {mark: k2, at: beside it}} | yes
    specimen:s1 | {marks: {mark: k1, at: beside it}} | maybe
    specimen:s1 | {marks.maker: ambry} | yes
    specimen:s1 | {marks.mark.maker: brock} | yes
    specimen:s2 | {seen: {on: 2018, how: photograph}} | yes
    specimen:s2 | {seen: {on: 2018, how: reported}} | maybe
    specimen:s2 | {marks.at: beside it} | no
    specimen:s1 | {seen.by: anna} | yes
    specimen:s1 | {seen: {how: in-hand, by: Anna}} | yes
    shape:fourth | {more.Body: Hard and white} | yes
    shape:fourth | {more.body: hard} | no
    shape:fourth | {more.No. 9: in pencil} | yes
    shape:round | {more.Body: hard} | maybe
    feature:edge | {values: gold} | yes
    feature:edge | {values.gold: a gold line} | yes
    feature:edge | {values.bronze: known} | no
    feature:edge | {of: shape} | yes
  )");
}

TEST_CASE("not and any") {
  Guide guide(kRecords);
  table(guide, R"(
    treatment:t1 | {not: {shape: round}} | no
    treatment:t1 | {not: {shape: square}} | yes
    treatment:t5 | {not: {motif: rose}} | maybe
    treatment:t1 | {any: [{shape: square}, {motif: rose}]} | yes
    treatment:t1 | {any: [{shape: square}, {motif: fern}]} | no
    treatment:t5 | {any: [{shape: third}, {motif: fern}]} | maybe
    treatment:t1 | {any: [{shape: square}, {motif: rose}], look.edge: silver} | no
    treatment:t1 | {not: {shape: round, motif: fern}} | yes
    treatment:t1 | {not: {any: [{shape: round}, {motif: fern}]}} | no
    treatment:t1 | {shape: {not: {maker: brock}}} | yes
    treatment:t2 | {shape: {not: {maker: brock}}} | yes
    treatment:t3 | {shape: {any: [{maker: brock}, {maker: cole}]}} | yes
    treatment:t4 | {shape: {not: {maker: known}}} | yes
    treatment:t4 | {shape: {not: {maker: brock}}} | maybe
  )");
}

TEST_CASE("backwards by a kind's name") {
  Guide guide(kRecords);
  table(guide, R"(
    shape:round | {treatment.motif: rose} | yes
    shape:square | {treatment.motif: rose} | maybe
    shape:third | {treatment.motif: rose} | no
    shape:fourth | {treatment.motif: rose} | no
    shape:fourth | {treatment: none} | yes
    shape:fourth | {treatment: absent} | yes
    shape:fourth | {treatment: known} | no
    shape:round | {treatment: t1} | yes
    shape:round | {treatment: t3} | no
    shape:fourth | {treatment.motif: none} | no
    shape:fourth | {treatment.motif: absent} | yes
    motif:rose | {treatment.shape: round} | yes
    motif:rose | {treatment.shape.maker: ambry} | yes
    maker:ambry | {shape: round} | yes
    maker:ambry | {shape.treatment.code: RD-2} | yes
    maker:cole | {motif: {name: rose}} | yes
    maker:brock | {treatment: known} | yes
    maker:cole | {treatment: known} | no
    shape:round | {specimen: s1} | yes
    shape:square | {specimen: s2} | yes
    motif:rose | {specimen.form: plate} | yes
    motif:fern | {specimen: known} | no
    feature:edge | {treatment: t1} | yes
    shape:round | {claim: c1} | yes
  )");
}

TEST_CASE("a specimen has the shape, motif and customer of its treatment") {
  Guide guide(kRecords);
  table(guide, R"(
    specimen:s1 | {shape: round} | yes
    specimen:s1 | {shape: square} | no
    specimen:s1 | {motif: rose} | yes
    specimen:s1 | {shape.maker: ambry} | yes
    specimen:s1 | {for: brock} | maybe
    specimen:s2 | {shape: square} | yes
    specimen:s2 | {motif: rose} | maybe
    specimen:s3 | {shape: square} | maybe
    specimen:s3 | {shape: absent} | yes
  )");
}

TEST_CASE("made-in and forms: either side is enough") {
  Guide guide(kRecords);
  table(guide, R"(
    form:plate | {made-in: round} | yes
    form:plate | {made-in: square} | yes
    form:plate | {made-in: third} | maybe
    form:teapot | {made-in: third} | yes
    form:teapot | {made-in: square} | yes
    form:teapot | {made-in: all} | yes
    form:platter | {made-in: round} | yes
    form:platter | {made-in: square} | no
    form:cup | {made-in: round} | yes
    form:cup | {made-in: square} | no
    form:cup | {made-in: third} | maybe
    form:bowl | {made-in: square} | no
    form:bowl | {made-in: round} | maybe
    form:bowl | {made-in: absent} | yes
    form:plate | {made-in: absent} | no
    form:plate | {made-in: known} | yes
    form:cup | {made-in.maker: ambry} | yes
    form:cup | {made-in: {name: Round}} | yes
    form:cup | {made-in: {name: Square}} | maybe
    form:platter | {made-in: {name: Square}} | no
    form:platter | {shape: round} | yes
    shape:round | {forms: plate} | yes
    shape:round | {forms: teapot} | yes
    shape:round | {forms: platter} | yes
    shape:round | {forms: bowl} | maybe
    shape:square | {forms: teapot} | yes
    shape:square | {forms: platter} | no
    shape:square | {forms: cup} | no
    shape:square | {forms: bowl} | no
    shape:third | {forms: platter} | yes
    shape:third | {forms.ware: flat} | yes
    shape:third | {form: teapot} | yes
    treatment:t1 | {shape.forms: teapot} | yes
    treatment:t3 | {shape.forms: bowl} | no
    treatment:t2 | {shape.forms: bowl} | maybe
  )");
}

TEST_CASE("what a code says of a record may be so where nothing is recorded") {
  Guide guide(kRecords);
  const Condition condition = guide.condition("{look: {edge: none}}", Kind::treatment);
  auto agrees = [&](std::string_view record) {
    return Guide::word(condition.agrees(guide.at(record), guide.collection, *guide.own));
  };
  CHECK(agrees("treatment:t2") == "yes");
  CHECK(agrees("treatment:t1") == "no");
  CHECK(agrees("treatment:t3") == "maybe");
  CHECK(agrees("treatment:t4") == "maybe");
}

TEST_CASE("what is chosen, and with sureness asked for") {
  Guide guide(kRecords);
  CHECK(guide.chosen("{motif: rose}", Kind::treatment) == "t1 t5?");
  CHECK(guide.chosen("{motif: rose}", Kind::treatment, true) == "t1");
  CHECK(guide.chosen("{maker: ambry}", Kind::shape) == "round third? fourth?");
  CHECK(guide.chosen("{not: {shape: round}}", Kind::treatment) == "t3 t4");
  CHECK(guide.chosen("{treatment.motif: rose}", Kind::shape) == "round square?");
}
