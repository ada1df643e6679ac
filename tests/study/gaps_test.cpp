// What is not on record: fields, features, decorations and pieces that nobody has seen.
#include "study/gaps.h"

#include "small_study.h"

using namespace saggar::study;
using saggar::operator""_f;
using saggar::records::Kind;
using saggar::study::testing::Records;

namespace {

const Gap* gapOf(const std::vector<Gap>& gaps, saggar::records::Field field,
                 RecordIndex feature = saggar::records::kNoRecord) {
  for (const Gap& one : gaps)
    if (one.field == field && one.feature == feature) return &one;
  return nullptr;
}

std::string piece(const std::string& id, const std::string& rest, const std::string& how = "in-hand") {
  return "- {specimen: " + id + ", " + rest + ", seen: {on: 2019, how: " + how + "}}\n";
}

}  // namespace

TEST_CASE("fields that are unknown, and fields that are left out") {
  const Records guide(
      "- {maker: w, trade: pottery, owner: unknown}\n"
      "- {shape: a, maker: w, introduced: unknown}\n- {shape: b, maker: w, introduced: 1930, modeller: "
      "none}\n");
  const auto gaps = gapsOf(guide.collection, guide.all(Kind::shape));
  REQUIRE(gapOf(gaps, "introduced"_f) != nullptr);
  CHECK(guide.ids(gapOf(gaps, "introduced"_f)->unknown) == "a");
  CHECK(gapOf(gaps, "introduced"_f)->unrecorded.empty());
  CHECK(guide.ids(gapOf(gaps, "modeller"_f)->unrecorded) == "a");
  CHECK(guide.ids(gapOf(gaps, "withdrawn"_f)->unrecorded) == "a b");
  CHECK(guide.ids(gapOf(gaps, "modeller"_f)->recorded) == "b");
  CHECK(gapOf(gaps, "maker"_f) == nullptr);
  // A private field is nobody's business.
  CHECK(gapsOf(guide.collection, guide.all(Kind::maker)).empty());
}

TEST_CASE("features, of what they can be looked for on") {
  const Records guide(
      "- {maker: w, trade: pottery}\n- {maker: v, trade: pottery}\n"
      "- {feature: rim, of: shape, effort: 2, values: {yes: y, no: n}}\n"
      "- {feature: foot, of: [shape, treatment], effort: 1, maker: w, values: {flat: f}}\n"
      "- {shape: a, maker: w, look: {rim: unknown}}\n- {shape: b, maker: w, look: {rim: yes, foot: flat}}\n"
      "- {shape: c, maker: v}\n- {treatment: t, shape: a}\n- {treatment: u, shape: c}\n");
  const auto gaps = gapsOf(guide.collection, guide.all(Kind::shape));
  const Gap* rim = gapOf(gaps, "look"_f, guide.at("feature:rim"));
  const Gap* foot = gapOf(gaps, "look"_f, guide.at("feature:foot"));
  REQUIRE(rim != nullptr);
  REQUIRE(foot != nullptr);
  CHECK(foot < rim);
  CHECK(guide.ids(rim->recorded) == "a b");
  CHECK(guide.ids(rim->unknown) == "a");
  CHECK(guide.ids(rim->unrecorded) == "c");
  CHECK(guide.ids(foot->recorded) == "b");
  CHECK(guide.ids(foot->unrecorded) == "a");
  const auto ofTreatments = gapsOf(guide.collection, guide.all(Kind::treatment));
  CHECK(guide.ids(gapOf(ofTreatments, "look"_f, guide.at("feature:foot"))->unrecorded) == "t");
}

TEST_CASE("treatments known from documents, from reports and from nothing") {
  const Records guide(
      "- {source: books, title: Books, type: ledger, date: 1930/1940}\n- {shape: s}\n"
      "- {treatment: hand, shape: s, cite: books}\n- {treatment: photo, shape: s}\n"
      "- {treatment: book, shape: s, cite: books}\n- {treatment: told, shape: s}\n- {treatment: bare, shape: "
      "s}\n" +
      piece("p", "treatment: hand") + piece("q", "treatment: photo", "photograph") +
      piece("r", "treatment: told", "reported"));
  const Unseen unseen = unseenOf(guide.collection, *guide.weights, guide.all(Kind::treatment));
  CHECK(guide.ids(unseen.documents) == "book");
  CHECK(guide.ids(unseen.reports) == "told");
  CHECK(guide.ids(unseen.nothing) == "bare");
}

TEST_CASE("pieces of a line that nobody has seen, whichever side states them") {
  const Records guide(
      "- {form: plate}\n- {form: cup, made-in: all}\n- {form: pot, made-in: [s]}\n- {form: jug, made-in: "
      "{all-but: [s]}}\n"
      "- {form: dish}\n"
      "- {shape: s, forms: [plate, dish]}\n- {shape: t}\n- {treatment: a, shape: s}\n" +
      piece("p", "treatment: a, form: plate") + piece("q", "shape: s, form: pot", "photograph") +
      piece("r", "shape: s, form: dish", "reported") + piece("v", "shape: t, form: cup"));
  const auto found = formsNeverSeen(guide.collection, guide.all(Kind::shape));
  REQUIRE(found.size() == 2);
  CHECK(guide.ids(found[0].forms) == "cup dish");
  CHECK(guide.ids(found[0].seen) == "plate pot");
  CHECK(guide.ids(found[1].forms) == "jug");
  CHECK(guide.ids(found[1].seen) == "cup");
}

TEST_CASE("pieces of a set") {
  const Records guide(
      "- {form: plate}\n- {form: cup}\n- {form: pot}\n- {shape: s}\n- {treatment: a, shape: s}\n"
      "- set: tea\n  pieces:\n    - {form: plate, of: treatment:a, how-many: 6}\n    - {form: cup, of: "
      "treatment:a}\n"
      "    - {form: pot, of: shape:s}\n" +
      piece("p", "treatment: a, form: plate") + piece("q", "shape: s, form: cup") +
      piece("r", "treatment: a, form: pot"));
  const auto found = formsNeverSeen(guide.collection, guide.all(Kind::set));
  REQUIRE(found.size() == 1);
  CHECK(guide.ids(found[0].forms) == "cup");
  CHECK(guide.ids(found[0].seen) == "plate pot");
}
