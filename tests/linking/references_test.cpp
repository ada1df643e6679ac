// References in either form, backwards too; what is not there, what could be two, and what is told only once.
#include "small_link.h"

using namespace saggar;
using linking::testing::FilesOfGuide;
using linking::testing::Linked;
using records::Kind;

TEST_CASE("a bare id where one kind is wanted, and kind and id anywhere") {
  const Linked guide(
      "- {treatment: a, shape: s, motif: motif:m}\n- {shape: s, see: [motif:m, treatment:a]}\n- {motif: "
      "m}\n");
  CHECK(guide.found == "");
  const auto s = guide.collection.find(Kind::shape, "s");
  REQUIRE(s);
  const auto back = guide.collection.referredBy(*s);
  REQUIRE(back.size() == 1);
  CHECK(guide.collection[back[0].from].id == "a");
  CHECK((back[0].field == "shape"_f));
  CHECK(guide.collection.find("motif:m").has_value());
  CHECK_FALSE(guide.collection.find("motif:s").has_value());
  CHECK_FALSE(guide.collection.find("m").has_value());
}

TEST_CASE("a record that is not there") {
  CHECK(Linked("- {treatment: a, shape: jesamount}\n- {shape: jessamount}\n").found ==
        "1:25 reference-missing");
  CHECK(Linked("- {treatment: a, shape: jesamount}\n- {shape: jessamount}\n").one().message ==
        "there is no shape `jesamount`");
  CHECK(Linked("- {treatment: a, shape: jesamount}\n- {shape: jessamount}\n").one().hint ==
        "did you mean `jessamount`?");
  CHECK(Linked("- {treatment: a, shape: quite-another}\n").one().hint ==
        "add the record `- shape: quite-another`, or mend the id");
  CHECK(Linked("- {treatment: a, shape: [s, t]}\n- {shape: s}\n").found == "1:29 reference-missing");
  CHECK(Linked("- {term: a, means: A., see: shape:s}\n- {motif: s}\n").found == "1:29 reference-missing");
  CHECK(Linked("- {shape: a, introduced: 1932, cite: s99}\n").found == "1:38 reference-missing");
  CHECK(Linked("- {shape: a, introduced: {is: 1932, cite: [s98: p. 4, s99]}}\n").found ==
        "1:44 reference-missing\n1:55 reference-missing");
  CHECK(Linked("- {shape: a, look: {edge: gold}}\n").found == "1:21 reference-missing");
}

TEST_CASE("a bare id that could be two records") {
  const Linked two("- {term: a, means: A., see: s}\n- {motif: s}\n- {shape: s}\n");
  CHECK(two.found == "1:29 reference-ambiguous");
  CHECK(two.one().message == "`s` could be `shape:s` or `motif:s`");
  CHECK(Linked("- {term: a, means: A., see: motif:s}\n- {motif: s}\n- {shape: s}\n").found == "");
  CHECK(Linked("- {treatment: a, shape: s}\n- {motif: s}\n- {shape: s}\n").found == "");
}

TEST_CASE("an id that two records of one kind have") {
  const Linked twice(FilesOfGuide{{"a.yaml", "- {shape: s}\n- {motif: s}\n"}, {"b.yaml", "- {shape: s}\n"}});
  CHECK(twice.found == "b.yaml:1:11 id-twice");
  CHECK(twice.one().message == "there is a shape `s` already");
  REQUIRE(twice.one().related.size() == 1);
}

TEST_CASE("what stands in a record that could not be read is not missing") {
  CHECK(Linked("- {treatment: a, shape: s}\n- shape: s\n  introduced: a: b\n").found == "3:15 yaml-broken");
  CHECK(Linked("- {treatment: a, shape: my-shape}\n- {shape: My Shape}\n").found == "2:11 value-unfit");
}

TEST_CASE("events: a record's own date, a field, the ends of a span") {
  auto after = [](const std::string& event) {
    return Linked("- {shape: a, after: " + event + "}\n- {shape: b}\n- {mark: k}\n- {term: t, means: T.}\n")
        .found;
  };
  CHECK(after("shape:b") == "");
  CHECK(after("shape:b.withdrawn") == "");
  CHECK(after("mark:k") == "");
  CHECK(after("mark:k.used.until") == "");
  CHECK(after("shape:c") == "1:21 reference-missing");
  CHECK(after("shape:b.name") == "1:21 value-unfit");
  CHECK(after("shape:b.withdrawm") == "1:21 value-unfit");
  CHECK(after("shape:b.introduced.from") == "1:21 value-unfit");
  CHECK(after("term:t") == "1:21 value-unfit");
  CHECK(Linked("- {shape: a, introduced: ../shape:b}\n- {shape: b}\n").found == "");
  CHECK(Linked("- {shape: a, introduced: ../shape:c}\n- {shape: b}\n").found == "1:29 reference-missing");
}

TEST_CASE("values of a feature") {
  const std::string feature = "- {feature: edge, values: {gold: g, none: n}}\n";
  CHECK(Linked("- {shape: a, look: {edge: [gold, none]}}\n" + feature).found == "");
  CHECK(Linked("- {shape: a, look: {edge: unknown}}\n" + feature).found == "");
  CHECK(Linked("- {shape: a, look: {edge: golld}}\n" + feature).found == "1:27 value-unfit");
  CHECK(Linked("- {shape: a, look: {edge: golld}}\n" + feature).one().hint == "did you mean `gold`?");
  CHECK(Linked("- {shape: a, look: {edge: {is: golld, used: 1932}}}\n" + feature).found ==
        "1:32 value-unfit");
}

TEST_CASE("links in prose and in fields that are Markdown, at their own place") {
  const Linked prose(
      FilesOfGuide{{"records.yaml", "- {shape: s}\n- {source: b}\n"},
                   {"prose/a.md", "See [it](shape:s), [that](shape:t),\n<motif:m> and [p. 4](source:b).\n"}});
  CHECK(prose.found == "prose/a.md:1:27 reference-missing\nprose/a.md:2:2 reference-missing");
  CHECK(prose.collection.mentions().size() == 2);
  CHECK(prose.collection.mentions()[1].citation);
  CHECK(Linked("- term: a\n  means: |\n    As in\n    [this](shape:t).\n").found == "4:12 reference-missing");
  CHECK(Linked("- term: a\n  means: \"See [this](shape:t).\"\n").found == "2:22 reference-missing");
}

TEST_CASE("one mistake in a name that many records use is told at each of them") {
  std::string text;
  for (int i = 0; i < 3; ++i) text += "- {treatment: t" + std::to_string(i) + ", shape: jesamount}\n";
  CHECK(Linked(text + "- {shape: jessamount}\n").found ==
        "1:26 reference-missing\n2:26 reference-missing\n3:26 reference-missing");
}
