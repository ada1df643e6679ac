#include "guide_of.h"

// What each block prints, word for word.
namespace saggar::compose::testing {
namespace {

// A chapter of prose with one block, beside chapters for two shapes; what the block printed.
std::string block(const std::string& name, const std::string& yaml = {}, const std::string& more = {}) {
  Guide guide(
      Texts{{"guide.yaml",
             "guide: V\ncontents: [{a-chapter-for-every: shape, where: {maker: amblecote}, sure: yes}, "
             "marks, forms, questions, corrections, prose/a.md]\n"},
            {"records.yaml", kPottery + more},
            {"prose/a.md", "# A\n\n```" + name + "\n" + yaml + (yaml.empty() ? "" : "\n") + "```\n"}});
  CHECK(guide.findings().empty());
  const std::string text = guide.file("a");
  CHECK(deadLinks(guide.files()).empty());
  const std::string head = "# A\n\n";
  REQUIRE(text.starts_with(head));
  return text.substr(head.size());
}

std::string chapter(const std::string& file) {
  Guide guide(Texts{{"guide.yaml",
                     "guide: V\ncontents: [{a-chapter-for-every: shape, where: {maker: amblecote}, sure: "
                     "yes}, marks, forms, questions, corrections, codes, glossary]\n"},
                    {"records.yaml", kPottery}});
  return guide.file(file);
}

TEST_CASE("treatments: a short table elsewhere, with the shape where there are several") {
  CHECK(block("treatments", "where: {shape: bryn}") ==
        R"(| Number | Motif | Lines and glaze | Offered | Sources |
| --- | --- | --- | --- | --- |
| [BR-01-1](bryn.md#treatment-br-01) | [Fern](motifs.md#motif-fern) | gold edge line | 1922 to 1930 | [Pattern Book](sources.md#source-pattern-book), BR-01 |
| [BR-02-0](bryn.md#treatment-br-02) | none | no edge line | from 1923 (doubted: the ink is another) | no source recorded |
)");
  CHECK(block("treatments", "where: {motif: fern}\ngrouped: shape") ==
        R"(| Number | Motif | Lines and glaze | Offered | Sources |
| --- | --- | --- | --- | --- |
| **[Bryn](bryn.md#shape-bryn)** | | | | |
| [BR-01-1](bryn.md#treatment-br-01) | [Fern](motifs.md#motif-fern) | gold edge line | 1922 to 1930 | [Pattern Book](sources.md#source-pattern-book), BR-01 |
| **[Cairn](cairn.md#shape-cairn)** | | | | |
| [number not known](cairn.md#treatment-ca-shop) | [Fern](motifs.md#motif-fern) | not recorded | not recorded | [A book](sources.md#source-a-book) |
)");
  CHECK(holds(block("treatments", "where: {motif: fern}"), "| Number | Motif | Shape |"));
}

TEST_CASE("what is only perhaps meant is marked, and `sure` leaves it out") {
  CHECK(holds(block("treatments", "where: {introduced: ../1923}"),
              "[number not known](cairn.md#treatment-ca-shop), perhaps |"));
  CHECK_FALSE(holds(block("treatments", "where: {introduced: ../1923}\nsure: yes"), "number not known"));
}

TEST_CASE("columns of the author's own") {
  CHECK(block("treatments",
              "where: {shape: bryn}\ncolumns: [code, Picture: motif.name, met]\nin-order-of: code") ==
        R"(| Number | Picture | Met with | Sources |
| --- | --- | --- | --- |
| [BR-01-1](bryn.md#treatment-br-01) | Fern | often | [Pattern Book](sources.md#source-pattern-book), BR-01 |
| [BR-02-0](bryn.md#treatment-br-02) | none | not recorded | no source recorded |
)");
}

TEST_CASE("the ends of a span are columns") {
  const std::string marks =
      "- mark: open\n  name: Open\n  maker: amblecote\n  used: 1937/..\n"
      "- mark: shut\n  name: Shut\n  maker: amblecote\n  used: 1925/1951\n";
  const std::string table = block("marks", "columns: [name, used.from, Last: used.until]", marks);
  CHECK(holds(table, "| Name | Used from | Last | Sources |"));
  CHECK(holds(table, "| [Open](marks.md#mark-open) | 1937 | none |"));
  CHECK(holds(table, "| [Shut](marks.md#mark-shut) | 1925 | 1951 |"));
}

TEST_CASE("treatments in their home: the table, and an entry each") {
  const std::string bryn = chapter("bryn");
  CHECK(part(bryn, "<a id=\"treatment-br-01\">", "<a id=\"treatment-br-02\">") ==
        R"(<a id="treatment-br-01"></a>

### BR-01-1 Fern

- **Motif:** [Fern](motifs.md#motif-fern), [Ostrand Decals](lists.md#maker-decals) no. 12
- **Number:** BR-01-1: BR for Bryn, serial 01, 1 for a gold edge line
- **Lines and glaze:** gold edge line
- **Offered:** from 1922 to 1930
- **Pieces:** [7-inch plate](forms.md#form-plate), 9 1/8 in (232 mm); [pot](forms.md#form-pot)
- **Known from:** one piece in hand and one reported
- **Met with:** often
- **Sources:** [The Pattern Book of Amblecote & Tarn](sources.md#source-pattern-book), BR-01

)");
}

TEST_CASE("a chapter of a shape: facts, pieces, decorations, marks, look-alikes, known pieces, questions") {
  const std::string bryn = chapter("bryn");
  CHECK(part(bryn, "<a id=\"shape-bryn\">", "## Pieces") == R"(<a id="shape-bryn"></a>

# Bryn

- **Maker:** [Amblecote & Tarn](lists.md#maker-amblecote)
- **Offered:** from 1921 ([The Pattern Book of Amblecote & Tarn](sources.md#source-pattern-book), p. 1) to 1940
- **Prefix in codes:** BR
- **Modeller:** [Mo Delling](lists.md#person-mo)
- **Look:** round outline; embossing in panels; closed-knob finial; white glaze, or ivory since 1930
- **Sources:** [The Pattern Book of Amblecote & Tarn](sources.md#source-pattern-book), list of shapes

**Changed since it was printed:** see the [corrigendum of 2 May 2020](corrections.md#claim-first-new).

)");
  CHECK(part(bryn, "## Pieces", "## Decorations") == R"(## Pieces

| Piece | List size | Measures | Sources |
| --- | --- | --- | --- |
| **Flat ware** | | | |
| [7-inch plate](forms.md#form-plate) (dinner plate) | 7 in | 9 1/8 in (232 mm) | [Price List](sources.md#source-price-list), p. 1 |
| **Hollow ware** | | | |
| [Pot](forms.md#form-pot) | no size | size not recorded; holds 24 fl oz (710 ml) | [Price List](sources.md#source-price-list), p. 2 |

)");
  CHECK(part(bryn, "## Known pieces", "## Open questions") == R"(## Known pieces

**[BR-01-1 Fern](#treatment-br-01)**

- <a id="specimen-br-01-plate"></a>[7-inch plate](forms.md#form-plate); numbered BR-01-1; mark [A crown](marks.md#mark-one) in the foot; date code L241 (Low works, 1st quarter 1924); 9 1/8 in (232 mm). Seen in hand by Mo Delling on 3 February 2001. Holder: a museum.
- <a id="specimen-br-01-pot"></a>[Pot](forms.md#form-pot). Reported by a friend.

)");
}

TEST_CASE("a list that chooses nothing says so") {
  for (const auto& [name, what] : {std::pair{"treatments", "decoration"},
                                   {"forms", "piece"},
                                   {"marks", "mark"},
                                   {"codes", "number"},
                                   {"look-alikes", "look-alike"},
                                   {"makers", "maker"},
                                   {"measures", "piece"}})
    CHECK(block(name, name == std::string_view("measures") || name == std::string_view("forms")
                          ? "where: {ware: set}"
                          : "where: {name: Nobody}\nsure: yes") ==
          "No " + std::string(what) + " is recorded.\n");
  CHECK(block("questions", "where: {about: treatment:br-01}") == "None recorded.\n");
  CHECK(block("sources", "where: {type: patent}") == "None recorded.\n");
}

TEST_CASE("codes: one row a code, with all that carry it, in the order of prefix and value") {
  CHECK(block("codes", "",
              "- treatment: ca-10\n  shape: cairn\n  code: CA-10-0\n- treatment: ca-9\n  shape: cairn\n  "
              "code: [CA-09-0, BR-01-1]\n") ==
        R"(| Number | What it says | Stands on | Sources |
| --- | --- | --- | --- |
| BR-01-1 | BR for Bryn, serial 01, 1 for a gold edge line | [Fern on Bryn](bryn.md#treatment-br-01); [on Cairn](cairn.md#treatment-ca-9) | [Pattern Book](sources.md#source-pattern-book), BR-01; no source recorded |
| BR-02-0 | BR for Bryn, serial 02, 0 for no edge line | [no motif, on Bryn](bryn.md#treatment-br-02) | no source recorded |
| CA-09-0 | CA for Cairn, serial 09, 0 for no edge line | [on Cairn](cairn.md#treatment-ca-9) | no source recorded |
| CA-10-0 | CA for Cairn, serial 10, 0 for no edge line | [on Cairn](cairn.md#treatment-ca-10) | no source recorded |

- **Number not known:** [Fern on Cairn](cairn.md#treatment-ca-shop)
)");
}

TEST_CASE("marks, look-alikes, statements, credits, cautions") {
  CHECK(block("marks") == R"(| Mark | How it was made | Reads | Used | Sources |
| --- | --- | --- | --- | --- |
| [A crown](marks.md#mark-one) | printed in red or blue | VELM | 1920 to 1950 | [Pattern Book](sources.md#source-pattern-book), inside the cover |
)");
  CHECK(block("look-alikes", "where: {name: Other}") ==
        "- **[Bryn](bryn.md#shape-bryn)** and **[Other](other-shapes.md#shape-other)**. Theirs is heavier. "
        "On record as well: round outline against square.\n");
  CHECK(block("claims") ==
        "- <a id=\"claim-only-panels\"></a>Only Bryn has panels (the author's judgement, from the entries "
        "of this guide). See [Bryn](bryn.md#shape-bryn).\n");
  CHECK(block("credits") ==
        "- [Crown](marks.md#photo-crown): Mo; [CC BY 4.0](https://creativecommons.org/licenses/by/4.0/).\n");
  CHECK(block("cautions", "where: {of: treatment}") ==
        "- **[Gold edge line](lists.md#feature-edge-line)**: Gold sparks.\n");
  const std::string whole = block("cautions");
  CHECK(holds(whole, "78 of 149"));
  CHECK(holds(whole, "*Science of the Total Environment* 197, 1997"));
  CHECK(holds(whole, "a laboratory decide"));
  CHECK(holds(whole, "Gold sparks."));
}

TEST_CASE("questions: in full at home, in one line elsewhere") {
  CHECK(block("questions") ==
        "> **An open question:** Why has [Bryn](bryn.md#shape-bryn) two glazes? What is known, and what "
        "would settle it: [Why two](questions.md#question-why-two).\n");
  CHECK(chapter("questions") == R"(# Open questions

<a id="question-why-two"></a>

## Why two

Why has [Bryn](bryn.md#shape-bryn) two glazes?

**What is known**

- A white one is known (a piece seen: [BR-01-1 Fern, 7-inch plate](bryn.md#specimen-br-01-plate)).

**What stands against it**

- The book has one only ([The Pattern Book of Amblecote & Tarn](sources.md#source-pattern-book), list of shapes).

**What would settle it**

- A kiln book.

* **About:** [Bryn](bryn.md#shape-bryn)
)");
}

TEST_CASE("corrections have the anchors of the statement and of what it replaces") {
  const std::string corrections = chapter("corrections");
  CHECK(holds(corrections, "<a id=\"claim-first-new\"></a>"));
  CHECK(holds(corrections, "<a id=\"claim-first-old\"></a>"));
  CHECK(holds(corrections, "~~Bryn came out in 1920.~~"));
  CHECK(holds(block("corrections"), "[**Corrigendum: Bryn, 2 May 2020**](corrections.md#claim-first-new)"));
}

TEST_CASE("the glossary in order, and words that lead home from elsewhere") {
  CHECK(chapter("glossary") == R"(# Glossary

<a id="term-verge"></a>**verge:** Where rim meets well.

<a id="term-well"></a>**well:** The middle of a plate, inside the [verge](#term-verge). See also [verge](#term-verge).
)");
  Guide guide(Texts{{"guide.yaml", "guide: V\ncontents: [glossary, prose/a.md]\n"},
                    {"records.yaml",
                     "- term: rim\n  means: A band.\n- term: coupe\n  means: Without one.\n  broader: rim\n"},
                    {"prose/a.md", "# A\n\n```glossary\nwhere: {broader: rim}\n```\n"}});
  CHECK(guide.file("a") ==
        "# A\n\n**[coupe](glossary.md#term-coupe):** Without one. See under [rim](glossary.md#term-rim).\n");
}

TEST_CASE("help wanted: looked for and not known, apart from not recorded") {
  const std::string text = block("help-wanted", "where: {maker: amblecote}");
  CHECK(part(text, "**Looked for", "**Not recorded") ==
        "**Looked for, and not known**\n\n- **The modeller of a shape:** [Cairn](cairn.md#shape-cairn).\n\n");
  CHECK(holds(text, "- **The last year of a shape:** [Cairn](cairn.md#shape-cairn)."));
  CHECK(holds(text, "[Why two](questions.md#question-why-two)"));
}

TEST_CASE("dates in order, and features on record that differ") {
  const std::string dates = block("timeline", "where: {maker: amblecote}");
  CHECK(dates == R"(Dates as they are recorded, in order of the earliest day that each allows.

| When | What | Sources |
| --- | --- | --- |
| 1920 to 1950 | [A crown](marks.md#mark-one), in use | [Pattern Book](sources.md#source-pattern-book), inside the cover |
| 1921 | [Bryn](bryn.md#shape-bryn), first offered | [Pattern Book](sources.md#source-pattern-book), p. 1 |
| about 1930 | [Cairn](cairn.md#shape-cairn), first offered | the author's judgement: by its glaze |
| 1940 | [Bryn](bryn.md#shape-bryn), last offered | [Pattern Book](sources.md#source-pattern-book), list of shapes |
)");
  CHECK(holds(block("tell-apart"),
              "- **Outline:** *round*: [Bryn](bryn.md#shape-bryn); *square*: "
              "[Other](other-shapes.md#shape-other); not recorded of one other."));
}

TEST_CASE("sources: what each is, what it is worth, and where it is cited") {
  CHECK(
      part(chapter("sources"), "<a id=\"source-a-book\">", "<a id=\"source-price-list\">") ==
      R"(<a id="source-a-book"></a>**Plates of Velm** (in tables: *A book*). By [Mo Delling](lists.md#person-mo). 1970. A book; an authored account with second-hand information.

- **Draws on:** [Gossip](#source-gossip), so that they are one witness and not two
- **Cited in:** [Cairn](cairn.md)

)");
  CHECK(block("sources", "where: {type: book}") ==
        "- [Plates of Velm](sources.md#source-a-book). By [Mo Delling](lists.md#person-mo), 1970; a book. An "
        "authored account with second-hand information.\n");
}

TEST_CASE("the index: numbers, names, other names that lead on, words and marked entries") {
  Guide guide(Texts{{"guide.yaml",
                     "guide: V\ncontents: [prose/a.md, {a-chapter-for-every: shape, where: {maker: "
                     "amblecote}, sure: yes}, glossary]\n"},
                    {"records.yaml", kPottery},
                    {"prose/a.md",
                     "# A\n\n[She](<index:Delling, Mo>) made <shape:bryn>; [lustre](<index:>) and the "
                     "[verge](<index:>).\n"}});
  const std::string index = guide.file("index");
  CHECK(holds(index,
              "**BR**\n\n- BR-01-1, [Fern on Bryn](bryn.md#treatment-br-01)\n- BR-02-0, [no motif, on "
              "Bryn](bryn.md#treatment-br-02)\n"));
  CHECK(holds(index, "- A&T, *see* [Amblecote & Tarn](lists.md#maker-amblecote)\n"));
  CHECK(holds(index, "- Bryn: **[Bryn](bryn.md#shape-bryn)**; [A](a.md)\n"));
  CHECK(holds(index, "- Delling, Mo: **[Lists](lists.md#person-mo)**; [A](a.md#index-1)\n"));
  CHECK(holds(index, "- dinner plate, *see* [7-inch plate](lists.md#form-plate)\n"));
  CHECK(holds(index, "- lustre: [A](a.md#index-2)\n"));
  CHECK(holds(index, "- verge: **[Glossary](glossary.md#term-verge)**; [A](a.md#index-3)\n"));
  CHECK(deadLinks(guide.files()).empty());
}

}  // namespace
}  // namespace saggar::compose::testing
