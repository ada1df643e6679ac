// Texts that lean on what was taken back.
#include "small_guide.h"

using namespace saggar::checks::testing;

namespace {

const std::string kClaims =
    "- {claim: old, says: Nine and seven eighths., cite: books}\n"
    "- {claim: new, says: Nine and one eighth., replaces: old, cite: books}\n"
    "- {claim: gone, says: Made elsewhere., status: withdrawn}\n" +
    kBooks;

FilesOfGuide chapter(const std::string& text) {
  return {{"records.yaml", kClaims}, {"prose/a.md", text}};
}

std::string found(const std::string& record) {
  return Small(kClaims + record).found;
}

}  // namespace

TEST_CASE("a chapter that links to a claim which was replaced or withdrawn") {
  silent(chapter("See [the size](claim:new).\n"));
  caught(chapter("See [the size](claim:old).\n"), "prose/a.md:1:16", "claim-replaced-in-text");
  caught(chapter("See [the plates](claim:gone).\n"), "prose/a.md:1:18", "claim-replaced-in-text");
  const Small replaced(chapter("See [the size](claim:old).\n"));
  CHECK(replaced.one().message == "this text leans on the claim `old`, which was replaced");
  CHECK(replaced.one().hint == "link to `claim:new`, and see that the words still hold");
  CHECK(replaced.one().records == std::vector<std::string>{"claim:old"});
  CHECK(replaced.one().related.size() == 2);
  CHECK(Small(chapter("See [the plates](claim:gone).\n")).one().message ==
        "this text leans on the claim `gone`, which was withdrawn");
}

TEST_CASE("captions, notes and what is said in a talk") {
  CHECK(found("- {term: a, means: A., note: \"[so](claim:old)\"}\n") == "5:36 claim-replaced-in-text");
  CHECK(found("- {term: a, means: A., note: <claim:old>}\n") == "5:31 claim-replaced-in-text");
  CHECK(found("- talk: a\n  title: A\n  segments:\n    - title: B\n      say: As [we said](claim:old).\n") ==
        "9:25 claim-replaced-in-text");
  CHECK(Small(FilesOfGuide{
                  {"records.yaml",
                   kClaims +
                       "- {photo: a, file: a.png, alt: A., rights: own, caption: \"[so](claim:gone)\"}\n"},
                  {"a.png", "GIF89a"}})
            .found == "5:64 claim-replaced-in-text");
  CHECK(found("- {term: a, means: {is: A., note: <claim:old>}}\n") == "5:36 claim-replaced-in-text");
}

TEST_CASE("where it may be named: in a correction, a question, a definition, a list of corrections") {
  CHECK(found("- {claim: other, says: So., status: supposed, because: \"[it](claim:old) was misread\"}\n") ==
        "");
  CHECK(found("- {question: q, asks: \"Is [this](claim:old) so?\"}\n") == "");
  CHECK(found("- {term: a, means: A., see: claim:old}\n") == "");
  CHECK(found("- {claim: newer, says: So., status: supposed, replaces: old, note: \"We had said "
              "[so](claim:old).\"}\n") == "");
  CHECK(found("- {claim: own, says: So., status: withdrawn, note: \"See [here](claim:own).\"}\n") == "");
  CHECK(found("- {claim: other, says: So., status: supposed, note: \"See [here](claim:old).\"}\n") ==
        "5:65 claim-replaced-in-text");
  silent(chapter("```corrections\nwhere: {change: withdrawal}\n```\n"));
}

TEST_CASE("what was replaced twice leads to the newest") {
  const FilesOfGuide files{
      {"records.yaml", kClaims + "- {claim: newest, says: So., replaces: new, status: supposed}\n"},
      {"prose/a.md", "See [the size](claim:old).\n"}};
  CHECK(Small(files).one().hint == "link to `claim:newest`, and see that the words still hold");
  const FilesOfGuide ring{{"records.yaml",
                           "- {claim: a, says: A., replaces: b, status: supposed}\n- {claim: b, says: B., "
                           "replaces: a, status: supposed}\n"},
                          {"prose/a.md", "See [it](claim:a).\n"}};
  CHECK(Small(ring).found == "prose/a.md:1:10 claim-replaced-in-text");
}

TEST_CASE("a waiver names the claim, and the record that speaks of it") {
  FilesOfGuide files = chapter("See [the size](claim:old).\n");
  files["guide.yaml"] =
      "guide: G\nwaivers:\n  - {rule: claim-replaced-in-text, record: claim:old, because: it is told how}\n";
  CHECK(Small(files).found == "prose/a.md:1:16 claim-replaced-in-text waived");
  files = {{"records.yaml", kClaims + "- {term: a, means: A., note: <claim:old>}\n"},
           {"guide.yaml",
            "guide: G\nwaivers:\n  - {rule: claim-replaced-in-text, records: [claim:old, term:a], because: "
            "it is told how}\n"}};
  CHECK(Small(files).found == "5:31 claim-replaced-in-text waived");
}
