#include "compose/outline.h"

#include "guide_of.h"

// What lies on the lectern: the outline of a talk and its chapter times, word for word.
namespace saggar::compose::testing {
namespace {

std::string outline(const Guide& guide, const std::string& talk = "evening") {
  return render::renderMarkdown(composeOutline(*guide.materials, guide.at("talk:" + talk)).document);
}

std::string outlineOf(const std::string& records, const std::string& setting = {}) {
  Texts texts{{"records.yaml", records}};
  if (!setting.empty()) texts["guide.yaml"] = setting;
  return outline(Guide(texts));
}

// A talk of which one segment says these fields.
std::string segment(const std::string& fields) {
  return "- talk: evening\n  title: An evening\n  segments:\n    - title: One\n" + fields;
}

// The facts of one record, without its name.
std::string factsOf(const std::string& reference, const std::string& records) {
  const std::string text = outlineOf(records + segment("      about: [" + reference + "]\n"));
  const std::string facts = part(text, "### Facts\n\n- **", "\n- **");
  return facts.substr(std::min(facts.find('\n', 14), facts.size() - 1) + 1);
}

const std::string kEvening = R"(
- talk: evening
  title: "Plates: an evening"
  series: pots-of-the-river
  number: 2
  budget: 10:00
  recorded: 4 May 2021
  link: https://example.org/evening
  note: Bring a lamp.
  segments:
    - title: Opening
      about: [maker:amblecote]
      time: 2:00
      say: |
        Good evening. It is in [the town book](source:town-book), and the firm is of 1900
        [1901](source:town-book).
    - title: Two plates
      about: [treatment:br-01, shape:bryn]
      show: [specimen:br-01-plate, photo:crown]
      after: [Opening]
      keep: should
    - title: The pot
      show: [specimen:br-01-pot, specimen:br-01-plate]
      after: [Opening]
      keep: may
      time: 1:00
      about: [treatment:br-01]
)";

TEST_CASE("the head: series, plan, paces, what was recorded, and the author's note") {
  const std::string text = outlineOf(kPottery + kEvening);
  CHECK(part(text, "# Plates", "## On the table") == R"(# Plates: an evening

Pots of the River, talk 2. Planned for 10:00; the segments come to about 3:16, about 6:44 to spare. Estimates take 130 words a minute and 8 seconds a piece. A fact without a word about how well it is known is documented. Recorded: 4 May 2021. To be seen at https\://example.org/evening.

Bring a lamp.

## Running times

| From | To | Segment | Length | Estimate | Pieces | Keep |
| --: | --: | --- | --: | --: | --: | --- |
| 0:00 | 2:00 | Opening | 2:00 | 0:06 | 0 | must |
| 2:00 | about 2:16 | Two plates | 0:16 (estimated) | 0:16 | 2 | should |
| about 2:16 | about 3:16 | The pot | 1:00 | 0:16 | 2 | may |

When time is short, leave out “The pot” (1:00), then “Two plates” (0:16 (estimated)); together 1:16.

)");
}

TEST_CASE("pieces on the table: in order, each once, with what to know before packing") {
  CHECK(part(outlineOf(kPottery + kEvening), "## On the table", "## Not to be") == R"(## On the table

1. **BR-01-1 Fern, 7-inch plate**; from 2:00, again from about 2:16; held by a museum
2. **Crown**; from 2:00; a picture
3. **BR-01-1 Fern, pot**; from about 2:16; not seen in hand: have its picture

)");
  CHECK(holds(outlineOf(segment("      time: 1:00\n")), "## On the table\n\nNo piece is shown.\n"));
}

TEST_CASE("what the speaker has at home needs no errand, and private fields are not told") {
  const std::string own =
      "- specimen: a\n  kept: shelf nine\n  owner: Mrs Secretname\n  my-thought: hush\n  seen: 2019\n";
  for (const char* holder : {"the author", "author", "MO DELLING"}) {
    const std::string text =
        outlineOf(own + "  holder: " + holder + "\n" + segment("      show: specimen:a\n"),
                  "guide: G\nby: Mo Delling\n");
    CHECK(holds(text, "1. **A**; from 0:00\n"));
    for (const char* secret : {"shelf", "Secretname", "hush"}) CHECK_FALSE(holds(text, secret));
  }
}

TEST_CASE("pieces of one name are told apart by their ids") {
  const std::string text =
      outlineOf(kPottery + "- specimen: br-01-plate-2\n  treatment: br-01\n  form: plate\n  seen: 2019\n" +
                segment("      show: [specimen:br-01-plate, specimen:br-01-plate-2, specimen:br-01-pot]\n"));
  CHECK(holds(text, "1. **BR-01-1 Fern, 7-inch plate** (br-01-plate); from 0:00"));
  CHECK(holds(text, "2. **BR-01-1 Fern, 7-inch plate** (br-01-plate-2); from 0:00"));
  CHECK(holds(text, "3. **BR-01-1 Fern, pot**; from 0:00"));
  CHECK(holds(text, "- 2 · **BR-01-1 Fern, 7-inch plate** (br-01-plate-2)\n"));
}

TEST_CASE("a segment: its times, what is shown, what is said, and the facts to hand") {
  CHECK(part(outlineOf(kPottery + kEvening), "## 0:00", "## 2:00") == R"(## 0:00  Opening

Until 2:00; takes 2:00.

### Say

Good evening. It is in the town book, and the firm is of 1900 (Town Book, 1901).

### Facts

- **Amblecote & Tarn**
  - pottery; at Velm
  - founded 1900; closed 1950
  - known from Town Book, 1901, potters (supported)

)");
  CHECK(part(outlineOf(kPottery + kEvening), "## 2:00", "## about") == R"(## 2:00  Two plates

Until about 2:16; takes 0:16 (estimated).

### Show

- 1 · **BR-01-1 Fern, 7-inch plate**
  - numbered BR-01-1: BR for Bryn, serial 01, 1 for a gold edge line
  - mark: A crown, in the foot
  - date code L241: Low works, 1st quarter 1924
  - on Bryn; gold edge line; offered 1922 to 1930
  - measures 9 1/8 in (232 mm)
  - seen in hand by Mo Delling, 3 February 2001
  - held by a museum
- 2 · **Crown**
  - The crown of Amblecote.

### Do not say

- ~~Bryn came out in 1920.~~

### Facts

- **BR-01-1 Fern**, on Bryn
  - BR for Bryn, serial 01, 1 for a gold edge line
  - gold edge line
  - offered 1922 to 1930
  - met with often
  - seen in hand
  - known from Pattern Book, BR-01
- **Bryn**
  - round outline; embossing in panels; closed-knob finial; white glaze, or ivory since 1930
  - offered 1921 (Pattern Book, p. 1) to 1940
  - made by Amblecote & Tarn; modelled by Mo Delling
  - taken for Other: Theirs is heavier.
  - known from Pattern Book, list of shapes

)");
}

TEST_CASE("what was told is not told twice, and a segment says what it builds on") {
  CHECK(part(outlineOf(kPottery + kEvening), "## about", "nothing") == R"(## about 2:16  The pot

Until about 3:16; takes 1:00. Builds on “Opening”, 0:00.

### Show

- 3 · **BR-01-1 Fern, pot**
  - on Bryn; gold edge line; offered 1922 to 1930
  - reported by a friend
- 1 · **BR-01-1 Fern, 7-inch plate**: see 2:00, Two plates

### Facts

- **BR-01-1 Fern**: see 2:00, Two plates
)");
  const std::string twice = outlineOf(
      kPottery +
      segment("      about: [shape:bryn, shape:bryn, form:pot]\n      show: [form:pot, form:pot]\n"));
  CHECK(holds(twice, "- **Pot**: see above\n"));
  CHECK(twice.find("**Bryn**") == twice.rfind("**Bryn**"));
}

TEST_CASE("plan and times: too long, exact, without a budget, out of order") {
  auto head = [](const std::string& budget, const std::string& segments) {
    return outlineOf("- talk: evening\n  title: E\n" + budget + "  segments:\n" + segments);
  };
  CHECK(holds(head("  budget: 5:00\n", "    - {title: A, time: 6:00}\n"),
              "Planned for 5:00; the segments come to 6:00, 1:00 too long."));
  CHECK(holds(head("  budget: 6:00\n", "    - {title: A, time: 6:00}\n"),
              "Planned for 6:00; the segments come to 6:00. Estimates"));
  CHECK(holds(head("", "    - {title: A, time: 6:00}\n"), "No budget; the segments come to 6:00."));
  CHECK(holds(head("  budget: unknown\n", "    - A\n"), "No budget; the segments come to about 0:00."));
  CHECK(holds(outlineOf("- talk: evening\n  title: E\n  budget: 5:00\n  segments: unknown\n"),
              "Planned for 5:00; no segment is recorded."));
  std::string many;
  for (int i = 0; i < 65; ++i) many += " word";
  CHECK(holds(head("", "    - {title: A, time: 0:10, say:" + many + "}\n"),
              "Until 0:10; takes 0:10. The words and pieces take 0:30, which is 0:20 too long."));
  CHECK(holds(
      head("", "    - {title: B, after: [A, C]}\n    - {title: A, time: 1:00}\n"),
      "Out of order: it should come after “A”, which stands at about 0:00. Out of order: it should come "
      "after “C”, and no segment is called so."));
  CHECK_FALSE(holds(head("", "    - A\n    - {title: B, after: A}\n"), "Builds on"));
}

TEST_CASE("a series' name as typed, or said as a title where an id was typed") {
  auto series = [](const std::string& typed) {
    return part(outlineOf("- talk: evening\n  title: E\n  series: " + typed +
                          "\n  number: 1\n  segments: [A]\n"),
                "\n\n", ", talk 1.")
        .substr(2);
  };
  CHECK(series("reading-velm") == "Reading Velm");
  CHECK(series("pots-of-the-river") == "Pots of the River");
  CHECK(series("the-old-works") == "The Old Works");
  CHECK(series("Evenings at the works") == "Evenings at the works");
}

TEST_CASE(
    "what must not be said: replaced, withdrawn, corrected by the claim itself, and where it was said") {
  const std::string claims = R"(
- claim: old
  says: The fern came first.
  about: [motif:fern]
  stated: [{talk: evening, at: "1:10"}]
- claim: new
  says: Nobody knows what came first. Ask.
  about: [motif:fern]
  replaces: old
  change: corrigendum
  cite:
    - pattern-book: p. 9
- claim: gone
  says: The pot is a fake.
  about: [form:pot]
  status: withdrawn
- claim: taken-back
  says: The statement about Cairn is withdrawn.
  was: Cairn was sold.
  about: [shape:cairn]
  change: withdrawal
- claim: mended
  says: The crown is of 1920.
  was: The crown is of 1921.
  about: [mark:one]
  cite:
    - pattern-book: inside the cover
- claim: elsewhere
  says: Other is square no more.
  about: [shape:other]
  status: withdrawn
- talk: evening
  title: E
  segments:
    - title: Ferns
      about: [motif:fern, mark:one]
    - title: Pots
      show: [specimen:br-01-pot]
      say: A [pot](form:pot), and <shape:cairn>.
)";
  const std::string text = outlineOf(kPottery + claims);
  CHECK(part(text, "## Not to be said any more", "## 0:00") == R"(## Not to be said any more

- ~~The fern came first.~~ Instead: Nobody knows what came first. Ask (Pattern Book, p. 9; documented). Concerns “Ferns”. It was said in this talk, 1:10.
- ~~The pot is a fake.~~ Withdrawn; nothing takes its place. Concerns “Pots”.
- ~~Cairn was sold.~~ Withdrawn: The statement about Cairn is withdrawn (no source recorded). Concerns “Pots”.
- ~~The crown is of 1921.~~ Instead: The crown is of 1920 (Pattern Book, inside the cover; documented). Concerns “Ferns”.

)");
  CHECK(part(text, "## 0:00", "### Facts")
            .find("### Do not say\n\n- ~~The fern came first.~~\n- ~~The crown is of 1921.~~\n") !=
        std::string::npos);
  CHECK_FALSE(holds(text, "square no more"));
  CHECK_FALSE(holds(outlineOf(kPottery + segment("      about: [shape:other]\n")), "Not to be said"));
}

TEST_CASE("claims that are stated in a segment stand among its facts") {
  const std::string claims = R"(
- claim: held
  says: Ferns sold well.
  stated: [{talk: evening, at: one}]
- claim: past
  says: Ferns sold badly.
  status: withdrawn
  stated: [{talk: evening, at: One}]
- claim: other-place
  says: Ferns were dear.
  stated: [{talk: evening, at: "9:40"}]
)";
  const std::string facts = part(outlineOf(claims + segment("")), "### Facts", "##");
  CHECK(facts == "### Facts\n\n- **Ferns sold well.**\n  - no source recorded\n");
}

TEST_CASE("dates at the lectern: what is proven and what is not, what is doubted on a line below") {
  auto shape = [](const std::string& fields) { return factsOf("shape:a", "- shape: a\n" + fields); };
  CHECK(shape("") == "  - years of offer not recorded\n  - no source recorded\n");
  CHECK(shape("  introduced: unknown\n  withdrawn: unknown\n") ==
        "  - years of offer not known\n  - no source recorded\n");
  CHECK(shape("  introduced: 1930\n") == "  - offered from 1930\n  - no source recorded\n");
  CHECK(shape("  introduced: 1930\n  withdrawn: unknown\n") ==
        "  - offered from 1930; last year not known\n  - no source recorded\n");
  CHECK(shape("  introduced: 1930\n  withdrawn: none\n") ==
        "  - offered from 1930; never given up\n  - no source recorded\n");
  CHECK(shape("  introduced: unknown\n  withdrawn: 1940\n") ==
        "  - offered until 1940; first year not known\n  - no source recorded\n");
  CHECK(shape("  withdrawn: by 1940\n") ==
        "  - offered until 1940 at the latest; first year not recorded\n  - no source recorded\n");
  CHECK(shape("  introduced: by 1930\n  withdrawn: 1940\n") ==
        "  - on sale by 1930, to 1940\n  - no source recorded\n");
  CHECK(shape("  introduced: 1926/1930\n  withdrawn: about 1940\n") ==
        "  - offered first between 1926 and 1930, to about 1940\n  - no source recorded\n");
  CHECK(
      shape(
          "  introduced: {is: 1930, doubted: The page is torn., but: [{is: 1929, set-aside: A slip.}]}\n") ==
      "  - offered from 1930\n  - first date doubted: the page is torn\n  - first date: not 1929: a slip\n"
      "  - no source recorded\n");
  CHECK(factsOf("motif:m", "- motif: m\n  introduced: by 1930\n  supplier: none\n  artist: unknown\n") ==
        "  - no supplier; artist not known\n  - in use by 1930\n  - no source recorded\n");
}

TEST_CASE("what is not there is said in words") {
  CHECK(factsOf("shape:a", "- shape: a\n  maker: unknown\n  modeller: none\n  look: unknown\n") ==
        "  - look not known\n  - years of offer not recorded\n  - maker not known; no modeller\n  - no "
        "source recorded\n");
  CHECK(factsOf(
            "specimen:a",
            "- specimen: a\n  code-seen: none\n  date-code: none\n  marks: none\n  seen: {how: photograph}\n"
            "  holder: private collection\n") ==
        "  - no number on it\n  - no mark\n  - no date code\n  - seen in a photograph\n  - in a private "
        "collection\n");
  CHECK(factsOf("specimen:a",
                "- specimen: a\n  shape: b\n  code-seen: unknown\n  marks: unknown\n  seen: {by: mo, how: "
                "reported}\n"
                "- shape: b\n  introduced: 1930\n- person: mo\n  name: Mo Delling\n") ==
        "  - number on it not known\n  - mark not known\n  - the shape offered from 1930 (no source "
        "recorded)\n  - reported by Mo "
        "Delling\n");
  CHECK(
      factsOf("treatment:a",
              "- treatment: a\n  code: none\n  status: unrecorded\n  continues: b\n- treatment: b\n  code: "
              "B-1\n") ==
      "  - no number\n  - years of offer not recorded\n  - formerly B-1\n  - seen on pieces, but in no book\n"
      "  - not seen\n"
      "  - no source recorded\n");
}

TEST_CASE("forms, marks, sources, features, sets, people, questions and claims to hand") {
  CHECK(factsOf("form:plate", kPottery) ==
        "  - list size 7 in; measures 9 1/8 in (232 mm)\n  - known from Price List, p. 1\n");
  CHECK(factsOf("mark:one", kPottery) ==
        "  - printed; red or blue\n  - reads VELM\n  - used 1920 to 1950\n  - seen on Bryn\n"
        "  - known from Pattern Book, inside the cover\n");
  CHECK(factsOf("source:a-book", kPottery) == "  - book, by Mo Delling, 1970\n");
  CHECK(factsOf("feature:outline", kPottery) ==
        "  - What is the outline?\n  - round: a circle\n  - square: four sides\n");
  CHECK(holds(outlineOf(kPottery + segment("      about: [feature:outline]\n")), "- **Outline**\n"));
  CHECK(factsOf("person:mo", kPottery) == "  - modeller\n");
  CHECK(factsOf("question:why-two", kPottery) ==
        "  - for: A white one is known (a piece seen: BR-01-1 Fern, 7-inch plate).\n"
        "  - against: The book has one only (Pattern Book, list of shapes).\n  - would settle it: A kiln "
        "book.\n");
  CHECK(factsOf("claim:first-new", kPottery) ==
        "  - corrigendum of 2 May 2020\n  - it said: ~~Bryn came out in 1920.~~\n  - why: The book was "
        "misread.\n"
        "  - known from Pattern Book, p. 1; documented\n");
  CHECK(factsOf("claim:only-panels", kPottery) ==
        "  - the author's judgement; open: the embossing of Cairn is not recorded, nor that of one other\n");
}

TEST_CASE("the records an outline was made from") {
  const Guide guide(Texts{{"records.yaml", kPottery + kEvening}});
  const Composed made = composeOutline(*guide.materials, guide.at("talk:evening"));
  for (const char* one : {"talk:evening", "maker:amblecote", "treatment:br-01", "specimen:br-01-pot",
                          "photo:crown", "claim:first-old", "claim:first-new"})
    CHECK_MESSAGE(made.madeFrom.contains(one), one);
  CHECK_FALSE(made.madeFrom.contains("shape:cairn"));
}

TEST_CASE("chapters of the recording: a line a segment") {
  auto chapters = [](const std::string& records) {
    const Guide guide(Texts{{"records.yaml", records}});
    return composeChapterTimes(*guide.materials, guide.at("talk:evening"));
  };
  CHECK(chapters(kPottery + kEvening) == "0:00 Opening\n2:00 Two plates\n2:16 The pot\n");
  CHECK(chapters("- talk: evening\n  title: E\n  segments:\n    - {title: A, time: 59:30}\n    - {title: \"B "
                 " \\n c\", time: "
                 "1:00}\n    - {time: 1:00}\n") == "0:00 A\n59:30 B c\n1:00:30 Without a title\n");
  CHECK(chapters("- {talk: evening, title: E, segments: [{title: \"  \"}]}\n") == "0:00 Without a title\n");
  CHECK(chapters("- {talk: evening, title: E, segments: unknown}\n").empty());
}

}  // namespace
}  // namespace saggar::compose::testing
