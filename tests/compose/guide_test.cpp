#include <algorithm>

#include "guide_of.h"

// A whole guide: its files, their order, one home for every record, and no link that leads nowhere.
namespace saggar::compose::testing {
namespace {

const std::string kGuideYaml = R"(guide: Plates of Velm
by: [Ann Author, Ben Author]
edition: 2
editions:
  1: {title: Plates, date: 2019}
contents:
  - division: The firm
    holds: [prose/firm.md]
  - division: The shapes
    holds:
      - a-chapter-for-every: shape
        where: {maker: amblecote}
        in-order-of: introduced
  - division: At the back
    holds: [forms, codes, questions, glossary, corrections]
)";

const std::string kFirm = R"(# The firm

<maker:amblecote> stood at Velm [1901](source:town-book). See [the plates](shapes/bryn.md#the-plates) and [Cairn](shapes/cairn.md).

```makers
```

## Marks

```marks
where: {maker: amblecote}
```
)";

const std::string kBryn = R"(# Bryn of Velm

A [shape](<index:>) by [her](<index:Delling, Mo>). Back to [the firm](../firm.md#marks).

## The plates

```treatments
where: {shape: bryn, motif: known}
```
)";

std::map<std::string, std::string> wholeGuide() {
  return {{"guide.yaml", kGuideYaml},
          {"records.yaml", kPottery},
          {"prose/firm.md", kFirm},
          {"prose/shapes/bryn.md", kBryn}};
}

TEST_CASE("a guide is its contents, its chapters in order, and the index last") {
  Guide guide(wholeGuide());
  CHECK(guide.findings().empty());
  guide.files();
  CHECK(guide.order == std::vector<std::string>{"README", "firm", "bryn", "cairn", "forms", "codes",
                                                "questions", "glossary", "corrections", "motifs",
                                                "other-shapes", "lists", "sources", "index"});
  CHECK(guide.file("README") == R"(# Plates of Velm

By Ann Author and Ben Author. Second edition. The first edition came out in 2019.

## The firm

- [The firm](firm.md)

## The shapes

- [Bryn of Velm](bryn.md), 1921 to 1940
- [Cairn](cairn.md), from about 1930 (the author's judgement)

## At the back

- [Pieces and their sizes](forms.md)
- [Numbers and codes](codes.md)
- [Open questions](questions.md)
- [Glossary](glossary.md)
- [Corrections](corrections.md)

## Lists, sources and index

- [Motifs](motifs.md)
- [Other shapes](other-shapes.md)
- [Lists](lists.md)
- [Sources](sources.md)
- [Index](index.md)
)");
}

TEST_CASE("every link of a guide leads to a file and a place that are there") {
  Guide guide(wholeGuide());
  CHECK(deadLinks(guide.files()).empty());
  // The search finds a link that leads nowhere.
  std::map<std::string, std::string> broken = guide.files();
  broken["firm"] += "\n[x](bryn.md#treatment-br-99)\n";
  CHECK(deadLinks(broken) == std::vector<std::string>{"firm -> bryn.md#treatment-br-99"});
}

TEST_CASE("every record is described exactly once") {
  Guide guide(wholeGuide());
  std::string everything;
  for (const auto& [name, text] : guide.files()) everything += text;
  for (RecordIndex i = 0; i < guide.collection.size(); ++i) {
    const std::string tag = "<a id=\"" + anchorOf((*guide.materials).records[i]) + "\"></a>";
    const std::size_t first = everything.find(tag);
    CHECK_MESSAGE(first != std::string::npos, tag);
    CHECK_MESSAGE((first == std::string::npos || everything.find(tag, first + 1) == std::string::npos), tag);
    CHECK(guide.places->of(i).has_value());
  }
}

TEST_CASE("no private value and no id of one is printed") {
  Guide guide(wholeGuide());
  for (const auto& [name, text] : guide.files())
    for (std::string_view word : {"shelf nine", "Secretname", "hush"}) CHECK_FALSE(holds(text, word));
}

TEST_CASE("a guide without contents has its prose, its shapes and the lists") {
  Guide guide(Texts{{"records.yaml", kPottery},
                    {"prose/firm.md", "# The firm\n\nWords.\n"},
                    {"prose/motifs/fern.md", "# The fern\n\nIt is green.\n"}});
  CHECK(guide.findings().empty());
  guide.files();
  CHECK(guide.order == std::vector<std::string>{"README", "firm", "bryn", "cairn", "other", "fern", "marks",
                                                "forms", "codes", "questions", "glossary", "corrections",
                                                "lists", "sources", "index"});
  CHECK(deadLinks(guide.files()).empty());
}

TEST_CASE("a guide of nothing is a contents page, sources and an index") {
  Guide guide(Texts{{"guide.yaml", "guide: Nothing\n"}});
  guide.files();
  CHECK(guide.order == std::vector<std::string>{"README", "sources", "index"});
  CHECK(guide.file("sources") == "# Sources\n\nNone recorded.\n");
  CHECK(guide.file("index") == "# Index\n\nNone recorded.\n");
}

TEST_CASE("a draft says so on every page, and each file says what it was made from") {
  Guide guide(wholeGuide());
  guide.materials->draft = true;
  for (const auto& [name, text] : guide.files()) CHECK(text.starts_with("**Draft:**"));
  CHECK(guide.madeFrom["bryn"].contains("treatment:br-01"));
  CHECK(guide.madeFrom["bryn"].contains("specimen:br-01-plate"));
  CHECK_FALSE(guide.madeFrom["cairn"].contains("treatment:br-01"));
  CHECK(guide.images == std::set<std::string>{"images/crown.png"});
}

TEST_CASE("records that are broken, point nowhere or at each other still make a guide") {
  Guide guide(Texts{{"records.yaml", R"YAML(
- shape: a
  resembles: [{shape: b, tell: "[x](shape:nowhere) [y](../../etc.md) ![z](../../../z.png)"}]
  introduced: none
  forms: [nothing]
  look: {nofeature: 1}
- shape: b
  resembles: [{shape: a}]
  maker: unknown
- treatment: t
  shape: [a, b]
  motif: nobody
  code: [X, Y, unknown]
  continues: t
- treatment: nowhere
  shape: gone
- specimen: s
  treatment: t
  marks: none
  date-code: none
- specimen: loose
- question: q
  asks: unknown
- claim: c
  says: none
  replaces: c
- term: t
  means: none
  broader: t
- photo: p
  file: images/p.png
  shows: photo:p
- set: s
- mark: m
- motif: m
- form: f
- feature: f
- person: p
- maker: m
  codes: unknown
- talk: t
- checklist: c
- source: s
  draws-on: s
)YAML"}});
  CHECK(deadLinks(guide.files()).empty());
  CHECK(guide.files().size() > 5);
}

}  // namespace
}  // namespace saggar::compose::testing
