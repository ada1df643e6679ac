// What stands beside a date: nothing that adds nothing. All data is invented.
#include "compose/days.h"
#include "guide_of.h"

namespace saggar::compose::testing {
namespace {

const std::string kBooks = R"(
- source: book
  type: decoration-book
  title: The Book
  date: 1920/1950
- source: list
  type: price-list
  title: The List
  date: 1931
- source: memoir
  type: book
  title: A Memoir
  date: 1970
- maker: tarn
  name: Tarn
  founded: {is: 1900, cite: memoir}
  closed: {is: 1960, cite: memoir}
- maker: velm
  name: Velm
- shape: bryn
  name: Bryn
  maker: tarn
  introduced:
    is: 1930
    cite:
      - {source: book, at: leaf 3, dated: 1930-03}
  withdrawn: {is: 1940, cite: book}
- mark: crown
  name: Crown
  maker: tarn
  used: {is: 1920/1935, cite: book}
- feature: glaze
  of: treatment
  values: {ivory: {is: cream, used: 1932/1936}}
- form: plate
  name: plate
)";

Guide guideWith(const std::string& records) {
  Guide guide(Texts{{"records.yaml", kBooks + records}});
  CHECK(guide.findings().empty());
  return guide;
}

std::string beside(const std::string& records, std::string_view reference, records::Field field,
                   Room room = Room::entry) {
  const Guide guide = guideWith(records);
  return plain(daysBeside(guide.unlinked(), guide.record(reference), field, room));
}

std::string made(const std::string& records) {
  const Guide guide = guideWith(records);
  return plain(daysOfMaking(guide.unlinked(), guide.record("specimen:piece")));
}

TEST_CASE("a date that its own source narrows: in an entry, without naming the source again; not in a row") {
  CHECK(beside("", "shape:bryn", "introduced"_f) == "by the end of March 1930, proven");
  CHECK(beside("", "shape:bryn", "introduced"_f, Room::row) == "");
  CHECK(beside("", "shape:bryn", "introduced"_f, Room::lectern) ==
        "proven by the end of March 1930: Book, leaf 3");
  CHECK(beside("", "shape:bryn", "withdrawn"_f) == "");
  CHECK(beside("", "mark:crown", "used"_f) == "");
}

TEST_CASE("a date that something else narrows: with what proves it; in a row where the year moves") {
  const std::string treatment =
      "- {treatment: t, shape: bryn, motif: none, introduced: {is: 1925/1935, cite: memoir}, cite: list}\n";
  CHECK(beside(treatment, "treatment:t", "introduced"_f) == "1930 to 1931, proven by Bryn and List");
  CHECK(beside(treatment, "treatment:t", "introduced"_f, Room::row) == "1930 to 1931, proven");
  CHECK(beside(treatment, "treatment:t", "introduced"_f, Room::lectern) == "proven 1930 to 1931: Bryn; List");
}

TEST_CASE("a date that is not recorded or not known: what is known all the same") {
  for (const std::string typed :
       {"", "introduced: unknown, ", "introduced: {is: 1938, doubted: the page is torn}, "}) {
    const std::string treatment = "- {treatment: t, shape: bryn, motif: none, " + typed + "cite: list}\n";
    CHECK(beside(treatment, "treatment:t", "introduced"_f) == "1930 to 1931, proven by Bryn and List");
    // That it was last offered after it was first need not be said.
    CHECK(beside(treatment, "treatment:t", "withdrawn"_f) ==
          "by the end of 1940, proven by Bryn; likely 1931 or later");
  }
  CHECK(beside("- {treatment: t, shape: bryn, motif: none, look: {glaze: ivory}, cite: list}\n",
               "treatment:t", "withdrawn"_f) == "by the end of 1936, proven by its glaze");
}

TEST_CASE(
    "what a number or a date code proves: by its own days, the years of its kind, or the works it names") {
  const std::string stone = R"(
- maker: stone
  name: Stone
  cite: book
  works:
    - {works: low, name: Low, letter: L, used: 1922/1928, cite: book}
  codes:
    - {rule: number, used: 1921/1950, written: SERIAL, parts: {SERIAL: 2 digits}, cite: book}
    - rule: date code
      on: specimen.date-code
      used: 1920/1931
      written: WORKS ANY
      parts: {WORKS: maker.works.letter, ANY: 2 digits}
      cite: book
- shape: slab
  name: Slab
  maker: stone
  cite: list
- treatment: t
  shape: slab
  motif: none
  code: "07"
  cite: book
- {specimen: piece, shape: slab, form: plate, date-code: L12, seen: {on: 2001, how: in-hand}}
)";
  CHECK(beside(stone, "treatment:t", "introduced"_f) == "1921 to 1950, proven by the years of such numbers");
  CHECK(beside(stone, "specimen:piece", "made"_f) == "1922 to 1928, proven by the works in its date code");
}

TEST_CASE("that a thing was there when somebody saw it, and that there was a firm, is not worth a word") {
  const std::string seen =
      "- {specimen: piece, shape: cairn, form: plate, seen: {on: 2001, how: in-hand}}\n"
      "- {shape: cairn, name: Cairn, maker: tarn, cite: memoir}\n";
  CHECK(beside(seen, "shape:cairn", "introduced"_f) == "");
  CHECK(beside(seen, "shape:cairn", "withdrawn"_f) == "");
}

TEST_CASE("likely days where nothing is proven, and they move the year") {
  const std::string typed = "- {shape: cairn, name: Cairn, introduced: {is: 1925/1935, cite: memoir}}\n";
  CHECK(beside(typed + "- {treatment: t, shape: cairn, motif: none, introduced: {is: 1928, cite: memoir}}\n",
               "shape:cairn", "introduced"_f) == "likely by the end of 1928");
  CHECK(
      beside(typed + "- {treatment: t, shape: cairn, motif: none, introduced: {is: 1935-06, cite: memoir}}\n",
             "shape:cairn", "introduced"_f) == "");
}

TEST_CASE("a span: which end of it") {
  const std::string seen =
      "- {mark: star, name: Star, maker: tarn, used: {is: 1921/1939, cite: memoir}}\n"
      "- {specimen: piece, shape: bryn, form: plate, marks: [star], seen: {on: 2001, how: in-hand}}\n"
      "- {specimen: other, shape: bryn, form: plate, marks: [star], made: 1939-06, seen: {on: 2001, how: "
      "in-hand}}\n";
  CHECK(beside(seen, "mark:star", "used"_f) == "ended June 1939 or later, proven by Bryn, plate");
}

TEST_CASE("when a piece was made, where that is narrower than the years of its shape and no date is on it") {
  CHECK(made("- {specimen: piece, shape: bryn, form: plate, seen: {on: 2001, how: in-hand}}\n") == "");
  CHECK(made("- {specimen: piece, shape: bryn, form: plate, marks: [crown], seen: {on: 2001, how: "
             "in-hand}}\n") == "by the end of 1935, proven by Crown");
  CHECK(
      made("- {specimen: piece, shape: bryn, form: plate, marks: [crown], made: 1933, seen: {on: 2001, how: "
           "in-hand}}\n") == "");
}

TEST_CASE("a mark that another maker put on proves nothing of when the ware was made") {
  const std::string stamped =
      "- {mark: stamp, name: Stamp, maker: velm, used: {is: 1938/1950, cite: [book, specimen:piece]}}\n"
      "- {specimen: piece, shape: bryn, form: plate, marks: [stamp], seen: {on: 2001, how: in-hand}}\n";
  CHECK(made(stamped) == "");
}

}  // namespace
}  // namespace saggar::compose::testing
