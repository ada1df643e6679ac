// Private values in published texts: whole, word for word, from six characters on.
#include "small_guide.h"

using namespace saggar::checks::testing;

namespace {

// A term with a note on line 3 and a private shelf on line 4.
std::string term(const std::string& note, const std::string& kept = "kept: corner cupboard upstairs") {
  return "- term: a\n  means: A jug.\n  note: " + note + "\n  " + kept + "\n";
}

std::string found(const std::string& note, const std::string& kept = "kept: corner cupboard upstairs") {
  return Small(term(note, kept)).found;
}

}  // namespace

TEST_CASE("a private value in a note") {
  silent(term("It stands upstairs."));
  caught(term("It stands in the corner cupboard upstairs."), "3:26", "private-in-text");
  const Small bad(term("It stands in the corner cupboard upstairs."));
  CHECK(bad.one().message ==
        "this text is published, and holds the private `kept` of `term:a` word for word");
  CHECK(bad.one().record == "term:a");
  CHECK(bad.one().field == "note");
  REQUIRE(bad.one().related.size() == 1);
}

TEST_CASE("whole, as words, as they are typed") {
  CHECK(found("In the corner cupboard.") == "");
  CHECK(found("In the Corner Cupboard Upstairs.") == "");
  CHECK(found("corner cupboard upstairs") == "3:9 private-in-text");
  CHECK(found("(corner cupboard upstairs)") == "3:10 private-in-text");
  CHECK(found("In the recorner cupboard upstairs.") == "");
  CHECK(found("In the corner cupboard upstairsish.") == "");
  CHECK(found("Paid £120-odd, they say.", "paid: £120-odd") == "3:14 private-in-text");
}

TEST_CASE("six characters or more") {
  CHECK(found("box 12 and more", "kept: box 12") == "3:9 private-in-text");
  CHECK(found("box 1 and more", "kept: box 1") == "");
  CHECK(found("In the Öfchen.", "kept: Öfchen") == "3:16 private-in-text");
  CHECK(found("In the Köök.", "kept: Köök") == "");  // six bytes, four letters
}

TEST_CASE("every private field, and every part of one") {
  for (const char* field : {"kept", "owner", "paid", "my-own-words"})
    CHECK(found("As Mrs Quilldrake said.", std::string(field) + ": Mrs Quilldrake") ==
          "3:12 private-in-text");
  CHECK(found("As Mrs Quilldrake said.", "my-list: [somebody, Mrs Quilldrake]") == "3:12 private-in-text");
  CHECK(found("As Mrs Quilldrake said.", "my-map: {who: Mrs Quilldrake}") == "3:12 private-in-text");
}

TEST_CASE("wherever it would be printed") {
  const std::string secret = "- {term: z, means: A cup., kept: corner cupboard upstairs}\n";
  auto place = [&](const std::string& records) { return Small(records + secret).found; };
  CHECK(place("- term: a\n  name: corner cupboard upstairs\n  means: A jug.\n") == "2:9 private-in-text");
  CHECK(place("- term: a\n  means: A jug.\n  also: corner cupboard upstairs\n") == "3:9 private-in-text");
  CHECK(place("- term: a\n  means: A jug.\n  more: {Shelf: corner cupboard upstairs}\n") ==
        "3:17 private-in-text");
  CHECK(place("- term: a\n  means: A jug.\n  more: {corner cupboard upstairs: yes}\n") ==
        "3:10 private-in-text");
  CHECK(place("- term: a\n  means: {is: A jug., judged: seen in the corner cupboard upstairs}\n") ==
        "2:10 private-in-text");
  CHECK(place("- shape: s\n  introduced: 1932\n  cite: {source: b, at: corner cupboard upstairs}\n- {source: "
              "b, title: B, type: trade-notice}\n") == "3:9 private-in-text");
  // In another private field it may stand.
  CHECK(place("- term: a\n  means: A jug.\n  my-note: corner cupboard upstairs\n") == "");
}

TEST_CASE("at its own place in a text of several lines, also where a line ends in it") {
  CHECK(found("|\n    First line.\n    In the corner cupboard upstairs.") == "5:12 private-in-text");
  CHECK(found("|\n    In the corner\n    cupboard   upstairs.") == "4:12 private-in-text");
  CHECK(found(">\n    In the corner\n    cupboard upstairs.") == "4:12 private-in-text");
  CHECK(found("\"In the corner\n    cupboard upstairs.\"") == "3:17 private-in-text");
}

TEST_CASE("in a chapter, at every place") {
  FilesOfGuide files{
      {"records.yaml", term("A jug.")},
      {"prose/a.md",
       "# Jugs\n\nIn the corner\ncupboard upstairs.\n\nAnd é corner cupboard upstairs again.\n"}};
  CHECK(Small(files).found == "prose/a.md:3:8 private-in-text\nprose/a.md:6:7 private-in-text");
  files["prose/a.md"] = "# Jugs\n\nIn the corner.\n\nCupboard upstairs.\n";
  silent(files);
}

TEST_CASE("of two values that begin alike the longer is told") {
  const std::string both =
      term("In the corner cupboard upstairs.") + "- {term: b, means: B., kept: corner cupboard}\n";
  CHECK(Small(both).messages ==
        "this text is published, and holds the private `kept` of `term:a` word for word\n");
  CHECK(Small(term("In the corner cupboard.") + "- {term: b, means: B., kept: corner cupboard}\n").messages ==
        "this text is published, and holds the private `kept` of `term:b` word for word\n");
}

TEST_CASE("many private values that begin alike, and many texts, take no time to speak of") {
  std::string text;
  for (int i = 0; i < 20'000; ++i)
    text += "- {term: t" + std::to_string(i) + ", means: From the cabinet of a friend., kept: cabinet " +
            std::to_string(i) + "}\n";
  CHECK(Small(text).found == "");
}
