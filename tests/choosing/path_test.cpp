#include "dates/print.h"
#include "guide.h"

using namespace saggar;
using namespace saggar::choosing;
using saggar::choosing::testing::Guide;
using saggar::choosing::testing::kRecords;

TEST_CASE("what a path reaches") {
  Guide guide(kRecords);
  CHECK(guide.reached("maker", "shape:round") == "ambry");
  CHECK(guide.reached("maker.name", "shape:round") == "Ambry & Sons");
  CHECK(guide.reached("maker.place", "shape:round") == "(absent)");
  CHECK(guide.reached("maker", "shape:third") == "(unknown)");
  CHECK(guide.reached("maker.name", "shape:third") == "(unknown)");
  CHECK(guide.reached("maker.name", "shape:fourth") == "(absent)");
  CHECK(guide.reached("motif.supplier.name", "treatment:t2") == "(none)");
  CHECK(guide.reached("shape.maker.name", "treatment:t2") == "Ambry & Sons, Brock");
  CHECK(guide.reached("code", "treatment:t2") == "RD-2, RD-30");
  CHECK(guide.reached("look", "treatment:t1") == "{}");
  CHECK(guide.reached("look.edge", "shape:round") == "gold, silver");
  CHECK(guide.reached("look.edge", "treatment:t2") == "(none)");
  CHECK(guide.reached("more.Body", "shape:fourth") == "hard and white");
  CHECK(guide.reached("more.No. 9", "shape:fourth") == "in pencil");
  CHECK(guide.reached("marks", "specimen:s1") == "k1, k2");
  CHECK(guide.reached("marks.at", "specimen:s1") == "(absent), beside it");
  CHECK(guide.reached("marks.mark.maker.name", "specimen:s1") == "Ambry & Sons, Brock");
  CHECK(guide.reached("seen", "specimen:s2") == "2018, 2020");
  CHECK(guide.reached("seen.how", "specimen:s1") == "in-hand*");
  CHECK(guide.reached("status", "treatment:t1") == "production*");
  CHECK(guide.reached("status", "treatment:t2") == "sample");
  CHECK(guide.reached("id", "treatment:t1") == "treatment:t1");
  CHECK(guide.reached("shape.id", "treatment:t1") == "shape:round");
  CHECK(guide.reached("values", "feature:edge") == "a gold line, a silver line, no line");
  CHECK(guide.reached("values.silver", "feature:edge") == "a silver line");
  CHECK(guide.reached("segments.about.maker", "talk:t") == "ambry");
}

TEST_CASE("backwards, and the relations a path knows") {
  Guide guide(kRecords);
  CHECK(guide.reached("treatment", "shape:round") == "treatment:t1, treatment:t2, treatment:t5");
  CHECK(guide.reached("treatment.motif", "shape:round") == "rose, (none), (unknown)");
  CHECK(guide.reached("treatment.motif.name", "shape:round") == "Rose, (none), (unknown)");
  CHECK(guide.reached("treatment", "shape:fourth") == "(none)");
  CHECK(guide.reached("specimen", "shape:round") == "specimen:s1");
  CHECK(guide.reached("specimen", "motif:rose") == "specimen:s1");
  CHECK(guide.reached("shape", "specimen:s1") == "round");
  CHECK(guide.reached("for", "specimen:s1") == "(absent)");
  CHECK(guide.reached("shape", "specimen:s3") == "(absent)");
  CHECK(guide.reached("made-in", "form:plate") == "shape:round, shape:square");
  CHECK(guide.reached("made-in", "form:cup") == "round");
  CHECK(guide.reached("made-in", "form:teapot") == "shape:round, shape:square, shape:third, shape:fourth");
  CHECK(guide.reached("made-in", "form:platter") == "shape:round, shape:third, shape:fourth");
  CHECK(guide.reached("made-in", "form:bowl") == "(absent)");
  CHECK(guide.reached("forms", "shape:round") == "plate, cup, form:teapot, form:platter");
  CHECK(guide.reached("forms.ware", "shape:square") == "flat, hollow");
}

TEST_CASE("see, events and dates do not count backwards") {
  Guide guide(R"(
- shape: a
  introduced: 1930
- shape: b
  see: shape:a
  introduced: 1931/shape:a
- motif: m
- treatment: t
  shape: b
  motif: m
  introduced: 1932
  after: shape:a
- treatment: u
  shape: b
  resembles: {treatment: t, tell: the edge}
- shape: c
  resembles: a
)");
  CHECK(guide.faults() == "");
  CHECK(guide.reached("treatment", "shape:a") == "(none)");
  CHECK(guide.reached("shape", "shape:a") == "shape:c");
  CHECK(guide.reached("treatment", "treatment:t") == "treatment:u");
}

TEST_CASE("members of a list say whether it leaves nothing out") {
  Guide guide(kRecords);
  auto flags = [&](std::string_view text, std::string_view reference) {
    const auto all = guide.path(text, guide.collection[guide.at(reference)].kind)
                         .from(guide.at(reference), guide.collection);
    REQUIRE(!all.empty());
    return std::string(all[0].inList ? "list" : "one") + (all[0].complete ? " complete" : "");
  };
  CHECK(flags("maker", "shape:round") == "one");
  CHECK(flags("trade", "maker:brock") == "list");
  CHECK(flags("trade", "maker:dunn") == "list complete");
  CHECK(flags("look.edge", "shape:round") == "list complete");
  CHECK(flags("treatment", "shape:round") == "list complete");
  CHECK(flags("shape.maker", "treatment:t2") == "list");
  CHECK(flags("shape.maker", "treatment:t5") == "list complete");
}

TEST_CASE("a path that cannot be: which step, why, and what was meant") {
  Guide guide(kRecords);
  CHECK(guide.problem("shpae", Kind::treatment) ==
        "shpae: a treatment has no field `shpae` | did you mean `shape`?");
  CHECK(guide.problem("shape.makre.name", Kind::treatment) ==
        "makre: a shape has no field `makre` | did you mean `shape.maker`?");
  CHECK(guide.problem("maker", Kind::treatment) ==
        "maker: a treatment has no field `maker` | did you mean `shape.maker`?");
  CHECK(guide.problem("supplier", Kind::treatment) ==
        "supplier: a treatment has no field `supplier` | did you mean `motif.supplier`?");
  CHECK(guide.problem("edge", Kind::treatment) ==
        "edge: a treatment has no field `edge` | did you mean `look.edge`?");
  CHECK(guide.problem("look.egde", Kind::treatment) ==
        "egde: there is no feature `egde` | did you mean `look.edge`?");
  CHECK(guide.problem("look.lustre", Kind::treatment) ==
        "lustre: there is no feature `lustre` | add the record `- feature: lustre`, or mend the id");
  CHECK(guide.problem("treatmnet.motif", Kind::shape) ==
        "treatmnet: a shape has no field `treatmnet` | did you mean `treatment`?");
  CHECK(guide.problem("name.first", Kind::shape) ==
        "first: `name` leads no further, so `first` cannot follow it | end the path at `name`");
  CHECK(guide.problem("look.edge.used", Kind::shape) ==
        "used: `edge` leads no further, so `used` cannot follow it | end the path at `edge`");
  CHECK(guide.problem("seen.hwo", Kind::specimen) ==
        "hwo: `hwo` is no part of `seen` | did you mean `seen.how`?");
  CHECK(guide.problem("seen.colour", Kind::specimen) ==
        "colour: `colour` is no part of `seen` | its parts are `on`, `by` and `how`");
  CHECK(guide.problem("kept", Kind::specimen) ==
        "kept: `kept` is private: nothing that is published can choose by it or show it | choose another "
        "field");
  CHECK(guide.problem("my-price", Kind::specimen) ==
        "my-price: `my-price` is private: nothing that is published can choose by it or show it | choose "
        "another field");
  CHECK(guide.problem("xylophone", Kind::shape) ==
        "xylophone: a shape has no field `xylophone` | `saggar blank shape` prints what a shape can hold");
  CHECK(guide.problem("", Kind::shape) ==
        ": a path is missing here | write a field, as `shape` or `motif.supplier`");
  for (const char* text : {"shape..maker", ".shape", "shape."})
    CHECK(guide.problem(text, Kind::treatment) != "");
  std::string deep = "shape";
  for (int i = 0; i < 40; ++i) deep += ".treatment.shape";
  CHECK(guide.problem(deep, Kind::treatment)
            .ends_with("this path has more than 16 steps | choose by something nearer"));
}

TEST_CASE("private fields where they are allowed") {
  Guide guide(R"(
- specimen: s
  form: plate
  kept: shelf 3
  my-price: 12
  seen: 2020
- form: plate
  ware: flat
)");
  PathProblem problem;
  const auto specimen = guide.at("specimen:s");
  const Path kept = Path::compile("kept", Kind::specimen, guide.collection, problem, true);
  REQUIRE(!kept.empty());
  CHECK(kept.from(specimen, guide.collection).at(0).value->text == "shelf 3");
  const Path own = Path::compile("my-price", Kind::specimen, guide.collection, problem, true);
  REQUIRE(!own.empty());
  CHECK(own.from(specimen, guide.collection).at(0).value->text == "12");
}

TEST_CASE("what stands at a path's end") {
  Guide guide(kRecords);
  CHECK(guide.path("introduced", Kind::shape).endSpec()->type == records::FieldType::moment);
  CHECK(guide.path("used", Kind::mark).endSpec()->type == records::FieldType::span);
  CHECK(guide.path("look.edge", Kind::shape).endSpec()->type == records::FieldType::text);
  CHECK(guide.path("marks", Kind::specimen).endSpec()->type == records::FieldType::reference);
  CHECK(guide.path("seen", Kind::specimen).endSpec()->type == records::FieldType::moment);
  CHECK(guide.path("treatment", Kind::shape).endSpec()->type == records::FieldType::reference);
  CHECK(guide.path("treatment", Kind::shape).endSpec()->kinds.only() == Kind::treatment);
  CHECK(guide.path("look.edge", Kind::shape).feature() == guide.at("feature:edge"));
}

TEST_CASE("what is missing on the way says where the path stopped") {
  Guide guide(kRecords);
  const auto stopped =
      guide.path("maker.founded", Kind::shape).from(guide.at("shape:fourth"), guide.collection);
  REQUIRE(stopped.size() == 1);
  CHECK(!stopped[0].whole);
  const auto arrived =
      guide.path("maker.founded", Kind::shape).from(guide.at("shape:square"), guide.collection);
  REQUIRE(arrived.size() == 1);
  CHECK(arrived[0].state == Reached::State::absent);
  CHECK(arrived[0].whole);
  CHECK(arrived[0].record == guide.at("maker:brock"));
}

TEST_CASE("a path that reaches without end is cut, and says so") {
  std::string records = "- shape: s\n";
  for (int i = 0; i < 300; ++i) records += "- treatment: t" + std::to_string(i) + "\n  shape: s\n";
  Guide guide(records);
  const auto all = guide.path("treatment.shape.treatment.shape.treatment", Kind::shape)
                       .from(guide.at("shape:s"), guide.collection);
  CHECK(all.size() <= 10'000);
  CHECK(all.back().state == Reached::State::unknown);
  CHECK(guide.ask("{treatment.shape.treatment.shape.treatment.code: X-1}", "shape:s") == "maybe");
}

TEST_CASE("the ends of a span") {
  Guide guide(R"(
- shape: a
  introduced: 1930
- maker: m
  active: about 1900
  works:
    - {works: upper, used: 1906/1968}
- maker: n
  works: {is: [{works: lower, used: 1920/1930}], complete: yes}
- mark: closed
  used: 1925/1951
- mark: open
  used: 1937/..
- mark: unsure
  used: ../1925
- mark: blank
  used: 1940/
- mark: single
  used: 1936
- mark: named
  used: shape:a/1940
- mark: left
- source: s
  date: 1926/1945
- claim: c
  says: One.
- question: q
  asks: Which was first?
  first: [mark:closed.used.from, mark:closed.used.until]
- question: r
  asks: Which was first?
  first: [mark:closed, source:s]
)");
  CHECK(guide.faults() == "");
  auto end = [&](std::string_view path, std::string_view record) {
    const auto all =
        guide.path(path, guide.collection[guide.at(record)].kind).from(guide.at(record), guide.collection);
    REQUIRE(all.size() == 1);
    if (all[0].state != Reached::State::value) return guide.reached(path, record);
    REQUIRE(all[0].end != SpanEnd::whole);
    const auto* date = all[0].value->date();
    if (date == nullptr) return std::string("event");
    return dates::canonical(
        dates::endOf(*date, all[0].end == SpanEnd::from ? dates::End::Earliest : dates::End::Latest));
  };
  CHECK(end("used.from", "mark:closed") == "1925");
  CHECK(end("used.until", "mark:closed") == "1951");
  CHECK(end("used.from", "mark:open") == "1937");
  CHECK(end("used.until", "mark:open") == "(none)");
  CHECK(end("used.from", "mark:unsure") == "(unknown)");
  CHECK(end("used.until", "mark:unsure") == "1925");
  CHECK(end("used.until", "mark:blank") == "(unknown)");
  CHECK(end("used.from", "mark:single") == "1936");
  CHECK(end("used.from", "mark:named") == "event");
  CHECK(end("used.until", "mark:left") == "(absent)");
  CHECK(end("active.from", "maker:m") == "1900~");
  CHECK(end("works.used.until", "maker:m") == "1968");

  CHECK(guide.ask("{used.from: 1925}", "mark:closed") == "yes");
  CHECK(guide.ask("{used.from: 1925/1951}", "mark:closed") == "yes");
  CHECK(guide.ask("{used.until: 1925/1950}", "mark:closed") == "no");
  CHECK(guide.ask("{used: 1925/1950}", "mark:closed") == "yes");  // all of it: they overlap
  CHECK(guide.ask("{used.until: 1951}", "mark:open") == "no");
  CHECK(guide.ask("{used.until: none}", "mark:open") == "yes");
  CHECK(guide.ask("{used.until: none}", "mark:closed") == "no");
  CHECK(guide.ask("{used.until: unknown}", "mark:blank") == "yes");
  CHECK(guide.ask("{used.until: 1951}", "mark:blank") == "maybe");
  CHECK(guide.ask("{used.from: 1951}", "mark:left") == "maybe");
  CHECK(guide.ask("{used.from: absent}", "mark:left") == "yes");
  CHECK(guide.ask("{used.from: 1930}", "mark:named") == "yes");
  CHECK(guide.ask("{used.from: 1931}", "mark:named") == "no");
  CHECK(guide.ask("{used.until: 1940}", "mark:named") == "yes");
  CHECK(guide.ask("{works.used.until: 1968}", "maker:m") == "yes");
  CHECK(guide.ask("{works.used.from: 1968}", "maker:m") == "maybe");

  CHECK(guide.ask("{works.used.from: 1930}", "maker:n") == "no");

  CHECK(guide.ask("{first: mark:closed.used.from}", "question:q") == "yes");
  CHECK(guide.ask("{first: mark:closed.used}", "question:q") == "maybe");
  CHECK(guide.ask("{first: mark:closed}", "question:r") == "yes");
  CHECK(guide.ask("{first: mark:closed.used.from}", "question:r") == "yes");
  CHECK(guide.ask("{first: mark:closed.used.until}", "question:r") == "maybe");
  CHECK(guide.ask("{first: source:s.date.until}", "question:r") == "yes");
  CHECK(guide.ask("{first: mark:closed.used.middle}", "question:r") ==
        "finding: a mark has no date `used.middle`");

  CHECK(guide.sorted(Kind::mark, {"used.until", "id"}) == "unsure single named closed open blank left");
  CHECK(guide.sorted(Kind::mark, {"used.from", "id"}) == "named closed single open blank left unsure");

  CHECK(guide.problem("used.to", Kind::mark) ==
        "to: `used` lasted: it has `from` and `until`, and no `to` | did you mean `used.until`?");
  CHECK(guide.problem("used.frm", Kind::mark) ==
        "frm: `used` lasted: it has `from` and `until`, and no `frm` | did you mean `used.from`?");
  CHECK(guide.problem("used.from.day", Kind::mark) ==
        "day: `from` leads no further, so `day` cannot follow it | end the path at `from`");
  CHECK(guide.problem("introduced.from", Kind::shape) ==
        "from: `introduced` leads no further, so `from` cannot follow it | end the path at `introduced`");
}
