#include "compose/prose.h"
#include "guide_of.h"

// Prose with its links resolved.
namespace saggar::compose::testing {
namespace {

const std::string kRecords = R"(
- shape: bryn
  name: Bryn
- shape: cairn
  name: Cairn
- source: book
  title: The Book
  type: ledger
- source: list
  title: The List
- term: verge
)";

// A file of prose beside two others, printed.
std::string printed(const std::string& prose) {
  Guide guide(Texts{
      {"guide.yaml",
       "guide: G\ncontents: [prose/a.md, prose/b.md, {a-chapter-for-every: shape, where: {name: Bryn}}]\n"},
      {"records.yaml", kRecords},
      {"prose/a.md", "# A\n\n" + prose + "\n"},
      {"prose/b.md", "# B\n\n## Part two\n\nWords.\n"}});
  const std::string text = guide.file("a");
  return text.substr(5, text.find_last_not_of('\n') - 4);
}

TEST_CASE("a reference is the author's words or the record's name, linked to its home") {
  CHECK(printed("See <shape:bryn>.") == "See [Bryn](bryn.md#shape-bryn).");
  CHECK(printed("See [it](shape:bryn).") == "See [it](bryn.md#shape-bryn).");
  CHECK(printed("See [its year](shape:bryn.introduced).") == "See [its year](bryn.md#shape-bryn).");
  CHECK(printed("Not <shape:nowhere>.") == "Not shape:nowhere.");
}

TEST_CASE("a citation is a note in brackets behind what it supports") {
  CHECK(printed("It was so [p. 3](source:book).") == "It was so ([The Book](sources.md#source-book), p. 3).");
  CHECK(printed("It was so <source:book>.") == "It was so ([The Book](sources.md#source-book)).");
  CHECK(printed("It was so [p. 3](source:book), and more.") ==
        "It was so ([The Book](sources.md#source-book), p. 3), and more.");
}

TEST_CASE("a citation in brackets of the author's own gets no second pair") {
  CHECK(printed("It was so ([p. 3](source:book)), and more.") ==
        "It was so ([The Book](sources.md#source-book), p. 3), and more.");
  CHECK(printed("So (<source:book>).") == "So ([The Book](sources.md#source-book)).");
  CHECK(printed("So (see [p. 3](source:book); also <source:list>).") ==
        "So (see [The Book](sources.md#source-book), p. 3; also [The List](sources.md#source-list)).");
  CHECK(printed("So ([p. 3](source:book) <source:list>).") ==
        "So ([The Book](sources.md#source-book), p. 3; [The List](sources.md#source-list)).");
  CHECK(printed("So (first the plate [p. 3](source:book)).") ==
        "So (first the plate ([The Book](sources.md#source-book), p. 3)).");
  CHECK(printed("So (at first), and so forth [p. 3](source:book).") ==
        "So (at first), and so forth ([The Book](sources.md#source-book), p. 3).");
}

TEST_CASE("citations in a row share one pair of brackets, and one source is named once") {
  CHECK(printed("So [p. 3](source:book) <source:list>.") ==
        "So ([The Book](sources.md#source-book), p. 3; [The List](sources.md#source-list)).");
  CHECK(printed("So [p. 3](source:book)\n[p. 9](source:book).") ==
        "So ([The Book](sources.md#source-book), p. 3 and p. 9).");
}

TEST_CASE("a citation that is a word of its sentence stays one") {
  CHECK(printed("It was copied from [the book of 1900](source:book), which errs.") ==
        "It was copied from [the book of 1900](sources.md#source-book), which errs.");
  CHECK(printed("[The book](source:book) is lost.") == "[The book](sources.md#source-book) is lost.");
}

TEST_CASE("links between files of prose lead to chapters and headings") {
  CHECK(printed("[b](b.md)") == "[b](b.md)");
  CHECK(printed("[two](b.md#part-two)") == "[two](b.md#part-two)");
  CHECK(printed("[bryn](shapes/bryn.md)") == "[bryn](bryn.md)");
  CHECK(printed("[cairn](shapes/cairn.md)") == "[cairn](other-shapes.md#shape-cairn)");
  CHECK(printed("[words](glossary.md)") == "words");
  CHECK(printed("[gone](gone.md), [none](b.md#part-three)") == "gone, [none](b.md)");
  CHECK(printed("[out](../../etc.md)") == "out");
  CHECK(printed("[sources](sources.md)") == "[sources](sources.md)");
}

TEST_CASE("only headings that are linked have a place of their own") {
  Guide guide(Texts{{"guide.yaml", "guide: G\ncontents: [prose/a.md, prose/b.md]\n"},
                    {"prose/a.md", "# A\n\n[two](b.md#part-two)\n"},
                    {"prose/b.md", "# B\n\n## Part one\n\n## Part two\n"}});
  CHECK(guide.file("b") == "# B\n\n## Part one\n\n<a id=\"part-two\"></a>\n\n## Part two\n");
}

TEST_CASE("index entries keep their words and get a place") {
  CHECK(printed("The [verge](<index:>) bends.") == "The <a id=\"index-1\"></a>verge bends.");
}

TEST_CASE("pictures of the guide are shown and told of; others leave their words") {
  Guide guide(Texts{{"guide.yaml", "guide: G\ncontents: [prose/a.md]\n"},
                    {"prose/a.md",
                     "# A\n\n![one](../images/one.png)\n\nIn line ![two](images/two.png) and "
                     "![three](../../three.png).\n"}});
  CHECK(guide.file("a") == "# A\n\n![one](images/one.png)\n\nIn line ![two](images/two.png) and three.\n");
  CHECK(guide.images == std::set<std::string>{"images/one.png", "images/two.png"});
  CHECK(picturePath("prose/shapes/a.md", "../../images/x.png") == "images/x.png");
  CHECK(picturePath("prose/a.md", "images/x.png") == "images/x.png");
  CHECK(picturePath("prose/a.md", "../../images/x.png").empty());
  CHECK(picturePath("prose/a.md", "../secret/x.png").empty());
  CHECK(picturePath("prose/a.md", "../images/blue%20rim.png") == "images/blue rim.png");
  CHECK(picturePath("prose/a.md", "../images/100%.png") == "images/100%.png");
  CHECK(picturePath("prose/a.md", "../images/%2e%2e/secret.png").empty());
  CHECK(picturePath("prose/a.md", "../images/a%00.png").empty());
}

TEST_CASE("a field's Markdown reads the same whether or not it needs the parser") {
  Guide guide(Texts{{"records.yaml",
                     "- term: a\n  means: |\n    Plain words, over\n    two lines.\n- term: b\n  means: A "
                     "*loud* word, see <term:a>.\n"
                     "- term: c\n  means: \"- no list: 1. nor this\"\n"}});
  const Words words = guide.words();
  auto means = [&](std::string_view id) {
    const PublishedRecord term = guide.record(id);
    return plain(words.proseLine(term, *term.find("means"_f)));
  };
  CHECK(means("term:a") == "Plain words, over two lines.");
  CHECK(means("term:b") == "A loud word, see a.");
  CHECK(holds(means("term:c"), "no list: 1. nor this"));
}

}  // namespace
}  // namespace saggar::compose::testing
