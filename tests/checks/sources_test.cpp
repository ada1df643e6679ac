// Citations without a place, sources that nothing cites.
#include "small_guide.h"

using namespace saggar;
using namespace saggar::checks::testing;

namespace {

const std::string kVolumes =
    "- {source: volumes, title: Decoration Books, type: decoration-book, date: 1926/1945}\n";

std::string shape(const std::string& cite) {
  return "- shape: a\n  introduced: 1932\n  cite: " + cite + "\n";
}

}  // namespace

TEST_CASE("a long source without the place in it") {
  silent("- shape: a\n  introduced: 1932\n  cite:\n    - volumes: vol. 3, May 1932\n" + kVolumes);
  silent(shape("{source: volumes, at: vol. 3}") + kVolumes);
  caught(shape("volumes") + kVolumes, "3:9", "citation-unlocated");
  caught(shape("{source: volumes, dated: 1932-05}") + kVolumes, "3:18", "citation-unlocated");
  CHECK(Small(shape("volumes") + kVolumes).one().message == "`volumes` is cited without the place in it");
  CHECK((Small(shape("volumes") + kVolumes).one().weight() == saggar::diagnostics::Severity::note));
}

TEST_CASE("which types want a place") {
  // SEMANTICS, the table of source types, column "wants a locator".
  const std::vector<std::string> wanted = {
      "decoration-book", "factory-record", "ledger",    "price-list", "catalogue", "leaflet",   "interview",
      "letter",          "observation",    "newspaper", "directory",  "copy",      "book",      "article",
      "museum-object",   "newsletter",     "sale",      "post",       "website",   "recording", "hearsay"};
  const std::vector<std::string> others = {"trade-notice",   "advertisement", "registration", "patent",
                                           "supplier-sheet", "photograph",    "sample",       "excavation"};
  auto found = [](const std::string& type) {
    return Small(shape("b") + "- {source: b, title: B, type: " + type + ", date: 1932}\n",
                 {"citation-unlocated"_rule})
        .found;
  };
  for (const std::string& type : wanted) CHECK_MESSAGE(found(type) == "3:9 citation-unlocated", type);
  for (const std::string& type : others) CHECK_MESSAGE(found(type) == "", type);
}

TEST_CASE("wherever a citation may stand") {
  CHECK(Small("- {shape: a, introduced: {is: 1932, cite: volumes}}\n" + kVolumes).found ==
        "1:43 citation-unlocated");
  CHECK(Small("- shape: a\n  introduced: {is: 1932, but: {is: 1933, cite: volumes}}\n  cite: books\n" +
              kBooks + kVolumes)
            .found == "2:48 citation-unlocated");
  CHECK(Small("- shape: a\n  forms: [{is: plate, cite: volumes}]\n- form: plate\n" + kVolumes).found ==
        "2:29 citation-unlocated");
  CHECK(Small("- question: a\n  asks: Why?\n  for: {says: The book has it., cite: volumes}\n" + kVolumes)
            .found == "3:39 citation-unlocated");
  CHECK(Small("- claim: a\n  says: So.\n  cite: books\n  against: [volumes]\n" + kBooks + kVolumes).found ==
        "4:13 citation-unlocated");
}

TEST_CASE("specimens and photos have no place, nor has what was looked for in vain") {
  silent(
      "- {shape: a, introduced: {is: 1932, cite: specimen:b}}\n- {specimen: b, shape: a, form: plate, seen: "
      "2019}\n- {form: plate}\n");
  silent("- {treatment: a, code: {is: none, cite: {source: volumes, says: not-found}}}\n" + kVolumes);
}

TEST_CASE("a source that nothing cites") {
  caught(kBooks, "1:12", "source-unused");
  CHECK(Small(kBooks).one().message == "nothing cites the source `books`");
  silent(shape("books") + kBooks);
  silent("- {term: x, means: See <source:books>.}\n" + kBooks);
  silent(FilesOfGuide{{"records.yaml", kBooks}, {"prose/a.md", "As [the books](source:books) have it.\n"}});
  silent("- {question: a, asks: Why?, against: {says: No., cite: books}}\n" + kBooks);
}

TEST_CASE("a source that another draws on or is part of is used; one that speaks only of itself is not") {
  const std::string part =
      "- {source: volume-3, title: Volume 3, type: trade-notice, date: 1932, in: books}\n";
  silent(shape("volume-3") + part + kBooks);
  const std::string copy =
      "- {source: copy, title: A copy, type: trade-notice, date: 1950, draws-on: books}\n";
  silent(shape("copy") + copy + kBooks);
  CHECK(Small("- source: a\n  title: A\n  type: trade-notice\n  note: See [this](source:a).\n").found ==
        "1:11 source-unused");
  CHECK(Small("- source: a\n  title: A\n  type: trade-notice\n  see: source:a\n").found ==
        "1:11 source-unused");
}
