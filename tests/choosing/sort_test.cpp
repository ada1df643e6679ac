#include <algorithm>

#include "guide.h"

using namespace saggar;
using namespace saggar::choosing;
using saggar::choosing::testing::Guide;
using saggar::choosing::testing::kRecords;

TEST_CASE("codes by letters, then numbers by value, then the rest") {
  CHECK(codeBefore("JM-045-C/0", "JM-203-C/1"));
  CHECK(codeBefore("JM-9", "JM-045"));
  CHECK(codeBefore("JM-45-C/0", "JM-045-C/1"));
  CHECK(codeBefore("JM-240", "LV-1"));
  CHECK(codeBefore("1187", "JM-1"));
  CHECK(codeBefore("9", "1187"));
  CHECK(codeBefore("JM-203-B/0", "JM-203-C/0"));
  CHECK(codeBefore("JM-203", "JM-203-B/0"));
  CHECK(codeBefore("JM-203-C/2", "JM-203-C/10"));
  CHECK(codeBefore("JM", "JM-1"));
  CHECK_FALSE(codeBefore("JM-1", "JM-1"));
  CHECK(codeBefore("jm-1", "JM-2"));
  CHECK(codeBefore("JM-1", "jm-2"));
  CHECK(codeBefore("JM-99999999999999999999", "JM-100000000000000000000"));
  CHECK(codeBefore("JM-007", "JM-7") != codeBefore("JM-7", "JM-007"));
}

TEST_CASE("the order of codes is an order") {
  std::vector<std::string> codes = {"",      "A",    "A-1", "A-01", "A1",   "a-1",   "A-1-B",
                                    "A-1/2", "A-10", "A-2", "B-1",  "1",    "01",    "1-A/2",
                                    "Ä-1",   "A--1", "A 1", "A-1 ", "AB-1", "AB1C2", "AB1C10"};
  for (const std::string& a : codes) {
    CHECK_FALSE(codeBefore(a, a));
    for (const std::string& b : codes) {
      if (a != b) CHECK(codeBefore(a, b) != codeBefore(b, a));
      for (const std::string& c : codes)
        if (codeBefore(a, b) && codeBefore(b, c)) CHECK(codeBefore(a, c));
    }
  }
}

TEST_CASE("sorted by what paths reach, not recorded last, ties by id") {
  Guide guide(kRecords);
  CHECK(guide.sorted(Kind::treatment, {}) == "t1 t2 t3 t4 t5");
  CHECK(guide.sorted(Kind::treatment, {"introduced"}) == "t2 t1 t3 t4 t5");
  CHECK(guide.sorted(Kind::treatment, {"code"}) == "t2 t1 t3 t4 t5");
  CHECK(guide.sorted(Kind::treatment, {"motif"}) == "t3 t1 t4 t2 t5");
  CHECK(guide.sorted(Kind::treatment, {"motif.name"}) == "t3 t1 t4 t2 t5");
  CHECK(guide.sorted(Kind::treatment, {"shape", "motif"}) == "t1 t2 t5 t3 t4");
  CHECK(guide.sorted(Kind::treatment, {"status"}) == "t1 t4 t5 t2 t3");
  CHECK(guide.sorted(Kind::treatment, {"look.edge"}) == "t1 t2 t3 t4 t5");
  CHECK(guide.sorted(Kind::shape, {"name"}) == "fourth round square third");
  CHECK(guide.sorted(Kind::shape, {"introduced"}) == "round third square fourth");
  CHECK(guide.sorted(Kind::shape, {"treatment.introduced"}) == "round square fourth third");
  CHECK(guide.sorted(Kind::shape, {"id"}) == "fourth round square third");
  CHECK(guide.sorted(Kind::form, {"ware", "name"}) == "plate platter cup teapot bowl");
  CHECK(guide.sorted(Kind::form, {"actual"}) == "plate platter bowl cup teapot");
  CHECK(guide.sorted(Kind::mark, {"used"}) == "k1 k2");
}

TEST_CASE("the feature's own order of values") {
  Guide guide(R"(
- feature: grade
  of: shape
  values: {fine: smooth, middling: some faults, coarse: many}
- shape: a
  look: {grade: coarse}
- shape: b
  look: {grade: fine}
- shape: c
- shape: d
  look: {grade: middling}
)");
  CHECK(guide.sorted(Kind::shape, {"look.grade"}) == "b d a c");
}

TEST_CASE("sizes in different units, numbers by value") {
  Guide guide(R"(
- form: a
  actual: 9 in
- form: b
  actual: 100 mm
- form: c
  actual: 10 x 20 cm
- form: d
  actual: 24 fl oz
- talk: t10
  number: 10
- talk: t9
  number: 9
- motif: m10
  supplier-number: 402-10
- motif: m9
  supplier-number: 402-9
)");
  CHECK(guide.sorted(Kind::form, {"actual"}) == "b c a d");
  CHECK(guide.sorted(Kind::talk, {"number"}) == "t9 t10");
  CHECK(guide.sorted(Kind::motif, {"supplier-number"}) == "m9 m10");
}

TEST_CASE("names in the order of the guide's language") {
  const char* records = R"(
- shape: a
  name: Zebra
- shape: b
  name: Ähre
- shape: c
  name: Apfel
- shape: d
  name: Plate 10
- shape: e
  name: Plate 9
- shape: f
  name: plate 9
)";
  Guide english(records);
  CHECK(english.sorted(Kind::shape, {"name"}) == "b c f e d a");
  // In Swedish Ä follows Z (CLDR, sv).
  Guide swedish(records, "guide: T\nby: N\nedition: 1\nsettings: {language: sv}\n");
  CHECK(swedish.sorted(Kind::shape, {"name"}) == "c f e d a b");
  Guide odd(records, "guide: T\nby: N\nedition: 1\nsettings: {language: \"!!\"}\n");
  CHECK(odd.sorted(Kind::shape, {"name"}).size() == english.sorted(Kind::shape, {"name"}).size());
}

TEST_CASE("dates before the year 0 and beyond all calendars sort") {
  Guide guide(R"(
- shape: a
  introduced: Y17000000000000000000
- shape: b
  introduced: -0300
- shape: c
  introduced: 1932/1934
- shape: d
  introduced: 1932
- shape: e
  introduced: from 1932
- shape: f
  introduced: unknown
)");
  CHECK(guide.sorted(Kind::shape, {"introduced"}) == "b d c e a f");
}

TEST_CASE("grouped: the groups in order, several values in each, the rest last") {
  Guide guide(kRecords);
  auto grouped = [&](Kind kind, std::string_view by) {
    std::string all;
    for (const Chooser::Group& group :
         guide.chooser->group(guide.chooser->choose(kind, Condition()), guide.path(by, kind))) {
      if (!all.empty()) all += "; ";
      switch (group.key.state) {
        case Reached::State::value: all += std::string(group.key.value->text); break;
        case Reached::State::record: all += std::string(guide.collection[group.key.record].id); break;
        case Reached::State::none: all += "(none)"; break;
        default: all += "(nothing)";
      }
      all += ": " + guide.ids(group.members);
    }
    return all;
  };
  CHECK(grouped(Kind::treatment, "shape") == "round: t1 t2 t5; square: t2 t3 t5; third: t4");
  CHECK(grouped(Kind::treatment, "motif") == "fern: t3; rose: t1; star: t4; (none): t2; (nothing): t5");
  CHECK(grouped(Kind::treatment, "status") == "production: t1 t4 t5; sample: t2; doubtful: t3");
  CHECK(grouped(Kind::treatment, "shape.maker") == "ambry: t1 t2 t5; brock: t2 t3 t5; (nothing): t4");
  CHECK(grouped(Kind::form, "ware") == "flat: plate platter; hollow: teapot cup bowl");
  CHECK(grouped(Kind::form, "made-in") ==
        "fourth: teapot platter; round: plate teapot platter cup; square: plate teapot; third: teapot "
        "platter; (nothing): bowl");
  CHECK(grouped(Kind::shape, "treatment") ==
        "t1: round; t2: round square; t3: square; t4: third; t5: round square; (nothing): fourth");
  CHECK(grouped(Kind::shape, "look.edge") == "gold: round; silver: round; (nothing): square third fourth");
  CHECK(guide.chooser->group({}, guide.path("shape", Kind::treatment)).empty());
}
