#include "reading/markdown.h"

#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "document/document.h"
#include "markdown_words.h"
#include "source/source_set.h"

using namespace saggar;
using document::Block;
using document::BlockKind;
using document::Inline;
using document::InlineKind;

namespace {

// One text read as a file of its own.
struct Read {
  explicit Read(std::string text) : file(set.add("prose/a.md", std::move(text))) {
    result = reading::parseMarkdown(set.text(file), reading::FileTextMap(file), kTestWords);
  }
  std::string dump() const {
    document::Document document;
    document.blocks = result.blocks;
    const std::string all = document::dump(document);
    return all.substr(all.find('\n') + 1);
  }
  std::string typed(const source::Span& span) const { return std::string(set.text(span)); }
  std::vector<std::string> destinations() const {
    std::vector<std::string> out;
    document::forEachInline(result.blocks, [&](const Inline& one) {
      if (one.span.known() && one.kind != InlineKind::footnote) out.push_back(typed(one.span));
    });
    return out;
  }
  // "rule: what was marked" of each notice.
  std::vector<std::string> notices() const {
    std::vector<std::string> out;
    for (const reading::MarkdownNotice& notice : result.notices) {
      out.push_back(std::string(notice.rule.id()) + ": " + typed(notice.span));
    }
    return out;
  }

  source::SourceSet set;
  source::FileId file;
  reading::MarkdownResult result;
};

using Strings = std::vector<std::string>;

}  // namespace

namespace doctest {
template <>
struct StringMaker<Strings> {
  static String convert(const Strings& all) {
    std::string out;
    for (const std::string& one : all) out += '<' + one + "> ";
    return out.c_str();
  }
};
}  // namespace doctest

TEST_CASE("links of the record language become references, citations and index entries") {
  const Read read(
      "[the plain edge](treatment:jm-045) <shape:jessamount> [when](shape:jessamount.introduced)\n"
      "[vol. 3, May *1932*](source:decoration-books) <source:price-list-31> [she](<index:Quoyne, "
      "Ismerelda>)\n"
      "[lustre](<index:>) [tea](index:Teapots)");
  CHECK(read.dump() == R"(  paragraph
    reference "treatment:jm-045"
      text "the plain edge"
    text " "
    reference "shape:jessamount"
    text " "
    reference "shape:jessamount.introduced"
      text "when"
    soft-break
    citation "decoration-books"
      text "vol. 3, May "
      emphasis
        text "1932"
    text " "
    citation "price-list-31"
    text " "
    index "Quoyne, Ismerelda"
      text "she"
    soft-break
    index
      text "lustre"
    text " "
    index "Teapots"
      text "tea"
)");
  CHECK(read.destinations() == Strings{"treatment:jm-045", "shape:jessamount", "shape:jessamount.introduced",
                                       "source:decoration-books", "source:price-list-31",
                                       "index:Quoyne, Ismerelda", "index:", "index:Teapots"});
  CHECK(read.notices().empty());
}

TEST_CASE("every kind can be referred to, and only a link can") {
  for (const std::string_view kind : kTestKinds) {
    const Read read("[x](" + std::string(kind) + ":an-id) and " + std::string(kind) + ":other");
    const Inline& first = read.result.blocks.at(0).inlines.at(0);
    CHECK(first.kind == (kind == "source" ? InlineKind::citation : InlineKind::reference));
    CHECK(read.destinations().size() == 1);
  }
}

TEST_CASE("a destination is found at its own place, whatever stands around it") {
  const Read read(
      "`[a](shape:a)` \\[b](shape:b) [x `](shape:c)` y](shape:c)\n"
      "\n"
      "> - in a list [two\n"
      ">   lines](\n"
      ">   shape:d) and [again](shape:d)\n"
      "\n"
      "| [e](shape:e) | b |\n"
      "| --- | --- |\n"
      "| x | [e](shape:e) [f \\| g](<shape:f>) |\n"
      "\n"
      "[![picture](images/a.png)](shape:g) [h][label] [i](shape:&#105;)\n"
      "\n"
      "[label]: shape:h \"title\"\n");
  const Strings wanted{"shape:c", "shape:d", "shape:d",      "shape:e", "shape:e",
                       "shape:f", "shape:g", "images/a.png", "shape:h", "shape:&#105;"};
  CHECK(read.destinations() == wanted);
  std::vector<std::size_t> begins;
  document::forEachInline(read.result.blocks, [&](const Inline& one) {
    if (one.span.known()) begins.push_back(one.span.begin);
  });
  const std::string text(read.set.text(read.file));
  CHECK(begins.at(0) == text.rfind("shape:c"));
  CHECK(begins.at(1) == text.find("shape:d"));
  CHECK(begins.at(2) == text.rfind("shape:d"));
  CHECK(begins.at(3) == text.find("shape:e"));
  CHECK(begins.at(4) == text.rfind("shape:e"));
}

TEST_CASE("a fence whose first word is a block's name is a query") {
  const Read read(
      "> ```treatments\n> where: {shape: jessamount}\n>   in-order-of: code\n> ```\n\n```yaml\na: "
      "b\n```\n\n~~~ marks\n~~~\n");
  CHECK(read.dump() == R"(  quote
    query treatments "where: {shape: jessamount}\n  in-order-of: code"
  code yaml "a: b"
  query marks
)");
  const Block& query = read.result.blocks.at(0).blocks.at(0);
  CHECK(read.typed(query.span) == "> where: {shape: jessamount}\n>   in-order-of: code");
  const reading::LinesTextMap places(read.set.text(read.file), query.span, query.text);
  const std::size_t at = query.text.find("in-order-of");
  CHECK(read.typed(places.at(at, at + 11)) == "in-order-of");
  CHECK(read.set.place(places.at(at, at + 11)).line == 3);
  CHECK(read.notices().empty());
}

TEST_CASE("a fence whose name is nearly that of a block has a notice, any other is code") {
  const Read read(
      "```treatment\n```\n\n``` Markz x\n```\n\n```json\n```\n\n```treatments of jessamount\n```\n");
  CHECK(read.notices() ==
        Strings{"block-unknown: treatment", "block-unknown: Markz", "value-lost: of jessamount"});
  CHECK(read.result.notices.at(0).hint.find("`treatments`") != std::string::npos);
  CHECK(read.result.notices.at(1).hint.find("`marks`") != std::string::npos);
}

TEST_CASE("figures, tick boxes, headings, tables and footnotes") {
  const Read read(
      "Notes *on\nmarks*\n=====\n\n## Notes on marks\n\n## *Ça & là*, `x`!\n\n"
      "![a plate](images/a.png)\n\n![a cup](images/b.png \"The cup\")\n\n![a pot](c.png)\nWith *words*\n\n"
      "A ![small](d.png \"one\") picture[^n].\n\n- [ ] to do\n- [x] done ☐\n\n"
      "| a | b | c |\n| :-- | --: | :-: |\n| `x\\|y` | z |\n\n[^n]: First.\n\n    Second.\n");
  CHECK(read.dump() == R"(  heading 1 #notes-on-marks
    text "Notes "
    emphasis
      text "on marks"
  heading 2 #notes-on-marks-1
    text "Notes on marks"
  heading 2 #ça--là-x
    emphasis
      text "Ça & là"
    text ", "
    code "x"
    text "!"
  figure "a plate" -> images/a.png
  figure "a cup" -> images/b.png
    text "The cup"
  figure "a pot" -> c.png
    text "With "
    emphasis
      text "words"
  paragraph
    text "A "
    image "small" -> d.png
      text "one"
    text " picture"
    footnote
      text "First."
      hard-break
      text "Second."
    text "."
  list
    item
      paragraph
        tick-box
        text " to do"
    item
      paragraph
        text "☑ done "
        tick-box
  table
    head
      cell
        text "a"
      cell
        text "b"
      cell
        text "c"
    row
      cell
        code "x|y"
      cell
        text "z"
      cell
)");
  const std::vector<document::Align> wanted{document::Align::left, document::Align::right,
                                            document::Align::centre};
  CHECK(read.result.blocks.at(8).table->align == wanted);
  CHECK(read.notices().empty());
}

TEST_CASE("HTML is shown as it was typed, comments are left out, and each has one notice") {
  const Read read(
      "A <b>bold</b> word<br>\nand <!-- a remark --><jessamount> <span class=\"x\">y</span>\n\n"
      "<div onclick=\"x()\">\n**plain**\n\n<!-- another\nremark -->\n");
  CHECK(read.dump() == R"(  paragraph
    text "A <b>bold</b> word<br>"
    soft-break
    text "and <jessamount> <span class=\"x\">y</span>"
  paragraph
    text "<div onclick=\"x()\">"
    soft-break
    text "**plain**"
)");
  CHECK(read.notices() == Strings{"html-in-prose: <b>", "html-in-prose: <br>",
                                  "html-in-prose: <!-- a remark -->", "html-in-prose: <jessamount>",
                                  "html-in-prose: <span class=\"x\">",
                                  "html-in-prose: <div onclick=\"x()\">\n**plain**",
                                  "html-in-prose: <!-- another\nremark -->"});
}

TEST_CASE("an anchor is HTML like any other, unless our own Markdown is read") {
  const std::string text = "<a id=\"shape-jessamount\"></a>\n\n## Jessamount\n\nA <a id=\"x\"></a>word\n";
  CHECK(Read(text).notices().size() == 2);
  const auto own = reading::parseMarkdown(text, reading::NoTextMap(), kOwnWords);
  CHECK(own.notices.empty());
  REQUIRE(own.blocks.size() == 2);
  CHECK(own.blocks[0].anchor == "shape-jessamount");
  CHECK(own.blocks[1].inlines.at(1).kind == InlineKind::anchor);
}

TEST_CASE("what Markdown would drop in silence has a notice") {
  CHECK(Read("| a | b |\n|---|---|\n| c | d | e |\n").notices() == Strings{"value-lost: | c | d | e |"});
  CHECK(Read("| a | b |\n|---|---|\n| c | d \\| e |\n").notices().empty());
  CHECK(Read("A mark.[^1]\n\n[^2]: A note\n").notices() == Strings{"link-missing: [^1]", "value-lost: [^2]"});
  CHECK(Read("```\n[^2]: no note\n```\n\n\\[^3] and `[^4]`\n").notices().empty());
  CHECK(Read("[x](shape:a \"title\") [y]()").notices() == Strings{"value-lost: shape:a", "link-missing: "});
}

TEST_CASE("a mistyped kind is told with the right one") {
  const Read read("[x](shap:jessamount) <treatmnet:jm-045>");
  CHECK(read.notices() == Strings{"kind-unknown: shap:jessamount", "kind-unknown: treatmnet:jm-045"});
  CHECK(read.result.notices[0].hint == "did you mean `shape:jessamount`?");
  CHECK(document::plainText(read.result.blocks) == "x treatmnet:jm-045");
}

TEST_CASE("places inside the block scalars of a record") {
  const std::string yaml =
      "- term: lustre\n"
      "  means: |\n"
      "    A film of metal, see\n"
      "    [this](shape:a) and <b>x</b>\n"
      "\n"
      "      [that](shape:b)\n"
      "  note: >-\n"
      "    folded [one](shape:c)\n"
      "    and [two](shape:d)\n";
  source::SourceSet set;
  const source::FileId file = set.add("terms.yaml", yaml);
  auto spans = [&](const char* indicator, const std::string& value) {
    const std::uint32_t begin = static_cast<std::uint32_t>(yaml.find(indicator));
    const reading::YamlTextMap places(set.text(file), {file, begin, static_cast<std::uint32_t>(yaml.size())},
                                      value);
    const auto result = reading::parseMarkdown(value, places, kTestWords);
    Strings out;
    for (const auto& notice : result.notices) out.push_back(std::string(set.text(notice.span)));
    document::forEachInline(result.blocks, [&](const Inline& one) {
      if (!one.span.known()) return;
      const source::Place place = set.place(one.span);
      out.push_back(std::to_string(place.line) + ':' + std::to_string(place.column) + ' ' +
                    std::string(set.text(one.span)));
    });
    return out;
  };
  CHECK(spans("|", "A film of metal, see\n[this](shape:a) and <b>x</b>\n\n  [that](shape:b)\n") ==
        Strings{"<b>", "4:12 shape:a", "6:14 shape:b"});
  CHECK(spans(">-", "folded [one](shape:c) and [two](shape:d)") == Strings{"8:18 shape:c", "9:15 shape:d"});
}

TEST_CASE("a text without signs needs no parser") {
  CHECK_FALSE(reading::scanForLinks(""));
  CHECK_FALSE(
      reading::scanForLinks("Numbers of 1932 [sic]; a *plain* edge - and (perhaps) more.\n\n- one\n- two\n"));
  for (const char* text : {"[x](shape:a)", "[x][y]\n\n[y]: z", "<shape:a>", "a <b> c", "```marks\n```",
                           "~~~\nx\n~~~", "see http://example.org", "www.example.org", "[^1]",
                           "a@example.org", "|a|\n|-|\n|b|c|", "\xFF", "![x](y)"}) {
    CHECK_MESSAGE(reading::scanForLinks(text), text);
  }
  CHECK(reading::scanForLinks(std::string(300, '>') + "deep"));
}

TEST_CASE("names of headings") {
  CHECK(reading::headingAnchor("Date codes and batches") == "date-codes-and-batches");
  CHECK(reading::headingAnchor("The boat & the date, 1925 to 1951") == "the-boat--the-date-1925-to-1951");
  CHECK(reading::headingAnchor("ÉTAGÈRE_2") == "étagère_2");
  CHECK(reading::headingAnchor("?!") == "section");
  reading::AnchorNames names;
  const Strings given{names.unique("a"), names.unique("a-1"), names.unique("a"), names.unique("a"),
                      names.unique("a-1")};
  CHECK(given == Strings{"a", "a-1", "a-2", "a-3", "a-1-1"});
}
