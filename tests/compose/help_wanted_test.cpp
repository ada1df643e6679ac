#include "compose/help_sheet.h"
#include "guide_of.h"

// What readers are asked for, and what to look at to tell things apart, as they are printed.
namespace saggar::compose::testing {
namespace {

const std::string kWare = R"(- maker: amblecote
  name: Amblecote
  trade: pottery
  codes:
    - rule: pattern number
      written: PREFIX-SERIAL
      parts: {PREFIX: shape.prefix, SERIAL: 2 digits}
      order: SERIAL within PREFIX
      used: 1920/1940
      missing: {BR-06 to BR-07: A leaf is torn out.}
- {source: books, title: Books, type: ledger, date: 1920/1940}
- {feature: outline, of: shape, effort: 1, values: {round: r, square: s}}
- {feature: rim, of: shape, effort: 2, values: {yes: y, no: n}}
- {form: plate, name: plate, actual: 9 in, nominal: 7 in}
- {form: cup, name: cup, actual: 3 in, nominal: 2 in}
- {form: pot, name: pot, actual: 3 in, nominal: 2 in}
- {shape: bryn, name: Bryn, maker: amblecote, modeller: unknown, prefix: BR, introduced: 1920, withdrawn: 1940, forms: [plate, cup, pot], look: {outline: round, rim: unknown}}
- {shape: cairn, name: Cairn, maker: amblecote, modeller: unknown, prefix: CA, introduced: 1921, withdrawn: 1940, look: {outline: square}}
- {motif: fern, name: Fern, supplier: amblecote, supplier-number: 12, introduced: 1920, withdrawn: 1940}
- {treatment: br-02, shape: bryn, motif: fern, code: BR-02, forms: plate, introduced: 1922, withdrawn: 1930, cite: books}
- {treatment: br-09, shape: bryn, motif: none, code: BR-09, forms: plate, introduced: 1925, withdrawn: 1930, cite: books}
- {specimen: a, treatment: br-02, form: plate, seen: {on: 2019, how: in-hand}}
- {question: why, name: Why, asks: Why two?, would-settle: [A piece., A list.]}
)";

std::string block(const std::string& name, const std::string& yaml = {}, const std::string& more = {}) {
  Guide guide(
      Texts{{"guide.yaml", "guide: V\ncontents: [prose/a.md]\n"},
            {"records.yaml", kWare + more},
            {"prose/a.md", "# A\n\n```" + name + "\n" + yaml + (yaml.empty() ? "" : "\n") + "```\n"}});
  CHECK(guide.findings().empty());
  return guide.file("a").substr(5);
}

// The rows of the sheet as they are set: a group's heading, or the cells with a stroke between.
std::string sheet(const std::string& records) {
  Guide guide(Texts{{"guide.yaml", "guide: V\nby: Mo Delling\n"}, {"records.yaml", records}});
  std::string out;
  std::vector<RecordIndex> madeFrom;
  const bool any = composeHelpSheet(
      *guide.materials,
      {.begin = [&](const ChecklistHead& head) { out += document::plainText(head.document.blocks) + '\n'; },
       .row =
           [&](const document::Row& row) {
             for (std::size_t i = 0; i < row.cells.size(); ++i)
               out += (i == 0 ? "" : "|") + document::plainText(row.cells[i].inlines);
             out += '\n';
           }},
      madeFrom);
  CHECK(any != out.empty());
  CHECK(any != madeFrom.empty());
  return out;
}

}  // namespace

TEST_CASE("help wanted: each gap in its group") {
  CHECK(block("help-wanted") ==
        R"(**Looked for, and not known**

- **The modeller of a shape:** [Bryn](other-shapes.md#shape-bryn) and [Cairn](other-shapes.md#shape-cairn).
- **The rim of a shape:** [Bryn](other-shapes.md#shape-bryn).

**Not recorded so far**

- **The rim of a shape:** [Cairn](other-shapes.md#shape-cairn).

**Numbers that are not on record**

- **Pattern number BR:** BR-03 to BR-05 (1922 to 1925), BR-08 (1922 to 1925).

**Numbers on pages that are lost**

- **Pattern number BR, a leaf is torn out:** BR-06 to BR-07 (1922 to 1925).

**Known from documents alone, without a piece**

- **Bryn:** [BR-09 without a motif](other-shapes.md#treatment-br-09).

**Pieces on the lists that nobody has seen**

- **Bryn:** [cup](lists.md#form-cup) and [pot](lists.md#form-pot).

The open questions are set out with what would settle each: [Why](lists.md#question-why).
)");
}

TEST_CASE("help wanted: of what is chosen alone") {
  CHECK(block("help-wanted", "where: {id: cairn}") ==
        R"(**Looked for, and not known**

- **The modeller of a shape:** [Cairn](other-shapes.md#shape-cairn).

**Not recorded so far**

- **The rim of a shape:** [Cairn](other-shapes.md#shape-cairn).

The open questions are set out with what would settle each: [Why](lists.md#question-why).
)");
}

TEST_CASE("help wanted: how many there were, where enough pieces have been seen") {
  std::string pieces;
  for (int i = 0; i < 20; ++i)
    pieces += "- {specimen: p" + std::to_string(i) + ", treatment: br-0" + (i == 0 ? "9" : "2") +
              ", seen: {on: 2019, how: in-hand}}\n";
  CHECK(part(block("help-wanted", "where: {id: bryn}", pieces), "**What may not be", "This is a reckoning") ==
        R"(**What may not be on record at all**

- **Bryn:** two decorations seen on 21 pieces, one of them on one piece alone and none on two; nothing in that says that there were more; known from documents alone, beside them: none.

)");
}

TEST_CASE("the sheet to print") {
  CHECK(sheet(kWare) ==
        R"(Help wanted
Here is what this guide does not know yet. A number written on a foot, a photograph of a mark or a page of an old list may be all that is wanted; whoever has one is asked to tell Mo Delling.
 tick when you can tell, and write down how you know
Looks tell nothing of what a glaze gives off: of nearly 6,000 pieces tested, 14.2 per cent leached lead (California Agriculture 53(5), 1999). Do not eat or drink from old ware unless that very piece has been tested; keep acid food, dishwasher and microwave oven away from it. Local rules and a laboratory decide. This list is no appraisal.
Looked for, and not known
|The modeller of a shape|Bryn and Cairn|
|The rim of a shape|Bryn|
Not recorded so far
|The rim of a shape|Cairn|
Numbers that are not on record
|Pattern number BR|BR-03 to BR-05 (1922 to 1925), BR-08 (1922 to 1925)|
Numbers on pages that are lost
|Pattern number BR, a leaf is torn out|BR-06 to BR-07 (1922 to 1925)|
Known from documents alone, without a piece
|Bryn|BR-09 without a motif|
Pieces on the lists that nobody has seen
|Bryn|cup and pot|
Open questions
|Why|A piece. A list.|
)");
  CHECK(sheet("- {term: rim, means: A band.}\n").empty());
}

TEST_CASE("tell apart: two, several, and what nothing tells") {
  CHECK(block("tell-apart", "where: {id: [bryn, cairn]}") ==
        R"(To tell them apart look at the outline.

- **[Bryn](other-shapes.md#shape-bryn):** round outline.
- **[Cairn](other-shapes.md#shape-cairn):** square outline.

The features on record that differ, the quickest to see first.

- **Outline:** *round*: [Bryn](other-shapes.md#shape-bryn); *square*: [Cairn](other-shapes.md#shape-cairn).
)");
  CHECK(block("tell-apart", {},
              "- {shape: dun, name: Dun, maker: amblecote, look: {outline: square, rim: no}}\n"
              "- {shape: esk, name: Esk, maker: amblecote, look: {outline: square, rim: yes}}\n") ==
        R"(**Shapes**

To tell any two of them apart it is enough to look at the outline and the rim. Some are not told apart by any feature on record; they are named below.

- **[Bryn](other-shapes.md#shape-bryn):** round outline.
- **[Cairn](other-shapes.md#shape-cairn):** square outline; nothing recorded tells it from [Dun](other-shapes.md#shape-dun) or [Esk](other-shapes.md#shape-esk).
- **[Dun](other-shapes.md#shape-dun):** square outline; no rim; nothing recorded tells it from [Cairn](other-shapes.md#shape-cairn).
- **[Esk](other-shapes.md#shape-esk):** square outline; with a rim; nothing recorded tells it from [Cairn](other-shapes.md#shape-cairn).

The features on record that differ, the quickest to see first.

- **Outline:** *round*: [Bryn](other-shapes.md#shape-bryn); *square*: [Cairn](other-shapes.md#shape-cairn), [Dun](other-shapes.md#shape-dun) and [Esk](other-shapes.md#shape-esk).
- **Rim:** *no*: [Dun](other-shapes.md#shape-dun); *yes*: [Esk](other-shapes.md#shape-esk); not recorded of two others.

**Decorations**

To tell them apart look at the motif.

- **[BR-02 Fern](other-shapes.md#treatment-br-02):** with [Fern](motifs.md#motif-fern).
- **[BR-09 without a motif](other-shapes.md#treatment-br-09):** no motif.
)");
  CHECK(block("tell-apart", "where: {id: bryn}") ==
        R"(None recorded.
)");
}

}  // namespace saggar::compose::testing
