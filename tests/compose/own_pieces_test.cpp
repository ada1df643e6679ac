#include "compose/own_pieces.h"

#include "guide_of.h"

// Where the pieces of a talk are: for the author alone, by shelf.
namespace saggar::compose::testing {
namespace {

std::string pieces(const Guide& guide) {
  return render::renderMarkdown(
      composeOwnPieces(guide.collection, *guide.materials, guide.at("talk:evening")).document);
}

std::string piecesOf(const std::string& records) {
  return pieces(Guide(Texts{{"records.yaml", records}}));
}

const std::string kPieces = R"(
- form: plate
  name: 7-inch plate
- specimen: one
  name: The red plate
  seen: 2019
  kept: box 10, loft
  owner: Mrs Secretname
- specimen: two
  name: The blue plate
  seen: {by: a friend, how: reported}
  kept: box 9
  holder: a museum
- specimen: three
  name: The green plate
  seen: {how: photograph}
  holder: private collection
- specimen: four
  name: The white plate
  seen: 2020
  kept: box 9
- photo: crown
  file: images/crown.png
  alt: A crown.
- talk: evening
  title: "Plates: an evening"
  segments:
    - title: A
      show: [specimen:one, photo:crown]
      time: 1:00
    - title: B
      show: [specimen:four, specimen:three]
    - title: C
      show: [specimen:two, specimen:one]
    - title: D
      show: [specimen:one]
)";

TEST_CASE("by shelf as one walks along them, then what has none, then pictures; owner, holder, not seen") {
  CHECK(piecesOf(kPieces) == R"(# Pieces for “Plates: an evening”

For your eyes only. The numbers are those of the outline: the order on the table. Tick once when a piece is packed, and once when it is back.

## Box 9

- ☐ ☐ 3 · **The white plate**, shown at 1:00
- ☐ ☐ 5 · **The blue plate**, shown at about 1:16; not seen in hand

## Box 10, loft

- ☐ ☐ 1 · **The red plate**, shown at 0:00, about 1:16 and about 1:32; belongs to Mrs Secretname

## No shelf recorded

- ☐ ☐ 4 · **The green plate**, shown at 1:00; in a private collection; not seen in hand

## Pictures

- ☐ ☐ 2 · **Crown**, shown at 0:00
)");
}

TEST_CASE("a talk that shows nothing") {
  CHECK(piecesOf("- talk: evening\n  title: E\n  segments: [A]\n") ==
        "# Pieces for “E”\n\nNo piece is shown in this talk.\n");
}

TEST_CASE("pieces of one name are told apart, and one shelf is one however it is typed") {
  const std::string text = piecesOf(R"(
- specimen: a
  name: A plate
  kept: Shelf 1
  seen: 2019
- specimen: b
  name: A plate
  kept: "shelf 1 "
  seen: 2019
- talk: evening
  title: E
  segments:
    - {title: A, show: [specimen:a, specimen:b]}
)");
  CHECK(holds(
      text,
      "## Shelf 1\n\n- ☐ ☐ 1 · **A plate** (a), shown at 0:00\n- ☐ ☐ 2 · **A plate** (b), shown at 0:00\n"));
}

TEST_CASE("the numbers are those of the outline") {
  const Guide guide(Texts{{"records.yaml", kPieces}});
  CHECK(holds(pieces(guide), "5 · **The blue plate**"));
  const Composed made = composeOwnPieces(guide.collection, *guide.materials, guide.at("talk:evening"));
  CHECK(made.madeFrom == std::set<std::string>{"talk:evening", "specimen:one", "specimen:two",
                                               "specimen:three", "specimen:four", "photo:crown"});
}

}  // namespace
}  // namespace saggar::compose::testing
