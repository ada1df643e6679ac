#include "guide_of.h"

// Contents, homes, and links between files.
namespace saggar::compose::testing {
namespace {

std::string contentsFinding(const std::string& contents, const Texts& more = {}) {
  Texts texts{{"guide.yaml", "guide: G\ncontents:\n" + contents},
              {"records.yaml", "- shape: bryn\n  name: Bryn\n- term: rim\n  means: A band.\n"},
              {"prose/a.md", "# A\n"}};
  for (const auto& [path, text] : more) texts[path] = text;
  Guide guide(texts);
  guide.files();
  std::string all;
  for (const std::string& one : guide.findings()) all += one + '\n';
  return all;
}

TEST_CASE("what is no chapter is told with what to type instead") {
  CHECK(contentsFinding("  - prose/a.md\n").empty());
  CHECK(holds(contentsFinding("  - prose/b.md\n  - prose/a.md\n"),
              "guide.yaml:3:5: there is no file `prose/b.md` [link-missing] did you mean `prose/a.md`?"));
  CHECK(holds(contentsFinding("  - a.md\n  - prose/a.md\n"),
              "there is no file `a.md` [link-missing] write `prose/a.md`"));
  CHECK(holds(contentsFinding("  - prose/a.md\n  - prose/a.md\n"),
              "guide.yaml:4:5: `prose/a.md` is a chapter already [value-unfit]"));
  CHECK(holds(contentsFinding("  - prose/a.md\n  - glosary\n"),
              "`glosary` is no chapter [value-unfit] did you mean `glossary`?"));
  CHECK(holds(contentsFinding("  - prose/a.md\n  - {holds: [glossary]}\n"), "a division needs a title"));
  CHECK(holds(contentsFinding("  - prose/a.md\n  - {division: D}\n"), "a division without chapters"));
  CHECK(
      holds(contentsFinding("  - prose/a.md\n  - {division: D, holds: [{division: E, holds: [glossary]}]}\n"),
            "a division stands inside a division"));
  CHECK(holds(contentsFinding("  - prose/a.md\n  - {chapter: x}\n"), "this is no chapter"));
  CHECK(holds(contentsFinding("  - prose/a.md\n  - a-chapter-for-every: source\n"),
              "sources have a chapter of their own"));
  CHECK(holds(contentsFinding("  - prose/a.md\n  - {a-chapter-for-every: shape, were: {name: Bryn}}\n"),
              "a chapter for every record has no `were` [field-unknown]"));
}

TEST_CASE("prose that stands in no chapter is noted") {
  CHECK(holds(contentsFinding("  - glossary\n"),
              "prose/a.md:1:1: `prose/a.md` stands in no chapter [prose-unused]"));
}

TEST_CASE("links that lead nowhere are told at their place") {
  CHECK(holds(contentsFinding("  - prose/a.md\n", {{"prose/a.md", "# A\n\nSee [b](b.md).\n"}}),
              "prose/a.md:3:9: `b.md` leads to no chapter [link-missing]"));
  CHECK(holds(contentsFinding("  - prose/a.md\n", {{"prose/a.md", "# A\n\n## Part two\n\n[x](#part-tow)\n"}}),
              "prose/a.md:5:5: there is no heading `#part-tow` in the chapter \"A\" [link-missing] did you "
              "mean `#part-two`?"));
  CHECK(contentsFinding("  - prose/a.md\n", {{"prose/a.md", "# A\n\n## Part two\n\n[x](#part-two)\n"}})
            .empty());
}

TEST_CASE("pictures and files that are not of the guide are told") {
  CHECK(holds(contentsFinding("  - prose/a.md\n", {{"prose/a.md", "# A\n\n![x](../other/x.png)\n"}}),
              "`../other/x.png` is no picture of the guide, and only its words are printed [link-missing]"));
  CHECK(holds(contentsFinding("  - prose/a.md\n", {{"prose/a.md", "# A\n\nSee [x](list.pdf).\n"}}),
              "prose/a.md:3:9: `list.pdf` leads to nothing that is published [link-missing]"));
  CHECK(contentsFinding("  - prose/a.md\n",
                        {{"prose/a.md", "# A\n\n![x](../images/x.png)\n\n[y](https://example.org/y)\n"}})
            .empty());
}

TEST_CASE("a link to a heading that the program would have made leads to the chapter's top if it did not") {
  Guide guide(Texts{{"guide.yaml", "guide: G\ncontents: [prose/a.md, {a-chapter-for-every: shape}]\n"},
                    {"records.yaml", "- shape: bryn\n- treatment: t\n  shape: bryn\n"},
                    {"prose/a.md", "# A\n\n[d](shapes/bryn.md#decorations), [m](shapes/bryn.md#marks)\n"}});
  CHECK(guide.findings().empty());
  CHECK(deadLinks(guide.files()).empty());
  CHECK(holds(guide.file("bryn"), "<a id=\"marks\"></a>"));
  CHECK(holds(guide.file("bryn"), "<a id=\"decorations\"></a>\n\n## Decorations"));
}

TEST_CASE("what is wrong with a block is told at its place") {
  CHECK(holds(contentsFinding("  - prose/a.md\n",
                              {{"prose/a.md", "# A\n\n```treatments\nwhere: {shpae: bryn}\n```\n"}}),
              "prose/a.md:4:9: "));
  CHECK(holds(contentsFinding("  - prose/a.md\n",
                              {{"prose/a.md", "# A\n\n```look-alikes\nwhere: {nonsense: x}\n```\n"}}),
              "prose/a.md:4:9: "));
  CHECK(contentsFinding("  - prose/a.md\n",
                        {{"prose/a.md", "# A\n\n```look-alikes\nwhere: {prefix: x}\n```\n"}})
            .empty());
}

TEST_CASE("files have names of their own, whatever a disk thinks of capitals") {
  Guide guide(Texts{{"guide.yaml",
                     "guide: G\ncontents: [prose/Index.md, prose/x/Bryn.md, prose/y/bryn.md, "
                     "{a-chapter-for-every: shape}, prose/a b.md]\n"},
                    {"records.yaml", "- shape: bryn\n"},
                    {"prose/Index.md", "# I\n"},
                    {"prose/x/Bryn.md", "# X\n"},
                    {"prose/y/bryn.md", "# Y\n"},
                    {"prose/a b.md", "# AB\n"}});
  guide.files();
  CHECK(guide.order ==
        std::vector<std::string>{"README", "index-2", "bryn", "bryn-2", "bryn-3", "a-b", "sources", "index"});
}

TEST_CASE(
    "a record's home: its own chapter, the chapter of its kind, the first block that lists it, or the "
    "lists") {
  Guide guide(
      Texts{{"guide.yaml", "guide: G\ncontents: [prose/shapes/bryn.md, prose/a.md, prose/b.md, questions]\n"},
            {"records.yaml",
             "- shape: bryn\n- shape: cairn\n- treatment: one\n  shape: [cairn, bryn]\n- treatment: two\n  "
             "shape: cairn\n- specimen: s\n  treatment: one\n"
             "- mark: m\n- mark: n\n  method: painted\n- term: t\n  means: x\n- question: q\n  asks: x\n- "
             "photo: p\n  file: images/p.png\n  shows: specimen:s\n- person: me\n"},
            {"prose/shapes/bryn.md", "# Bryn\n\n```marks\n```\n"},
            {"prose/a.md", "# A\n\n```marks\nwhere: {method: painted}\n```\n\n```questions\n```\n"},
            {"prose/b.md", "# B\n\n```marks\n```\n\n```glossary\n```\n"}});
  auto home = [&](std::string_view reference) {
    return guide.places->of(guide.at(reference)).value_or(Target{}).file;
  };
  CHECK(home("shape:bryn") == "bryn");
  CHECK(home("shape:cairn") == "other-shapes");
  CHECK(home("treatment:one") == "bryn");
  CHECK(home("treatment:two") == "other-shapes");
  CHECK(home("specimen:s") == "bryn");
  CHECK(home("photo:p") == "bryn");
  CHECK(home("mark:n") == "a");
  CHECK(home("mark:m") == "a");
  CHECK(home("term:t") == "b");
  CHECK(home("question:q") == "questions");
  CHECK(home("person:me") == "lists");
  CHECK(deadLinks(guide.files()).empty());
}

TEST_CASE("a shape that may belong to two divisions stands in the first") {
  Guide guide(Texts{{"guide.yaml",
                     "guide: G\ncontents:\n  - division: Old\n    holds: [{a-chapter-for-every: shape, "
                     "where: {introduced: ../1925}}]\n"
                     "  - division: New\n    holds: [{a-chapter-for-every: shape, where: {introduced: "
                     "1926/..}, in-order-of: introduced}]\n"},
                    {"records.yaml",
                     "- shape: late\n  introduced: 1940\n- shape: early\n  introduced: 1900\n- shape: "
                     "unknown\n- shape: middle\n  introduced: 1930\n"}});
  std::vector<std::string> chapters;
  for (const Chapter& one : guide.places->chapters()) chapters.push_back(one.division + ": " + one.file);
  chapters.resize(4);
  CHECK(chapters == std::vector<std::string>{"Old: early", "Old: unknown", "New: middle", "New: late"});
}

TEST_CASE("links in records' fields lead to chapters and headings, or are findings at their places") {
  Guide guide(Texts{{"guide.yaml", "guide: G\ncontents: [prose/firm.md, {a-chapter-for-every: shape}]\n"},
                    {"prose/firm.md", "# The firm\n\n## Two founders\n\nText.\n"},
                    {"records.yaml", R"(
- shape: bryn
  name: Bryn
  introduced:
    is: 1921
    note: See [its founders](firm.md#two-founders).
  note: |
    Told in [the firm](firm.md), under [the founders](prose/firm.md#two-founders), at
    [an address](https://example.org) and of [itself](shape:bryn).
- shape: cairn
  note: |
    See [the works](works.md), [the founders](firm.md#two-fonders) and [here](#bryn).
  withdrawn:
    is: 1930
    note: A [drawing](drawing.pdf), and ![a plate](plate.png).
- talk: evening
  segments:
    - title: Opening
      say: As [the book](book.md) says.
- maker: amblecote
  my-note: A [private link](nowhere.md).
)"}});
  const std::string noTarget =
      " leads to nothing that is published [link-missing] link to a file of prose (`name.md`), to a record "
      "(`kind:id`), or "
      "to an address with https://\n";
  std::string told;
  for (const std::string& finding : guide.findings()) told += finding + '\n';
  const std::string noChapter =
      " leads to no chapter [link-missing] link to a file of prose (`name.md`), or to a record (`kind:id`)\n";
  CHECK(
      told ==
      "records.yaml:12:21: `works.md`" + noChapter +
          "records.yaml:12:47: there is no heading `#two-fonders` in the chapter \"The firm\" [link-missing] "
          "did "
          "you mean `#two-founders`?\n" +
          "records.yaml:12:79: `#bryn`" + noTarget +  //
          "records.yaml:15:23: `drawing.pdf`" + noTarget +
          "records.yaml:15:52: `plate.png` is no picture of the guide, and only its words are printed "
          "[link-missing] put the picture into the guide's `images/`, and type `../images/name.png`\n" +
          "records.yaml:19:26: `book.md`" + noChapter);
  CHECK(holds(guide.file("bryn"), "[the firm](firm.md), under [the founders](firm.md#two-founders)"));
  CHECK(holds(guide.file("bryn"), "[its founders](firm.md#two-founders)"));
  CHECK(deadLinks(guide.files()).empty());
}

}  // namespace
}  // namespace saggar::compose::testing
