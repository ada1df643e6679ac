#include "compose/checklist.h"
#include "compose/corrections.h"
#include "guide_of.h"

// What any record may have beside its own fields (other names, headings of the author's, references, sources) stands in
// its entry, whatever its kind; of records told in one line, as sentences behind it.
namespace saggar::compose::testing {
namespace {

const std::string kWare = R"(
- shape: bryn
  name: Bryn
- form: jug
  name: jug
- source: book
  type: book
  title: The Book
  date: 1970
- source: leaflet
  type: leaflet
  title: A Leaflet
  date: 1930
)";

std::string file(
    const std::string& records, const std::string& name,
    const std::string& contents = "[{a-chapter-for-every: shape}, glossary, questions, prose/a.md]",
    const std::string& prose = "# A\n") {
  Guide guide(Texts{{"guide.yaml", "guide: V\ncontents: " + contents + "\n"},
                    {"records.yaml", kWare + records},
                    {"prose/a.md", prose}});
  CHECK(guide.findings().empty());
  CHECK(deadLinks(guide.files()).empty());
  return guide.file(name);
}

TEST_CASE("a piece seen: other names, the author's headings, references and sources behind it") {
  const std::string piece = R"(
- specimen: attic
  shape: bryn
  form: jug
  also: [the attic jug, {name: the Tarn jug, by: collectors}]
  more:
    chip:
      is: on the rim
      cite:
        - book: p. 8
      note: It was filled once.
  note: Bought wet.
  see: form:jug
  cite:
    - book: p. 9
    - leaflet: back
)";
  CHECK(holds(
      file(piece, "bryn"),
      "<a id=\"specimen-attic\"></a>[Jug](lists.md#form-jug); made by the end of 1930, proven by "
      "[Leaflet](sources.md#source-leaflet), back. Also called the attic jug; the Tarn jug (the "
      "collectors' name). Chip: on the rim ([The Book](sources.md#source-book), p. 8). It was filled once. "
      "Bought wet. See [jug](lists.md#form-jug). Sources: [The Book](sources.md#source-book), p. 9; [A "
      "Leaflet](sources.md#source-leaflet), back.\n"));
}

TEST_CASE(
    "a picture: its sources stand beside its credit; one that only a piece names is shown with the piece") {
  const std::string photo = R"(
- specimen: attic
  shape: bryn
  form: jug
  photo: foot
- photo: foot
  file: images/foot.png
  alt: A foot.
  caption: The foot of a jug
  credit: Ada Tarn & Co.
  also: the attic picture
  more: {Camera: a box}
  see: form:jug
  cite:
    - book: plate 4
)";
  CHECK(holds(file(photo, "bryn"),
              "The foot of a jug. Picture: Ada Tarn & Co. Also called the attic picture. Camera: a box. See "
              "[jug](lists.md#form-jug). Source: [The Book](sources.md#source-book), plate 4."));
}

TEST_CASE("a statement that has a name is led by it, and elsewhere the name leads home") {
  const std::string claim = R"(
- claim: late
  name: the date of the jug
  says: The jug came late.
  also: the jug rule
  more: {Asked at: the spring fair}
  see: shape:bryn
  cite:
    - book: p. 2
)";
  const std::string two = "# A\n\n```claims\n```\n";
  CHECK(file(claim, "a", "[{a-chapter-for-every: shape}, prose/a.md]", two) ==
        "# A\n\n- <a id=\"claim-late\"></a>**The date of the jug.** The jug came late ([The "
        "Book](sources.md#source-book), p. 2; suggested). Also called the jug rule. Asked at: the spring "
        "fair. See "
        "[Bryn](bryn.md#shape-bryn).\n");
  Guide guide(Texts{{"guide.yaml", "guide: V\ncontents: [prose/a.md, prose/b.md]\n"},
                    {"records.yaml", kWare + claim},
                    {"prose/a.md", two},
                    {"prose/b.md", "# B\n\n```claims\n```\n"}});
  CHECK(holds(guide.file("b"), "- **[The date of the jug](a.md#claim-late).** The jug came late ("));
}

TEST_CASE("a statement says what it is about, and then what else to see") {
  const std::string claim =
      "- claim: late\n  says: The jug came late.\n  about: [shape:bryn]\n  see: form:jug\n  cite: [book]\n";
  CHECK(holds(file(claim, "a", "[{a-chapter-for-every: shape}, prose/a.md]", "# A\n\n```claims\n```\n"),
              "). See [Bryn](bryn.md#shape-bryn). See also [jug](lists.md#form-jug).\n"));
}

TEST_CASE("a correction has its note, and what stands under the author's own headings") {
  const std::string correction = R"(
- claim: late
  says: The jug came late.
  was: The jug came early.
  change: erratum
  also: the jug rule
  more: {Found by: a reader}
  note: It was asked twice.
  see: shape:bryn
  issued: 2020
  cite:
    - book: p. 2
)";
  CHECK(holds(file(correction, "corrections", "[corrections, prose/a.md]"),
              "**Note.** Also called the jug rule. Found by: a reader. It was asked twice. See "
              "[Bryn](other-shapes.md#shape-bryn).\n"));
}

TEST_CASE("words, people, questions, features and sources name what they rest on") {
  const std::string records = R"(
- term: lip
  means: Where it pours.
  more: {Plural: lips}
  note: An old word.
  cite:
    - book: p. 3
- person: ada
  name: Ada Tarn
  cite:
    - book: p. 4
- person: mo
  name: Mo Delling
- question: whose
  asks: Whose jug is it?
  cite:
    - book: p. 5
- feature: wave
  of: shape
  values: {small: small}
  cite:
    - book: p. 6
- source: diary
  type: letter
  title: A Diary
  date: 1931
  cite:
    - book: p. 7
)";
  const std::string book = "[The Book](sources.md#source-book), p. ";
  CHECK(holds(file(records, "glossary"),
              "**lip:** Where it pours. Plural: lips. An old word. Source: " + book + "3.\n"));
  CHECK(holds(file(records, "questions"), "**Sources:** " + book + "5\n"));
  const std::string lists = file(records, "lists");
  CHECK(holds(part(lists, "Ada Tarn", "Mo Delling"), "**Sources:** " + book + "4\n"));
  CHECK_FALSE(holds(part(lists, "Mo Delling", "\n#"), "ource"));  // of a person none is wanted
  CHECK(holds(lists, "**Sources:** " + book + "6\n"));
  CHECK(holds(part(file(records, "sources"), "**A Diary**", "<a id"),
              "**Sources:** [The Book](#source-book), p. 7\n"));
}

TEST_CASE("words that have a comma in their names are kept apart by semicolons") {
  const std::string words =
      "- term: decal\n  name: decal, decalcomania\n  means: A picture.\n"
      "- term: lining\n  means: All lines.\n  related: [spray]\n"
      "- term: spray\n  means: A small one.\n  related: [decal, lining]\n";
  const std::string text = file(words, "glossary");
  CHECK(holds(text, "**lining:** All lines. See also [spray](#term-spray).\n"));
  CHECK(holds(text, "See also [decal, decalcomania](#term-decal); [lining](#term-lining).\n"));
}

TEST_CASE("a list to print: its headings, references and sources on the sheet, unlinked, and in the guide") {
  const std::string list = R"(
- checklist: list
  title: A list
  show: form
  also: the jug list
  note: Take a pencil.
  more: {Paper: yellow}
  see: [shape:bryn, form:jug]
  cite:
    - book: p. 1
)";
  const Guide guide(Texts{{"records.yaml", kWare + list}});
  std::string head;
  std::vector<RecordIndex> from;
  composeChecklist(*guide.materials, guide.at("checklist:list"),
                   {.begin = [&](const ChecklistHead& one) { head = render::renderMarkdown(one.document); },
                    .row = [](const document::Row&) {}},
                   from);
  CHECK(head.starts_with(
      "# A list\n\nTake a pencil.\n\nPaper: yellow. See Bryn and jug. Source: The Book, p. 1.\n"));
  CHECK(
      part(file(list, "lists"), "- **Also", "\n#") ==
      "- **Also called:** the jug list\n- **Paper:** yellow\n- **See also:** [Bryn](bryn.md#shape-bryn) and "
      "[jug](#form-jug)\n- **Sources:** [The Book](sources.md#source-book), p. 1\n\nTake a pencil.\n");
}

}  // namespace
}  // namespace saggar::compose::testing
