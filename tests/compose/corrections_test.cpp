#include "compose/corrections.h"

#include "guide_of.h"

// The list of corrections. What each must hold is after ICMJE, Recommendations (Corrections and Version Control); COPE,
// Retraction Guidelines (2019); Elsevier, policy on errata and corrigenda (2011), for the kinds; NLM's errata policy, for
// the link both ways; The Chicago Manual of Style, 14th ed., 1.107, for what misleads; NISO RP-45-2024, for what is
// withdrawn. All statements corrected here are invented.
namespace saggar::compose::testing {
namespace {

const std::string kGuide = R"(
guide: Plates of Velm
by: [Mo Delling, Ann Tarn]
edition: 2
editions:
  1: {title: The Plates of Velm, date: 2019}
contents: [{a-chapter-for-every: shape}, forms, corrections]
)";

const std::string kClaims = R"(
- shape: bryn
  name: Bryn
- shape: cairn
  name: Cairn
- form: plate
  name: 7-inch plate
- source: list
  type: price-list
  title: Price List
  date: 1930
- talk: evening
  title: An evening
  segments: [Opening]
- claim: bryn-old
  says: Bryn came out in 1920.
  about: [shape:bryn]
  stated:
    - {edition: 1, at: "p. 41, table 6"}
    - {talk: evening, at: "9:40"}
- claim: bryn-new
  says: Bryn came out in 1921.
  about: [shape:bryn]
  replaces: bryn-old
  change: corrigendum
  because: The leaf was misread
  against:
    - list: p. 9
  weighs: misleading
  issued: 9 January 2023
  stated: [{talk: evening, at: Opening}, {edition: 2, at: p. 3}]
  cite:
    - list: p. 1
- claim: slip
  says: A plate measures 9 1/8 in.
  was: A plate measures 9 7/8 in.
  name: Size of a plate
  about: [form:plate]
  change: erratum
  weighs: minor
  issued: 2 May 2020
  stated: [{edition: 1, at: p. 2}]
- claim: more
  says: Cairn was sold too.
  about: [shape:cairn]
  change: addendum
  issued: 2 May 2020
  belongs: [{edition: 1, at: p. 7}]
  cite: {source: list}
- claim: gone
  says: Cairn was never sold.
  about: [shape:cairn]
  status: withdrawn
  stated: [{edition: 1, at: p. 8}]
- claim: found
  says: A second plate has turned up.
  about: [form:plate]
  replaces: only-one
  change: update
  issued: 1 June 2024
  cite:
    - list: p. 4
- claim: only-one
  says: There is one plate.
- claim: held
  says: Nothing is wrong with this.
  about: [shape:bryn]
)";

std::string corrections(const std::string& claims, bool linked = true, const std::string& guide = kGuide) {
  const Guide one(Texts{{"guide.yaml", guide}, {"records.yaml", claims}});
  return render::renderMarkdown(
      composeCorrections(*one.materials, linked ? one.places.get() : nullptr, "guide/").document);
}

std::string entry(const std::string& text, const std::string& anchor) {
  std::string out = part(text, "<a id=\"" + anchor + "\"></a>\n\n## ", "\n<a id=\"claim-");
  return out.substr(out.find("##"));
}

TEST_CASE("a list of its own, with a title, what it is, and every correction in the order of issue") {
  CHECK(part(corrections(kClaims), "# Corrections", "<a id=\"claim-slip\"></a>\n\n##") ==
        R"(# Corrections to Plates of Velm

Corrections to what was printed or said before, in the order in which they were issued. What no longer holds is struck out and stays to be read. The first edition (2019) stays as printed; where it differs from this list, the list holds. The second edition has these corrections in its text. What is marked as misleading should be entered by hand in every copy.

| No. | Issued | Kind | About | Where it stood | Weight |
| --: | --- | --- | --- | --- | --- |
| 1 | 2 May 2020 | Erratum | [Size of a plate](#claim-slip) | The Plates of Velm, first edition (2019), p. 2 | minor |
| 2 | 2 May 2020 | Addendum | [Cairn](#claim-more) | The Plates of Velm, first edition (2019), p. 7 | not recorded |
| 3 | 9 January 2023 | Corrigendum | [Bryn](#claim-bryn-new) | The Plates of Velm, first edition (2019), p. 41, table 6; the talk “An evening”, 9:40 | misleading |
| 4 | 1 June 2024 | Update | [7-inch plate](#claim-found) | place not recorded | not recorded |
| 5 | not recorded | Withdrawal | [Cairn](#claim-gone) | The Plates of Velm, first edition (2019), p. 8 | not recorded |

)");
}

TEST_CASE("a corrigendum with all its parts") {
  CHECK(entry(corrections(kClaims), "claim-bryn-new") == R"(## 3. Corrigendum: Bryn, 9 January 2023

**Kind.** Corrigendum: the author was wrong. The old words mislead.

**Where it stood.** The Plates of Velm, first edition (2019), p. 41, table 6; the talk “An evening”, 9:40.

**It said.** <a id="claim-bryn-old"></a>~~Bryn came out in 1920.~~

**It should say.** Bryn came out in 1921.

**Why.** The leaf was misread.

**Evidence.** [Price List](guide/sources.md#source-list), p. 1; documented.

**Against it.** [Price List](guide/sources.md#source-list), p. 9.

**Issued.** 9 January 2023, by Mo Delling and Ann Tarn.

**Said so since.** In the talk “An evening”, under “Opening”; in Plates of Velm, second edition, p. 3.

**Corrected text.** [Bryn](guide/bryn.md#shape-bryn).
)");
}

TEST_CASE("an erratum, an addendum, an update and a withdrawal are told apart") {
  const std::string text = corrections(kClaims);
  CHECK(entry(text, "claim-slip") == R"(## 1. Erratum: Size of a plate, 2 May 2020

**Kind.** Erratum: a slip in production. Of minor weight.

**Where it stood.** The Plates of Velm, first edition (2019), p. 2.

**It said.** ~~A plate measures 9 7/8 in.~~

**It should say.** A plate measures 9 1/8 in.

**Evidence.** No source recorded.

**Issued.** 2 May 2020, by Mo Delling and Ann Tarn.

**Corrected text.** [7-inch plate](guide/forms.md#form-plate).
)");
  const std::string addendum = entry(text, "claim-more");
  CHECK(holds(addendum, "**Kind.** Addendum: a fact that was not known, or was left out.\n"));
  CHECK(holds(addendum, "**Where it belongs.** The Plates of Velm, first edition (2019), p. 7.\n"));
  CHECK(holds(addendum, "**To be added.** Cairn was sold too.\n"));
  CHECK_FALSE(holds(addendum, "~~"));
  const std::string update = entry(text, "claim-found");
  CHECK(
      holds(update, "**Kind.** Update: a new finding; what stood there was no error when it was printed.\n"));
  CHECK(holds(update, "~~There is one plate.~~"));
  CHECK(holds(update, "**It says now.** A second plate has turned up.\n"));
  CHECK(entry(text, "claim-gone") == R"(## 5. Withdrawal: Cairn

**Kind.** Withdrawal: a statement taken back.

**Where it stood.** The Plates of Velm, first edition (2019), p. 8.

**It said.** ~~Cairn was never sold.~~

**Withdrawn.** Nothing takes its place.

**Evidence.** No source recorded.

**Issued.** On a day not recorded, by Mo Delling and Ann Tarn.

**Corrected text.** [Cairn](guide/cairn.md#shape-cairn).
)");
}

TEST_CASE("a correction that was itself corrected stays, struck out, and leads on") {
  const std::string text = corrections(R"(
- {claim: a, says: It is red., stated: [{edition: 1, at: p. 1}]}
- {claim: b, says: It is blue., replaces: a, change: corrigendum, issued: 2020}
- {claim: c, says: It is green., replaces: b, change: corrigendum, issued: 2021}
)");
  const std::string first = entry(text, "claim-b");
  CHECK(holds(first, "**It said.** <a id=\"claim-a\"></a>~~It is red.~~\n"));
  CHECK(holds(first, "**It should say.** ~~It is blue.~~\n"));
  CHECK(holds(first,
              "**Replaced since.** This correction was itself corrected: see [the corrigendum of "
              "2021](#claim-c).\n"));
  const std::string second = entry(text, "claim-c");
  CHECK(holds(second, "**It said.** ~~It is blue.~~\n"));
  CHECK(holds(second, "**It should say.** It is green.\n"));
  CHECK_FALSE(holds(second, "Replaced since"));
}

TEST_CASE("a correction that was withdrawn, and one that replaces several") {
  const std::string text = corrections(R"(
- {claim: a, says: It is red.}
- {claim: b, says: It is pink.}
- {claim: c, says: It is blue., replaces: [a, b], change: corrigendum, status: withdrawn, issued: 2020}
)");
  const std::string both = entry(text, "claim-c");
  CHECK(holds(both, "~~It is red.~~"));
  CHECK(holds(both, "~~It is pink.~~"));
  CHECK(holds(both, "**It should say.** ~~It is blue.~~\n"));
  CHECK(holds(both, "**Withdrawn since.** Nothing takes its place.\n"));
  CHECK(text.find("claim-a\"") != std::string::npos);
}

TEST_CASE("claims that replace one another in a ring end all the same") {
  const std::string text =
      corrections("- {claim: a, says: One., replaces: b}\n- {claim: b, says: Two., replaces: a}\n");
  CHECK(holds(text, "## 1. Correction: One"));
  CHECK(holds(text, "## 2. Correction: Two"));
  CHECK(holds(text, "**Kind.** Correction: of which kind is not recorded.\n"));
}

TEST_CASE("the guide and the list lead to each other") {
  Guide guide(Texts{{"guide.yaml", kGuide}, {"records.yaml", kClaims}});
  std::map<std::string, std::string> files = guide.files();
  CHECK(holds(files.at("bryn"), "see the [corrigendum of 9 January 2023](corrections.md#claim-bryn-new)."));
  CHECK(deadLinks(files).empty());
  // The list outside the guide, beside its folder: read as if it lay among its files.
  std::string list = corrections(kClaims);
  for (std::size_t at = list.find("](guide/"); at != std::string::npos; at = list.find("](guide/"))
    list.erase(at + 2, 6);
  files["list"] = list;
  CHECK(deadLinks(files).empty());
  CHECK(holds(list, "](bryn.md#shape-bryn)"));
}

TEST_CASE("without a guide to link into, the words stay") {
  const std::string text = corrections(kClaims, false);
  CHECK(holds(text, "**Corrected text.** Bryn.\n"));
  CHECK(holds(text, "[Bryn](#claim-bryn-new)"));
  CHECK_FALSE(holds(text, "guide/"));
}

TEST_CASE("a guide in which nothing was corrected says so") {
  CHECK(corrections("- {claim: a, says: All is well.}\n", true, "guide: G\n") ==
        "# Corrections to G\n\nNo correction has been issued.\n");
}

TEST_CASE("editions that were printed, several and none") {
  auto intro = [](const std::string& guide) {
    return part(corrections(kClaims, true, guide), "stays to be read.", "\n\n");
  };
  CHECK(intro("guide: G\n") ==
        "stays to be read. What is marked as misleading should be entered by hand in every copy.");
  CHECK(holds(intro("guide: G\neditions:\n  1: {date: 2001}\n  2: {date: 2005}\n"),
              "The first edition (2001) and the second edition (2005) stay as printed; where they differ "
              "from this list, "
              "the list holds."));
}

TEST_CASE("what the list was made from") {
  const Guide guide(Texts{{"guide.yaml", kGuide}, {"records.yaml", kClaims}});
  const std::set<std::string> from = composeCorrections(*guide.materials, nullptr).madeFrom;
  CHECK(from == std::set<std::string>{"claim:bryn-new", "claim:bryn-old", "claim:found", "claim:gone",
                                      "claim:more", "claim:only-one", "claim:slip"});
}

}  // namespace
}  // namespace saggar::compose::testing
