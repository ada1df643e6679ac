// What to doubt so that no contradiction is left.
#include "small_guide.h"

using namespace saggar::checks::testing;

namespace {

const std::string kBooked =
    "- {source: ledger, type: ledger, title: Ledger, date: 1900/1960}\n"
    "- {source: guide, type: book, title: Guide, date: 1974}\n- {motif: m, cite: {source: ledger, at: p}}\n";

std::string shape(const std::string& id, const std::string& introduced, const std::string& cite) {
  return "- shape: " + id + "\n  introduced:\n    is: " + introduced + "\n    cite: {source: " + cite +
         ", at: p}\n  cite: {source: ledger, at: p}\n";
}

std::string treatment(const std::string& id, const std::string& on, const std::string& introduced,
                      const std::string& cite = "ledger") {
  return "- treatment: " + id + "\n  shape: " + on + "\n  motif: m\n  introduced: {is: " + introduced +
         ", cite: {source: " + cite + ", at: p}}\n  cite: {source: ledger, at: p}\n";
}

}  // namespace

TEST_CASE("one contradiction: each of its facts by itself, the weakest first") {
  const Small guide(shape("s", "1950", "guide") + treatment("a", "s", "1940") + kBooked);
  CHECK(guide.report.errors == 1);
  CHECK(guide.doubts == "shape:s introduced\ntreatment:a introduced\ntreatment:a shape\n");
}

TEST_CASE("two with a fact in common: that one first; then what has one of each") {
  const Small guide(shape("s", "1950", "guide") + treatment("a", "s", "1940") + treatment("b", "s", "1941") +
                    kBooked);
  CHECK(guide.doubts.starts_with("shape:s introduced\n"));
  CHECK(std::count(guide.doubts.begin(), guide.doubts.end(), '\n') == 5);
  CHECK(guide.doubts.find("treatment:b introduced, treatment:a introduced\n") != std::string::npos);
  CHECK(guide.doubts.find("treatment:b shape, treatment:a shape\n") != std::string::npos);
}

TEST_CASE("independent contradictions want a fact each; of more than four there is no set") {
  std::string records;
  for (const char* id : {"p", "q", "r", "s", "t"}) {
    const Small guide(records + kBooked);
    const std::size_t sets =
        static_cast<std::size_t>(std::count(guide.doubts.begin(), guide.doubts.end(), '\n'));
    const std::size_t clashes = guide.report.errors;
    CHECK(sets == (clashes == 0 ? 0u : clashes == 1 ? 3u : clashes == 2 ? 9u : 20u));
    records += shape(id, "1950", "guide") + treatment(std::string("on-") + id, id, "1940");
  }
  CHECK(Small(records + kBooked).report.errors == 5);
  CHECK(Small(records + kBooked).doubts.empty());
}

TEST_CASE("dates that fit if they are taken widely are not doubted, and a waiver settles nothing") {
  CHECK(Small(shape("s", "about 1941", "ledger") + treatment("a", "s", "1940") + kBooked).doubts.empty());
  const Small waived(FilesOfGuide{
      {"guide.yaml",
       "guide: G\nwaivers: [{rule: date-before-shape, records: [shape:s, treatment:a], because: a slip}]\n"},
      {"records.yaml", shape("s", "1950", "guide") + treatment("a", "s", "1940") + kBooked}});
  CHECK(waived.report.errors == 0);
  CHECK(waived.doubts.starts_with("shape:s introduced\n"));
}

TEST_CASE("a hundred contradictions with one fact in common") {
  std::string records = shape("s", "1950", "guide");
  for (int i = 0; i < 100; ++i)
    records += treatment("t" + std::to_string(i), "s", "19" + std::to_string(30 + i % 15));
  CHECK(Small(records + kBooked).doubts == "shape:s introduced\n");
}

TEST_CASE("an author is told in words of the one fact that would settle several contradictions") {
  const std::string two = treatment("a", "s", "1940", "guide") + treatment("b", "s", "1941", "guide");
  const Small guide(shape("s", "1950", "ledger") + two + kBooked);
  CHECK(guide.report.errors == 2);
  CHECK(guide.doubts.starts_with("treatment:b introduced, treatment:a introduced\n"));
  CHECK(guide.text.find(
            "one fact has part in both contradictions: `introduced` of shape:s (1950), records.yaml:3:9; "
            "if it is wrong, none of them is left\n") != std::string::npos);
  const Small one(shape("s", "1950", "guide") + treatment("a", "s", "1940") + kBooked);
  CHECK(one.text.find("one fact has part") == std::string::npos);
}
