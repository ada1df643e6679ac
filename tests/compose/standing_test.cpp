// How facts stand, in words, beside them. All data is invented.
#include "compose/checklist.h"
#include "compose/claims.h"
#include "guide_of.h"

namespace saggar::compose::testing {
namespace {

const std::string kSources = R"(
- source: book
  type: decoration-book
  title: The Book
  date: 1920/1950
- source: copied
  type: copy
  title: The Copy
  date: 1920/1950
- source: memoir
  type: book
  title: A Memoir
  date: 1970
- maker: tarn
  name: Tarn
  trade: pottery
- motif: fern
  name: Fern
- form: plate
  name: plate
- shape: bryn
  name: Bryn
  maker: tarn
  cite: [{book: leaf 1}]
)";

std::string chapterOf(const std::string& records) {
  Guide guide(Texts{{"guide.yaml", "guide: V\ncontents: [{a-chapter-for-every: shape}]\n"},
                    {"records.yaml", kSources + records}});
  return guide.file("bryn");
}

std::string rowsOf(const std::string& records,
                   const std::string& columns = "[code, motif, introduced, withdrawn]") {
  const Guide guide(Texts{
      {"records.yaml", kSources + records + "- checklist: all\n  title: All\n  show: treatment\n  columns: " +
                           columns + "\n  in-order-of: code\n"}});
  std::vector<RecordIndex> from;
  std::string out;
  composeChecklist(*guide.materials, guide.at("checklist:all"),
                   {.begin =
                        [&](const ChecklistHead& head) {
                          for (const Block& block : head.document.blocks)
                            if (block.info == "standing") out += document::plainText(block.blocks) + '\n';
                        },
                    .row =
                        [&](const document::Row& row) {
                          for (std::size_t i = 1; i < row.cells.size(); ++i)
                            out += (i == 1 ? "" : " | ") + plain(row.cells[i].inlines);
                          out += '\n';
                        }},
                   from);
  return out;
}

const std::string kDocumented = R"(
- treatment: br-1
  shape: bryn
  motif: fern
  code: BR-1
  introduced: 1930
  withdrawn: {is: 1940, cite: [{copied: struck out}]}
  cite: [{book: BR-1}]
)";
const std::string kTold = R"(
- treatment: br-2
  shape: bryn
  motif: fern
  code: BR-2
  introduced: {is: 1931, cite: [{book: leaf 9}]}
  withdrawn: {is: 1941, judged: by its glaze}
  cite: [{memoir: p. 5}]
)";

TEST_CASE("an entry says how a field stands by its own sources, and how what rests on the record's does") {
  const std::string text = chapterOf(kDocumented + kTold);
  const std::string first = part(text, "### BR-1", "### ");
  CHECK(holds(first, "to 1940 ([The Copy](sources.md#source-copied), struck out; supported)"));
  CHECK(holds(first, "- **Sources:** [The Book](sources.md#source-book), BR-1\n"));
  const std::string second = part(text, "### BR-2", "### ");
  CHECK(holds(second, "to 1941 (the author's judgement: by its glaze)"));
  CHECK(holds(second, "from 1931 ([The Book](sources.md#source-book), leaf 9"));
  CHECK_FALSE(holds(second, "leaf 9; supported"));
  CHECK(holds(second, "- **Sources:** [A Memoir](sources.md#source-memoir), p. 5 (suggested)\n"));
}

TEST_CASE("what nothing is cited for, beside fields that have sources, says so") {
  const std::string text = chapterOf(R"(
- treatment: br-3
  shape: bryn
  motif: {is: fern, cite: [{book: leaf 2}]}
  code: {is: BR-3, cite: [{book: leaf 2}]}
  introduced: 1932
)");
  CHECK(holds(part(text, "### BR-3", "### "), "from 1932 (no source recorded)"));
}

TEST_CASE("what cannot be true together is disputed where it stands") {
  const std::string text = chapterOf(R"(
- motif: moss
  name: Moss
  introduced: {is: 1935, cite: [{book: leaf 7}]}
- treatment: br-4
  shape: bryn
  motif: moss
  code: BR-4
  introduced: {is: 1932, cite: [{book: leaf 4}]}
  cite: [{book: BR-4}]
)");
  CHECK(holds(part(text, "### BR-4", "### "),
              "from 1932 ([The Book](sources.md#source-book), leaf 4; disputed"));
}

TEST_CASE("a table says how a decoration is known and stands; what goes for every row once, below") {
  const std::string mixed = part(chapterOf(kDocumented + kTold + R"(
- specimen: seen
  treatment: br-1
  form: plate
  seen: {how: in-hand}
)"),
                                 "| Number |", "\n\n");
  CHECK(holds(mixed, "| 1930 to 1940 (last year supported) | [Book](sources.md#source-book), BR-1 |"));
  CHECK(holds(mixed, "| 1931 to 1941 (first year documented; last year: the author's judgement) |"));
  CHECK(holds(mixed, "[Memoir](sources.md#source-memoir), p. 5 (suggested; known from"));
  const std::string alike = chapterOf(kDocumented + R"(
- treatment: br-5
  shape: bryn
  motif: fern
  code: BR-5
  introduced: 1931
  withdrawn: {is: 1941, cite: [{copied: struck out}]}
  cite: [{book: BR-5}]
)");
  CHECK_FALSE(holds(part(alike, "| Number |", "\n\n"), "supported"));
  CHECK(holds(alike, "Of every decoration in this table: last year supported; known from documents only."));
}

TEST_CASE(
    "a checklist: what most of a row has in common in its first column, what differs in its own place") {
  CHECK(rowsOf(kDocumented + kTold) ==
        "What has no word beside it is documented: an original source says it at first hand. Supported: two "
        "independent witnesses say so, or a copy of such a source. Suggested: another source says so. A word "
        "in the "
        "first column goes for its row.\n"
        "BR-1 | Fern | 1930 | 1940 (supported)\n"
        "BR-2 (suggested) | Fern | 1931 (documented) | 1941 (the author's judgement)\n");
  // What most rows have in common goes without saying.
  CHECK(rowsOf("- treatment: a\n  code: A\n- treatment: b\n  code: B\n" + kDocumented, "[code]") ==
        "What has no word beside it has no source recorded. Documented: an original source says it at first "
        "hand. A "
        "word in the first column goes for its row.\nA\nB\nBR-1 (documented)\n");
  CHECK(rowsOf(kDocumented, "[code, introduced]") ==
        "What stands here is documented: an original source says it at first hand.\nBR-1 | 1930\n");
  // Nothing that needs evidence is shown: no word about it.
  CHECK(rowsOf(kDocumented, "[met]") == "BR-1 Fern\n");
}

TEST_CASE(
    "a contents page says how the dates of a shape stand; what came after what has its source beside it") {
  Guide guide(Texts{{"guide.yaml", "guide: V\ncontents: [{a-chapter-for-every: shape}]\n"},
                    {"records.yaml", kSources + R"(
- shape: cairn
  name: Cairn
  maker: tarn
  introduced: {is: 1931, cite: [{memoir: p. 3}]}
  withdrawn: {is: 1940, cite: [{book: leaf 8}]}
  after: {event: shape:bryn, cite: [{memoir: p. 4}]}
)"}});
  CHECK(holds(guide.file("README"), "- [Cairn](cairn.md), 1931 to 1940 (first year suggested)\n"));
  CHECK(holds(guide.file("cairn"),
              "- **Came after:** [Bryn](bryn.md#shape-bryn) ([A Memoir](sources.md#source-memoir), p. 4; "
              "suggested)\n"));
}

TEST_CASE("a claim always says how it stands") {
  const Guide guide(Texts{{"records.yaml", kSources + R"(
- claim: sure
  says: Fern is on Bryn.
  cite: [{book: BR-1}]
- claim: told
  says: Fern was liked.
  cite: [{memoir: p. 7}]
)"}});
  CHECK(plain(claimCitations(guide.unlinked(), guide.record("claim:sure"), false)) ==
        "The Book, BR-1; documented");
  CHECK(plain(claimCitations(guide.unlinked(), guide.record("claim:told"), true)) ==
        "Memoir, p. 7; suggested");
}

}  // namespace
}  // namespace saggar::compose::testing
