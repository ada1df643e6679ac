// Codes of an invented pottery, each read as its books would have it.
#include <algorithm>

#include "tollivane.h"

using namespace saggar::codes;

TEST_CASE("every decoration code has one division, with what it asks of the treatment") {
  struct Row {
    const char *code, *prefix, *serial;
    int number;
    const char *group, *feature, *value;
  };
  const Row rows[] = {
      {"DM-14-D/1", "DM", "14", 14, "a border decal, or a centre with a verge line", "edge-line", "gold"},
      {"CO-21-D/2", "CO", "21", 21, "a border decal, or a centre with a verge line", "edge-line", "gold"},
      {"TV-33-C/1", "TV", "33", 33, "three or more decals, or one large centre", "edge-line", "gold"},
      {"TV-47-C/5", "TV", "47", 47, "three or more decals, or one large centre", "shoulder", "lustre band"},
      {"KD-09-C/0", "KD", "09", 9, "three or more decals, or one large centre", "edge-line", "none"},
      {"KD-16-C/6", "KD", "16", 16, "three or more decals, or one large centre", "connecting", "gold"},
      {"JM-018-C/1", "JM", "018", 18, "three or more decals, or one large centre", "edge-line", "gold"},
      {"JM-045-C/0", "JM", "045", 45, "three or more decals, or one large centre", "edge-line", "none"},
      {"QM-112-C/1", "QM", "112", 112, "three or more decals, or one large centre", "edge-line", "gold"},
      {"JM-061-C/1", "JM", "061", 61, "three or more decals, or one large centre", "edge-line", "gold"},
      {"LV-05-B/3", "LV", "05", 5, "one or two small decals", "edge-line", "platinum"},
      {"LV-12-C/0", "LV", "12", 12, "three or more decals, or one large centre", "edge-line", "none"},
      {"SW-07-B/3", "SW", "07", 7, "one or two small decals", "edge-line", "platinum"},
      {"JM-203-C/1", "JM", "203", 203, "three or more decals, or one large centre", "edge-line", "gold"},
      {"JM-203-D/1", "JM", "203", 203, "a border decal, or a centre with a verge line", "edge-line", "gold"},
      {"BC-203-C/0", "BC", "203", 203, "three or more decals, or one large centre", "edge-line", "none"},
      {"BC-31-B/7", "BC", "31", 31, "one or two small decals", "stamp", "gold at the rim"},
      {"OT-44-A/4", "OT", "44", 44, "a line or stamp only", "edge-line", "coloured"},
      {"JM-240-D/0", "JM", "240", 240, "a border decal, or a centre with a verge line", "edge-line", "none"},
      {"SD-02-D/4", "SD", "02", 2, "a border decal, or a centre with a verge line", "edge-line", "coloured"},
      {"SD-11-B/0", "SD", "11", 11, "one or two small decals", "edge-line", "none"},
      {"FM-03-B/0", "FM", "03", 3, "one or two small decals", "edge-line", "none"},
      {"FM-08-B/3", "FM", "08", 8, "one or two small decals", "edge-line", "platinum"},
  };
  const Rule any = compiled(decorationCode());
  const Rule three = compiled(onJessamount());
  CHECK(any.ordered());
  for (const Row& row : rows) {
    CAPTURE(row.code);
    const bool jessamount = std::string_view(row.serial).size() == 3;
    for (const Rule* rule : {&any, &three}) {
      const Readings readings = rule->read(row.code);
      if (rule == &three && !jessamount) {
        CHECK(readings.all.empty());
        continue;
      }
      REQUIRE(readings.all.size() == 1);
      CHECK_FALSE(readings.more);
      const Reading& reading = readings.all[0];
      REQUIRE(reading.parts.size() == 4);
      CHECK(reading.parts[0].text == row.prefix);
      CHECK(reading.parts[1].text == row.serial);
      CHECK(reading.parts[1].offset == 3);
      CHECK(reading.parts[2].means == row.group);
      REQUIRE(reading.paths.size() == 1);
      CHECK(
          std::ranges::equal(reading.paths[0].paths, std::vector<std::string>{"shape.prefix", "for.prefix"}));
      CHECK(reading.paths[0].metBy(row.prefix));
      CHECK_FALSE(reading.paths[0].metBy("EL"));
      REQUIRE_FALSE(reading.look.empty());
      CHECK(reading.look[0].need->feature == row.feature);
      CHECK(reading.look[0].need->values == std::vector<std::string>{row.value});
      CHECK(reading.look[0].part == 3);
      REQUIRE(reading.number);
      CHECK(reading.number->number == row.number);
      CHECK(reading.number->series == foldedKey(row.prefix));
      CHECK(reading.alone == foldedKey(std::string(row.prefix) + "-" + row.serial));
      CHECK(reading.key == foldedKey(row.code));
      CHECK_FALSE(reading.when);
    }
  }
  CHECK(any.read("CO-21-D/2").all[0].look.size() == 2);
  CHECK(any.read("CO-21-D/2").all[0].parts[3].means == "edge-line: gold, verge-line: gold");
}

TEST_CASE("numbers of the old series") {
  const Rule old = compiled(oldNumber());
  for (const char* code : {"1187", "1422", "2310", "2641", "1", "2880"}) {
    CAPTURE(code);
    const Readings readings = old.read(code);
    REQUIRE(readings.all.size() == 1);
    CHECK(readings.all[0].number->number == std::stoi(code));
    CHECK(readings.all[0].number->series.empty());
  }
  for (const char* code : {"0", "2881", "01187", "12345", "JM-203-C/1", "X-771", ""})
    CHECK(old.read(code).all.empty());
}

TEST_CASE("other rules leave a code of theirs alone") {
  const Rule trial = compiled(experimental());
  CHECK(trial.read("X-771").all.size() == 1);
  CHECK_FALSE(trial.ordered());
  CHECK(trial.read("Y-771").all.empty());
  CHECK(trial.read("X-77").all.empty());
  CHECK(compiled(oldNumber()).read("TR-6").all.empty());
  CHECK(compiled(decorationCode()).read("TR-6").all.empty());
  CHECK(compiled(dateCode()).read("TR-6").all.empty());
  CHECK(compiled(decorationCode()).read("X-771").all.empty());
}

TEST_CASE("a copied serial must end the supplier's number") {
  const Rule copied = compiled(copiedSerial());
  CHECK_FALSE(copied.ordered());
  const Readings readings = copied.read("JM-203-D/1");
  REQUIRE(readings.all.size() == 1);
  REQUIRE(readings.all[0].paths.size() == 2);
  const PathNeed& serial = readings.all[0].paths[1];
  CHECK(serial.last == 3);
  CHECK(serial.metBy("6203"));
  CHECK(serial.metBy("7203"));
  CHECK(serial.metBy("203"));
  CHECK_FALSE(serial.metBy("8310"));
  CHECK_FALSE(serial.metBy("03"));
  CHECK(copied.read("BC-31-B/7").all.empty());
}

TEST_CASE("date codes and batches name their days") {
  const Rule date = compiled(dateCode());
  const Readings readings = date.read("U341");
  REQUIRE(readings.all.size() == 1);
  const Reading& reading = readings.all[0];
  CHECK(days(reading.when) == "1934-01-01 to 1934-03-31");
  CHECK(reading.dateInWords() == "1st quarter 1934");
  CHECK(reading.parts[1].means == "1934");
  CHECK(reading.parts[2].means == "1st quarter");
  CHECK(reading.paths[0].metBy("U"));
  CHECK_FALSE(reading.paths[0].metBy("T"));
  CHECK(days(date.read("T261").all.at(0).when) == "1926-01-01 to 1926-03-31");
  CHECK(days(date.read("U344").all.at(0).when) == "1934-10-01 to 1934-12-31");
  CHECK(date.read("U345").all.empty());
  CHECK(date.read("U340").all.empty());
  CHECK(date.read("U 34 1").all.size() == 1);
  CHECK(date.read("u 341").all.at(0).key == "u341");

  const Rule week = compiled(batch());
  CHECK(days(week.read("5614").all.at(0).when) == "1956-04-02 to 1956-04-08");
  CHECK(week.read("5614").all.at(0).dateInWords() == "week 14 of 1956");
  CHECK(week.read("5654").all.empty());
  CHECK(week.read("5653").all.empty());  // 1 January 1956 was a Sunday of a leap year: 52 weeks
  CHECK(days(week.read("5353").all.at(0).when) == "1953-12-28 to 1954-01-03");
  CHECK(week.read("5600").all.empty());
  CHECK(week.read("561").all.empty());
  CHECK(week.read("56141").all.empty());
}

TEST_CASE("what is typed is compared without case and with any dash") {
  const Rule code = compiled(decorationCode());
  const Readings readings = code.read(
      " jm\xE2\x80\x93"
      "203\xE2\x88\x92"
      "c/1 ");
  REQUIRE(readings.all.size() == 1);
  CHECK(readings.all[0].key == "jm-203-c/1");
  CHECK(readings.all[0].parts[0].text == "jm");
  CHECK(readings.all[0].parts[0].offset == 1);
  CHECK(readings.all[0].parts[1].offset == 6);
  const Rule accented = compiled(rule("accented", "\xC3\x89-NUMBER", {part("NUMBER", "1 digit")}));
  CHECK(accented.read("e\xCC\x81-4").all.size() == 1);  // the accent typed by itself
  CHECK(accented.read("\xC3\xA9-4").all.size() == 1);
  CHECK(accented.read("e-4").all.empty());
}

TEST_CASE("a sign that cannot be read may be any") {
  const Rule date = compiled(dateCode());
  const Readings readings = date.read("U3?1");
  REQUIRE(readings.all.size() == 10);
  CHECK(days(readings.all[0].when) == "1930-01-01 to 1930-03-31");
  CHECK(days(readings.all[9].when) == "1939-01-01 to 1939-03-31");
  CHECK(date.read("U34?").all.size() == 4);
  CHECK(date.read("?341").all.at(0).paths[0].metBy("T"));
  CHECK(date.read("U???").all.size() == 400);
  const Rule code = compiled(decorationCode());
  CHECK(code.read("JM-2?3-?/1").all.size() == 5);
  CHECK_FALSE(code.read("JM-2?3-C/1").all.at(0).number);
  CHECK_FALSE(code.read("?M-203-C/1").all.at(0).number);
  CHECK(code.read("JM?203?C?1").all.size() == 1);
  CHECK(code.read("JM?203?C?1").all[0].key == "jm-203-c/1");
  const Rule old = compiled(oldNumber());
  CHECK(old.read("28?0").all.size() == 1);
  CHECK(old.read("288?").all.size() == 1);  // 2880 alone
  CHECK(old.read("289?").all.empty());
  CHECK(old.read("????").all.size() == 1);
  CHECK(old.read("?????").all.empty());
  CHECK(compiled(batch()).read("5?53").all.size() == 2);  // 1953 and 1959
}

TEST_CASE("several values make several readings, up to what is asked for") {
  DateFacts months;
  months.months = {8, 9};
  const Rule rule = compiled(saggar::codes::rule(
      "month", "YY M",
      {part("YY", "year 18YY or 19YY"), table("M", {{"R", "", {}, months}, {"r", "another r", {}, {}}})}));
  const Readings all = rule.read("57R");
  REQUIRE(all.all.size() == 6);
  CHECK_FALSE(all.more);
  CHECK(days(all.all[0].when) == "1857-08-01 to 1857-08-31");
  CHECK(days(all.all[1].when) == "1857-09-01 to 1857-09-30");
  CHECK(days(all.all[2].when) == "1857-01-01 to 1857-12-31");
  CHECK(all.all[0].parts[1].means == "August");
  CHECK(all.all[2].parts[1].means == "another r");
  CHECK(all.all[0].parts[1].row == 0);
  CHECK(all.all[2].parts[1].row == 1);
  const Readings some = rule.read("57R", 5);
  CHECK(some.all.size() == 5);
  CHECK(some.more);
  CHECK_FALSE(rule.read("57R", 6).more);
}

TEST_CASE("parts that run together are divided every way") {
  const Rule rule = compiled(saggar::codes::rule(
      "run together", "YY MONTH DAY", {part("YY", "year 19YY"), part("MONTH", "month"), part("DAY", "day")}));
  CHECK(divisions(rule.read("56111")) ==
        std::vector<std::string>{"YY=56 MONTH=1 DAY=11", "YY=56 MONTH=11 DAY=1"});
  CHECK(divisions(rule.read("56 11 1")) == std::vector<std::string>{"YY=56 MONTH=11 DAY=1"});
  CHECK(divisions(rule.read("560230")).empty());
  CHECK(days(rule.read("560229").all.at(0).when) == "1956-02-29 to 1956-02-29");
  CHECK(rule.read("550229").all.empty());
}

TEST_CASE("alone: the part that names the motif") {
  const Rule code = compiled(decorationCode());
  const Readings readings = code.readAlone("jm-203");
  REQUIRE(readings.all.size() == 1);
  CHECK(readings.all[0].alone == "jm-203");
  CHECK(readings.all[0].alone == code.read("JM-203-C/1").all[0].alone);
  CHECK(readings.all[0].number->number == 203);
  CHECK(code.readAlone("JM-203-C/1").all.empty());
  CHECK(compiled(onJessamount()).readAlone("JM-61").all.empty());
  CHECK(compiled(dateCode()).readAlone("U341").all.empty());
}

TEST_CASE("alike signs are exchanged, the fewest first") {
  const Rule date = compiled(dateCode());
  const Similars similar = date.similar("U344");
  REQUIRE(similar.all.size() == 1);  // with 9 for the quarter it is no code
  CHECK(similar.all[0].text == "U394");
  CHECK(similar.all[0].exchanges == 1);
  CHECK(days(similar.all[0].readings.at(0).when) == "1939-10-01 to 1939-12-31");
  CHECK(date.similar("U321").all.empty());
  RuleSpec spec = rule("two", "AB", {part("AB", "2 digits")});
  spec.alike = std::vector<std::vector<std::string>>{{"4", "9"}};
  const Similars both = compiled(spec).similar("44");
  REQUIRE(both.all.size() == 3);
  CHECK(both.all[0].text == "94");
  CHECK(both.all[1].text == "49");
  CHECK(both.all[2].text == "99");
  CHECK(both.all[2].exchanges == 2);
  spec = rule("long", "N-WORD", {part("N", "1 digit"), part("WORD", "2 or 3 letters")});
  spec.alike = std::vector<std::vector<std::string>>{{"rn", "m"}, {"m", "w"}};
  const Similars longer = compiled(spec).similar("1-am");
  REQUIRE(longer.all.size() == 2);
  CHECK(longer.all[0].text == "1-arn");
  CHECK(longer.all[1].text == "1-aw");
}

TEST_CASE("a text that is unlike the codes is none") {
  RuleSpec spec = experimental();
  spec.unlike = std::vector<UnlikeText>{{"X-771", "a price"}};
  const Rule rule = compiled(spec);
  CHECK(rule.read("x-771").all.empty());
  CHECK(rule.read("x-771").notOfRule == "a price");
  CHECK(rule.explain("X-771").message == "\"X-771\" is none of these codes: a price");
  CHECK(rule.read("X-772").all.size() == 1);
}
