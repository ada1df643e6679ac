// What reasoning says to a question: which of two was first, what cannot all be true, a number that two share. All data
// is invented.
#include "guide_of.h"

namespace saggar::compose::testing {
namespace {

const std::string kTwoFirms = R"(
- maker: tarn
  name: Tarn
  prefix: T
  works:
    - {works: low, name: Low works, letter: L, used: 1920/1960}
  codes:
    - rule: number
      written: PREFIX-SERIAL-LINE
      parts: {PREFIX: shape.prefix, SERIAL: 2 digits, LINE: {A: plain, B: gold}}
      alone: PREFIX-SERIAL
    - rule: date code
      on: specimen.date-code
      used: 1920/1960
      written: WORKS YY QUARTER
      parts: {WORKS: maker.works.letter, YY: year 19YY, QUARTER: quarter}
      alike: [4 9]
- source: book
  type: decoration-book
  title: The Book
  date: 1920/1950
- source: memoir
  type: book
  title: A Memoir
  date: 1970
- form: plate
  name: plate
- shape: bryn
  name: Bryn
  maker: tarn
  prefix: BR
  introduced:
    is: 1936
    cite:
      - {source: book, at: leaf 3, dated: 1936-03}
- shape: cairn
  name: Cairn
  introduced: {is: by 1923-02, cite: memoir, doubted: nobody has found it since}
)";

std::string asked(const std::string& records) {
  Guide guide(Texts{{"guide.yaml", "guide: V\ncontents: [{a-chapter-for-every: shape}, questions]\n"},
                    {"records.yaml", kTwoFirms + records}});
  CHECK(guide.findings().empty());
  CHECK(deadLinks(guide.files()).empty());
  return part(guide.file("questions"), "## The question\n", "## Never");
}

TEST_CASE("which was first: undecided, with the days of both and what would decide it") {
  const std::string text = asked(R"(
- question: q
  name: The question
  asks: Which came first?
  first: [shape:bryn, shape:cairn]
  would-settle: A letter.
)");
  CHECK(holds(text,
              "- **Which was first:** undecided; likely [Cairn](cairn.md#shape-cairn)\n"
              "  - [Bryn](bryn.md#shape-bryn). On record: 1936. Proven: January to March 1936 "
              "([Book](sources.md#source-book), leaf 3).\n"
              "  - [Cairn](cairn.md#shape-cairn). On record: by February 1923 (doubted: nobody has found "
              "it since). Proven: no day.\n"));
  CHECK(holds(text,
              "- A letter.\n"
              "- Evidence that [Cairn](cairn.md#shape-cairn) was introduced no earlier than 1 April 1936; "
              "[Bryn](bryn.md#shape-bryn) would then be the first.\n"
              "- Evidence that [Cairn](cairn.md#shape-cairn) was introduced by 31 December 1935; "
              "[Cairn](cairn.md#shape-cairn) would then be the first.\n"));
}

TEST_CASE("which was first: where it is proven, and where nobody has asked") {
  const std::string proven = asked(R"(
- shape: early
  name: Early
  introduced: {is: 1925, cite: book}
- question: q
  name: The question
  asks: Which came first?
  first: [shape:bryn, shape:early]
)");
  CHECK(holds(proven, "- **Which was first:** [Early](early.md#shape-early); that is proven\n"));
  CHECK_FALSE(holds(proven, "settle"));
  CHECK_FALSE(
      holds(asked("- {question: q, name: The question, asks: Why?, about: [shape:bryn]}\n"), "first:"));
}

TEST_CASE("what cannot all be true, what stays proven, and what else the eye could read") {
  const std::string plate = R"(
- specimen: plate
  shape: bryn
  form: plate
  date-code: L344
  seen: {on: 2001, how: in-hand}
- question: q
  name: The question
  asks: How can that be?
  about: [specimen:plate]
)";
  const std::string text = asked(plate);
  CHECK(part(text, "**These", "## Never") ==
        R"(**These cannot all be true**

- Bryn was introduced in 1936 (documented; [Book](sources.md#source-book), leaf 3).
- Bryn, plate is of the shape Bryn (documented).
- Bryn, plate bears the date code L344, of October to December 1934 (documented).

**What stays proven**

- [Bryn](bryn.md#shape-bryn) was introduced by the end of March 1936 ([Book](sources.md#source-book), leaf 3).

**Another reading**

- As L394, for which the eye can take it, the code would be of October to December 1939, and the rest could all be true.
)");
  // Of another piece, or with signs that are not alike, there is nothing to say.
  CHECK_FALSE(holds(asked("- {question: q, name: The question, asks: Why?, about: [shape:cairn]}\n" +
                          plate.substr(0, plate.find("- question"))),
                    "cannot all be true"));
  CHECK_FALSE(holds(asked(R"(
- specimen: plate
  shape: bryn
  form: plate
  date-code: L352
  seen: {on: 2001, how: in-hand}
- {question: q, name: The question, asks: Why?, about: [specimen:plate]}
)"),
                    "Another reading"));
}

TEST_CASE("a number that two decorations share, with both bookings and readings") {
  const std::string text = asked(R"(
- motif: fern
  name: Fern
- motif: rose
  name: Rose
- treatment: a
  shape: bryn
  motif: fern
  code: BR-03-A
  introduced: {is: 1938, cite: book}
- treatment: b
  shape: bryn
  motif: rose
  code: BR-03-B
  introduced: {is: 1941, cite: book}
- treatment: c
  shape: bryn
  motif: rose
  code: BR-04-B
- question: q
  name: The question
  asks: Why two?
  about: [treatment:a, treatment:b, treatment:c]
)");
  CHECK(holds(text, R"(| Number | Motif | Booked | What it says | Sources |
| --- | --- | --- | --- | --- |
| [BR-03-A](bryn.md#treatment-a) | [Fern](motifs.md#motif-fern) | 1938 | BR for Bryn, serial 03, A for plain | [Book](sources.md#source-book) |
| [BR-03-B](bryn.md#treatment-b) | [Rose](motifs.md#motif-rose) | 1941 | BR for Bryn, serial 03, B for gold | [Book](sources.md#source-book) |
)"));
  CHECK_FALSE(holds(text, "| [BR-04-B]"));
}

}  // namespace
}  // namespace saggar::compose::testing
