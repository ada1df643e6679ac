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
| [BR-02-0](bryn.md#treatment-br-02) | none | no edge line | from 1923 (doubted: the ink is another) | no source recorded (not seen) |
)");
  CHECK(block("treatments", "where: {motif: fern}\ngrouped: shape") ==
        R"(| Number | Motif | Lines and glaze | Offered | Sources |
| --- | --- | --- | --- | --- |
| **[Bryn](bryn.md#shape-bryn)** | | | | |
| [BR-01-1](bryn.md#treatment-br-01) | [Fern](motifs.md#motif-fern) | gold edge line | 1922 to 1930 | [Pattern Book](sources.md#source-pattern-book), BR-01 |
| **[Cairn](cairn.md#shape-cairn)** | | | | |
| [number not known](cairn.md#treatment-ca-shop) | [Fern](motifs.md#motif-fern) | not recorded | not recorded | [Plates of Velm](sources.md#source-a-book) (suggested; known from documents only) |
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
| **Flatware** | | | |
| [7-inch plate](forms.md#form-plate) (dinner plate) | 7 in | 9 1/8 in (232 mm) | [Price List](sources.md#source-price-list), p. 1 |
| **Hollowware** | | | |
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

TEST_CASE("a title of the author's own stands above any block, and what stands in it one level lower") {
  for (const std::string_view name : records::blockNames()) {
    CAPTURE(name);
    const std::string without = block(std::string(name));
    std::string with = block(std::string(name), "title: For *me*");
    CHECK(with.starts_with("## For \\*me\\*\n\n"));
    with.erase(0, with.find("\n\n") + 2);
    for (std::size_t at = 0; (at = with.find("\n### ", at)) != std::string::npos; ++at) with.erase(at + 1, 1);
    if (with.starts_with("### ")) with.erase(0, 1);
    CHECK(with == without);
  }
}

TEST_CASE("what an author types in a block and the block can do nothing with is said") {
  auto wrong = [](std::string_view name, std::string_view line) {
    Guide guide(
        Texts{{"guide.yaml", "guide: V\n"},
              {"records.yaml", kPottery},
              {"prose/a.md", "# A\n\n```" + std::string(name) + '\n' + std::string(line) + "\n```\n"}});
    std::string out;
    for (const std::string& one : guide.findings()) out += one + '\n';
    return out;
  };
  CHECK(wrong("timeline", "columns: [name]") ==
        "prose/a.md:4:1: this block has no use for `columns` [field-unknown] "
        "it takes `where`, `sure` and `title`\n");
  CHECK(wrong("codes", "in-order-of: code") ==
        "prose/a.md:4:1: this block has no use for `in-order-of` [field-unknown] "
        "it takes `where`, `sure` and `title`\n");
  CHECK(wrong("questions", "grouped: status") ==
        "prose/a.md:4:1: this block has no use for `grouped` [field-unknown] "
        "it takes `where`, `sure`, `in-order-of` and `title`\n");
  CHECK(wrong("marks", "columns: [name]\ngrouped: maker\nin-order-of: name\ntitle: Marks").empty());
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
        "- **[Bryn](bryn.md#shape-bryn)**, taken for **[Other](other-shapes.md#shape-other)**. Theirs is "
        "heavier. "
        "On record as well: round outline against square.\n");
  CHECK(block("claims") ==
        "- <a id=\"claim-only-panels\"></a>Only Bryn has panels (the author's judgement; open: the embossing "
        "of "
        "[Cairn](cairn.md#shape-cairn) is not recorded, nor that of one other). See "
        "[Bryn](bryn.md#shape-bryn).\n");
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

- **About:** [Bryn](bryn.md#shape-bryn)

**What is known**

- A white one is known (a piece seen: [BR-01-1 Fern, 7-inch plate](bryn.md#specimen-br-01-plate)).

**What stands against it**

- The book has one only ([The Pattern Book of Amblecote & Tarn](sources.md#source-pattern-book), list of shapes).

**What would settle it**

- A kiln book.
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
  CHECK(
      dates ==
      R"(Each row has the days that are proven, and behind “likely” the days that follow from all that is recorded. The rows stand in the order in which the things had likely happened; two of them may have come the other way round.

| When | What | Sources |
| --- | --- | --- |
| 1920 | [A crown](marks.md#mark-one), first used | [Pattern Book](sources.md#source-pattern-book), inside the cover |
| 1921 | [Bryn](bryn.md#shape-bryn), first offered | [Pattern Book](sources.md#source-pattern-book), p. 1 |
| likely 1930 | [Cairn](cairn.md#shape-cairn), first offered | the author's judgement: by its glaze |
| 1940 | [Bryn](bryn.md#shape-bryn), last offered | [Pattern Book](sources.md#source-pattern-book), list of shapes |
| 1950 | [A crown](marks.md#mark-one), last used | [Pattern Book](sources.md#source-pattern-book), inside the cover |
)");
  CHECK(holds(block("tell-apart"),
              "- **Outline:** *round*: [Bryn](bryn.md#shape-bryn); *square*: "
              "[Other](other-shapes.md#shape-other); not recorded of one other."));
}

TEST_CASE("sources: what each is, what it is worth, and where it is cited") {
  CHECK(
      part(chapter("sources"), "<a id=\"source-a-book\">", "<a id=\"source-price-list\">") ==
      R"(<a id="source-a-book"></a>**Plates of Velm**. By [Mo Delling](lists.md#person-mo). 1970. A book; an authored account with second-hand information.

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

// A guide of records alone, with a chapter for each shape and these blocks.
Guide guideOf(const std::string& records, const std::string& contents, const std::string& by = {}) {
  return Guide(Texts{{"guide.yaml", "guide: V\n" + (by.empty() ? "" : "by: " + by + "\n") +
                                        "contents: [{a-chapter-for-every: shape}, " + contents + "]\n"},
                     {"records.yaml", records}});
}

TEST_CASE("offered for one year, by a year, and with what another source says") {
  Guide guide = guideOf(R"(
- shape: a
  introduced: {is: 1954, cite: book}
  withdrawn: {is: 1954, cite: book}
- shape: b
  introduced:
    is: by 7 October 1923
    cite: book
    but:
      - {is: 1922, cite: list, set-aside: The list cites nothing.}
  withdrawn: by 1938
- shape: c
  introduced: {is: 1930, doubted: It may be older.}
  withdrawn: unknown
- shape: d
  introduced: {is: 1954, cite: book}
  withdrawn: {is: 1954, cite: list}
- source: book
  title: The Book
- source: list
  title: The List
)",
                        "glossary");
  auto offered = [&](const std::string& file) { return part(guide.file(file), "- **Offered:**", "\n"); };
  CHECK(offered("a") == "- **Offered:** in 1954 ([The Book](sources.md#source-book); suggested)");
  CHECK(
      offered("b") ==
      "- **Offered:** by 7 October 1923 ([The Book](sources.md#source-book); suggested; not 1922, as in [The "
      "List](sources.md#source-list): the list cites nothing), and until 1938 at the latest (no source "
      "recorded)");
  CHECK(offered("c") == "- **Offered:** from 1930 (doubted: it may be older); last year not known");
  CHECK(offered("d") ==
        "- **Offered:** in 1954 ([The Book](sources.md#source-book); suggested); last in 1954 ([The "
        "List](sources.md#source-list); suggested)");
  CHECK(holds(guide.file("README"),
              "- [B](b.md), on sale by 7 October 1923, to 1938 at the latest (first year suggested; last "
              "year: no source recorded)\n"));
}

TEST_CASE("pieces seen: by whom, when, and who has them") {
  const std::string records = R"(
- shape: a
  name: Alder
- specimen: one
  shape: a
  motif: none
  seen: {on: 1997-10-04, by: ann, how: in-hand}
  holder: the author
- specimen: two
  shape: a
  seen:
    - {on: 2001, by: ann, how: in-hand}
    - {on: May 2002, by: A neighbour, how: photograph}
  holder: private collection
- specimen: three
  shape: a
  seen: {by: A neighbour, how: reported}
  holder: Velm Museum
- person: ann
  name: Ann Author
)";
  Guide guide = guideOf(records, "glossary", "Ann Author");
  CHECK(part(guide.file("a"), "## Known pieces", "\n## ") == R"(## Known pieces

Seen by the author, where nobody else is named.

**Without a decoration on record**

- <a id="specimen-one"></a>A piece without a motif. Seen in hand on 4 October 1997. In the author's collection.
- <a id="specimen-two"></a>A piece. Seen in hand in 2001; seen in a photograph by A neighbour in May 2002. In a private collection.
- <a id="specimen-three"></a>A piece. Reported by A neighbour. Holder: Velm Museum.
)");
  // Somebody else's guide names everybody, and so does one in which a sighting has no name.
  Guide other = guideOf(records, "glossary", "Ben Other");
  CHECK(holds(other.file("a"), "Seen in hand by Ann Author on 4 October 1997."));
  CHECK_FALSE(holds(other.file("a"), "where nobody else"));
  Guide unnamed = guideOf(records + "- specimen: four\n  shape: a\n  seen: {on: 2003, how: in-hand}\n",
                          "glossary", "Ann Author");
  CHECK(holds(unnamed.file("a"), "Seen in hand by Ann Author on 4 October 1997."));
}

TEST_CASE("marks: how they were made in one phrase, unless a part of it has its own evidence") {
  Guide guide = guideOf(R"(
- mark: crown
  method: printed
  laid: overglaze
  colour: [gold, black]
  carries: date code
- mark: arc
  method: impressed
  colour: none
- mark: star
  method: printed
  laid: underglaze
  colour: {is: green, cite: book}
- source: book
  title: The Book
)",
                        "marks");
  const std::string& marks = guide.file("marks");
  CHECK(holds(marks, "| [Crown](#mark-crown) | printed in gold or black over the glaze |"));
  CHECK(holds(marks, "| [Arc](#mark-arc) | impressed |"));
  CHECK(holds(
      marks, "- **How it was made:** printed in gold or black over the glaze\n- **Carries:** a date code\n"));
  CHECK(holds(marks, "- **How it was put on:** impressed\n- **Colour:** none\n"));
  CHECK(holds(marks, "- **Colour:** green ([The Book](sources.md#source-book); suggested)\n"));
}

TEST_CASE("motifs: what the picture shows stands as facts; sets: what all pieces are of is said once") {
  Guide guide = guideOf(R"(
- motif: fern
  look: {placed: centre, subject: [leaves, fruit]}
- feature: placed
  of: motif
- feature: subject
  of: motif
- treatment: t
  name: The ferns
  motif: fern
- treatment: u
  name: The others
- form: plate
- form: cup
- set: one
  pieces: [{form: plate, of: treatment:t, how-many: 6}, {form: cup, of: treatment:t, how-many: 4}]
- set: two
  pieces: [{form: plate, of: treatment:t}, {form: cup, of: treatment:u}]
)",
                        "forms");
  CHECK(holds(guide.file("motifs"), "- **Placed:** centre\n- **Subject:** leaves or fruit\n"));
  const std::string& lists = guide.file("lists");
  CHECK(holds(lists,
              "- **Pieces:** 6 × [Plate](forms.md#form-plate); 4 × [Cup](forms.md#form-cup); all of [The "
              "ferns](motifs.md#treatment-t)\n"));
  CHECK(holds(lists,
              "- **Pieces:** [Plate](forms.md#form-plate), [The ferns](motifs.md#treatment-t); "
              "[Cup](forms.md#form-cup), "
              "[The others](#treatment-u)\n"));
}

TEST_CASE("what is doubted or disputed never stands as if it were sound") {
  Guide guide = guideOf(R"(
- source: book
  title: The Book
  type: decoration-book
  date: 1900/1960
- source: memoir
  title: A Memoir
  type: book
  date: 1981
- maker: tarn
  name: Tarn
  trade: pottery
  founded: {is: 1880, doubted: the stone is worn}
  cite: [{book: p. 1}]
- shape: plain
  name: Plain
  maker: tarn
  introduced: {is: 1920, cite: [{book: p. 2}], doubted: the notice is torn}
  cite: [{book: p. 2}]
- shape: told
  name: Told
  maker: tarn
  introduced: {is: 1925, doubted: he was old}
  cite: [{memoir: p. 9}]
- treatment: one
  name: One
  shape: plain
  introduced: {is: 1932, but: {is: 1934, cite: memoir}}
  cite: [{book: p. 3}]
- treatment: two
  name: Two
  shape: plain
  introduced: 1933
  cite: [{book: p. 4}]
- mark: crown
  name: Crown
  maker: tarn
  used: {is: 1931/1936, doubted: the ink is young}
  cite: [{book: p. 5}]
)",
                        "timeline, treatments, marks");
  const std::string& rows = guide.file("timeline");
  CHECK(holds(rows,
              "Plain](plain.md#shape-plain), first offered | [Book](sources.md#source-book), p. 2 "
              "(doubted: the notice is torn) |"));
  CHECK(holds(rows,
              "One](plain.md#treatment-one), first offered | [Book](sources.md#source-book), p. 3 "
              "(disputed; or 1934, [A Memoir](sources.md#source-memoir)) |"));
  CHECK(holds(rows, "Two](plain.md#treatment-two), first offered | [Book](sources.md#source-book), p. 4 |"));
  CHECK(holds(rows, "[Memoir](sources.md#source-memoir), p. 9 (doubted: he was old; suggested) |"));
  CHECK(holds(guide.file("treatments"), "from 1932 (disputed; or 1934"));
  CHECK_FALSE(holds(guide.file("treatments"), ") ("));
  CHECK(holds(guide.file("marks"), "| 1931 to 1936 (doubted: the ink is young"));
  CHECK(holds(guide.file("README"), "[Plain](plain.md), from 1920 (doubted)\n"));
  CHECK(holds(guide.file("README"), "[Told](told.md), from 1925 (doubted; suggested)"));
}

TEST_CASE("what tells two apart is said of the one in which it stands") {
  const std::string records = R"(
- feature: handle
  of: shape
- shape: one
  name: One
  look: {handle: looped}
  resembles: {tell: The foot is unglazed., shape: two}
- shape: two
  name: Two
  look: {handle: looped}
- shape: three
  name: Three
  look: {handle: looped}
)";
  auto page = [&](const std::string& more) {
    Guide guide(Texts{{"guide.yaml",
                       "guide: V\ncontents: [{a-chapter-for-every: shape, where: {name: Two}}, look-alikes, "
                       "tell-apart]\n"},
                      {"records.yaml", records + more}});
    std::string all;
    for (const auto& [name, text] : guide.files()) all += text;
    return all;
  };
  const std::string alike = page("");
  CHECK(holds(alike, "- **Taken for:** [Two](two.md#shape-two). The foot is unglazed.\n"));
  CHECK(holds(alike,
              "- **[Two](#shape-two)**, taken for **[One](other-shapes.md#shape-one)**, whose entry says: "
              "The foot is unglazed.\n"));
  CHECK(holds(alike,
              "- **[One](other-shapes.md#shape-one)**, taken for **[Two](two.md#shape-two)**. "
              "The foot is unglazed.\n"));
  CHECK(holds(alike, "No feature on record tells these apart; this is said in words.\n"));
  const std::string some = page("- shape: four\n  name: Four\n  look: {handle: ring}\n");
  CHECK(holds(some,
              "- **[One](other-shapes.md#shape-one):** looped handle; nothing recorded tells it from "
              "[Three](other-shapes.md#shape-three). No feature recorded tells it from "
              "[Two](two.md#shape-two). The foot is unglazed.\n"));
  CHECK(holds(some,
              "- **[Two](two.md#shape-two):** looped handle; nothing recorded tells it from "
              "[Three](other-shapes.md#shape-three). No feature recorded tells it from "
              "[One](other-shapes.md#shape-one), whose entry says: The foot is unglazed.\n"));
  CHECK(holds(some,
              "- **[Three](other-shapes.md#shape-three):** looped handle; nothing recorded tells it from "
              "[One](other-shapes.md#shape-one) or [Two](two.md#shape-two).\n"));
}

TEST_CASE("look-alikes and help wanted go by the years, and what an author tells is not told again") {
  const std::string records = R"(
- shape: late
  name: Late
  introduced: 1950
  modeller: unknown
  look: {handle: ring, verge: plain, rim: flat}
  resembles:
    - shape: rival
      tell: Ours has a ring where theirs is looped.
- shape: early
  name: Early
  introduced: 1900
  modeller: unknown
  look: {handle: looped}
  resembles: [{shape: middle}]
- shape: middle
  name: Middle
  introduced: 1925
  modeller: unknown
  look: {handle: ring}
- shape: rival
  name: Rival
  look: {handle: looped, verge: stepped, rim: flat}
)";
  Guide guide(Texts{{"guide.yaml", "guide: V\ncontents: [{a-chapter-for-every: shape}, prose/a.md]\n"},
                    {"records.yaml", records},
                    {"prose/a.md", "# A\n\n```look-alikes\n```\n\n```help-wanted\n```\n"}});
  CHECK(
      part(guide.file("a"), "- **[Early]", "\n\n") ==
      "- **[Early](early.md#shape-early)** and **[Middle](middle.md#shape-middle)**. On record: looped "
      "handle "
      "against ring.\n"
      "- **[Late](late.md#shape-late)**, taken for **[Rival](rival.md#shape-rival)**. Ours has a ring where "
      "theirs is "
      "looped. On record as well: plain verge against stepped.");
  CHECK(holds(
      guide.file("a"),
      "- **The modeller of a shape:** [Early](early.md#shape-early), [Middle](middle.md#shape-middle) and "
      "[Late](late.md#shape-late).\n"));
  // In its own chapter a shape stands first.
  CHECK(holds(guide.file("middle"),
              "- **[Middle](#shape-middle)** and **[Early](early.md#shape-early)**. On record: ring "
              "handle against looped.\n"));
}

TEST_CASE("the index names each chapter once, and decorations by their names") {
  Guide guide(Texts{
      {"guide.yaml", "guide: V\ncontents: [prose/b.md, prose/a.md, {a-chapter-for-every: shape}]\n"},
      {"records.yaml",
       "- shape: bryn\n  name: Bryn\n- treatment: odd\n  name: Plates marked X\n  shape: bryn\n- maker: m\n"
       "  works:\n    - {works: low, name: Low works}\n"},
      {"prose/a.md", "# A\n\nSee <shape:bryn> and [low](<index:Low works>).\n"},
      {"prose/b.md",
       "# B\n\nThe [mill](<index:Low works>) and the [yard](<index:Low works>) by <shape:bryn>.\n\n"
       "```makers\n```\n"}});
  const std::string& index = guide.file("index");
  CHECK(holds(index, "- Low works: **[B](b.md#maker-m)**; [A](a.md#index-1)\n"));
  CHECK(holds(index, "- Bryn: **[Bryn](bryn.md#shape-bryn)**; [B](b.md); [A](a.md)\n"));
  CHECK(holds(index, "- Plates marked X: **[Bryn](bryn.md#treatment-odd)**\n"));
}

TEST_CASE("pictures of one credit are told together") {
  const std::string more =
      "- photo: fern\n  file: images/fern.png\n  shows: motif:fern\n  credit: Mo\n  rights: own\n"
      "- photo: leaf\n  file: images/leaf.png\n  shows: motif:fern\n  credit: Mo\n  rights: own\n"
      "- photo: stem\n  file: images/stem.png\n  shows: motif:fern\n  credit: Mo\n  rights: own\n  note: Cut "
      "down.\n"
      "- photo: root\n  file: images/root.png\n  shows: motif:fern\n";
  const std::string credits = block("credits", "", more);
  CHECK(credits.substr(credits.find("- [Crown]")) ==
        "- [Crown](marks.md#photo-crown): Mo; [CC BY 4.0](https://creativecommons.org/licenses/by/4.0/).\n"
        "- Mo; the author's own pictures: [Fern](#photo-fern); [Leaf](#photo-leaf).\n"
        "- [Stem](#photo-stem): Mo; the author's own picture. Cut down.\n"
        "- [Root](#photo-root): credit not recorded; rights not recorded.\n");
}

TEST_CASE("a code is unread, or at odds with what is recorded, or without a rule: each in its own words") {
  Guide guide = guideOf(R"(
- maker: m
  codes:
    - rule: number
      written: PREFIX-SERIAL
      parts: {PREFIX: shape.prefix, SERIAL: 2 digits}
      missing: {16-18: pages torn out, 20: Not booked.}
      cite: book
- maker: quiet
- shape: a
  name: Alder
  maker: m
  prefix: AL
- shape: q
  name: Quay
  maker: quiet
- treatment: odd
  shape: a
  code: TR
- treatment: wrong
  shape: a
  code: ZZ-01
- treatment: ruleless
  shape: q
  motif: none
  code: 12
- source: book
  title: The Book
)",
                        "codes");
  const std::string& codes = guide.file("codes");
  CHECK(holds(codes, "| TR | nobody can read it yet |"));
  CHECK(holds(codes, "| ZZ-01 | it can be read, but not so that it agrees with what is recorded |"));
  CHECK(holds(codes, "| 12 | no rule for it is recorded | [no motif, on Quay](q.md#treatment-ruleless) |"));
  CHECK(holds(codes,
              "Nos. 16 to 18 are missing: pages torn out. No. 20 is missing: not booked "
              "([The Book](sources.md#source-book); suggested).\n"));
}

TEST_CASE("a piece that a complete list of its shape does not have is never listed without saying so") {
  Guide guide(Texts{{"records.yaml", R"(
- shape: round
  name: Round
  forms: {is: [plate], complete: yes}
- shape: square
  name: Square
- form: plate
  name: plate
  made-in: {all-but: [square]}
- form: jug
  name: jug
  made-in: all
- form: bowl
  name: bowl
  made-in: [square]
)"},
                    {"guide.yaml", "guide: G\ncontents:\n  - a-chapter-for-every: shape\n  - forms\n"}});
  const std::string& round = guide.file("round");
  CHECK(
      round.find("[Jug](forms.md#form-jug); disputed: not in the list of Round, which leaves nothing out") !=
      std::string::npos);
  CHECK(round.find("plate); disputed") == std::string::npos);
  CHECK(guide.file("square").find("disputed") == std::string::npos);
}

TEST_CASE("a record without a name is called in the author's own columns what it is called elsewhere") {
  Guide guide(Texts{
      {"records.yaml",
       "- term: dry-foot\n  means: A foot without glaze.\n- mark: k1\n  method: printed\n- mark: k2\n  name: "
       "Ring\n"},
      {"prose/a.md",
       "# A\n\n```marks\ncolumns: [method, name]\n```\n\n```glossary\ncolumns: [name, means]\n```\n"},
      {"guide.yaml", "guide: G\ncontents:\n  - prose/a.md\n  - marks\n"}});
  const std::string& made = guide.file("a");
  CAPTURE(made);
  CHECK(made.find("| [printed](marks.md#mark-k1) | [K1](marks.md#mark-k1) |") != std::string::npos);
  CHECK(made.find("| [not recorded](marks.md#mark-k2) | [Ring](marks.md#mark-k2) |") != std::string::npos);
}

}  // namespace
}  // namespace saggar::compose::testing
