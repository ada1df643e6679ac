#include "render/markdown.h"

#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "document/document.h"
#include "render/markdown_escape.h"

using namespace saggar;
using document::Block;
using document::BlockKind;
using document::Blocks;
using document::Inline;
using document::InlineKind;
using document::Inlines;

namespace {

std::string written(Blocks blocks) {
  document::Document document;
  document.file = "shapes";
  document.blocks = std::move(blocks);
  return render::renderMarkdown(document);
}

std::string written(Inlines inlines) {
  return written(Blocks{document::paragraph(std::move(inlines))});
}
std::string written(const std::string& words) {
  return written(Inlines{document::text(words)});
}

Inline of(InlineKind kind, std::string text, Inlines children = {}) {
  Inline one;
  one.kind = kind;
  one.text = std::move(text);
  one.children = std::move(children);
  return one;
}

Block of(BlockKind kind, Blocks blocks = {}) {
  Block block;
  block.kind = kind;
  block.blocks = std::move(blocks);
  return block;
}

Block words(const std::string& text) {
  return document::paragraph({document::text(text)});
}

}  // namespace

TEST_CASE("prose stays as readable as it was typed") {
  CHECK(written("The number JM-203/1 is on the foot, e.g. on plates (9 1/8 in); see vol. 3.") ==
        "The number JM-203/1 is on the foot, e.g. on plates (9 1/8 in); see vol. 3.\n");
  CHECK(written("W&S, date_code, 5 < 6, \"quoted\" 100 % #3 - and + so = on: it's 1932?") ==
        "W&S, date_code, 5 < 6, \"quoted\" 100 % #3 - and + so = on: it's 1932?\n");
}

TEST_CASE("an ampersand gets a backslash only where a character reference would begin") {
  CHECK(written("W&S; the firm") == "W&S; the firm\n");  // no reference has a name of one letter
  CHECK(written("A &lt; B, &#38; &#x26; &Mu; &amp") == "A \\&lt; B, \\&#38; \\&#x26; \\&Mu; &amp\n");
}

TEST_CASE("signs that would mean something get a backslash") {
  CHECK(written("*a* _b_ `c` [d](e) <f> &amp; ~g~ h\\i") ==
        "\\*a\\* \\_b\\_ \\`c\\` \\[d](e) \\<f> \\&amp; \\~g\\~ h\\\\i\n");
  CHECK(written("1. one") == "1\\. one\n");
  CHECK(written("1932) one") == "1932\\) one\n");
  CHECK(written("1932.") == "1932\\.\n");
  CHECK(written("1.5 in") == "1.5 in\n");
  CHECK(written("- one") == "\\- one\n");
  CHECK(written("-one") == "-one\n");
  CHECK(written("# one") == "\\# one\n");
  CHECK(written("#1 one") == "#1 one\n");
  CHECK(written("> one") == "\\> one\n");
  CHECK(written("---") == "\\---\n");
  CHECK(written("===") == "\\===\n");
  CHECK(written(" one ") == "&#32;one&#32;\n");
  CHECK(written("www.example.org http://example.org") == "www\\.example.org http\\://example.org\n");
  CHECK(written("one\ntwo") == "one&#10;two\n");
  CHECK(written(std::string("a\0b\xFF", 4)) ==
        "a\xEF\xBF\xBD"
        "b\xEF\xBF\xBD\n");
}

TEST_CASE("the author's line ends are kept, a forced one is a backslash") {
  CHECK(written({document::text("one"), of(InlineKind::softBreak, ""), document::text("- two"),
                 document::hardBreak(), document::text("three"), document::hardBreak()}) ==
        "one\n\\- two\\\nthree\n");
}

TEST_CASE("emphasis where CommonMark allows it, and where it does not") {
  const Inlines bar{document::text("bar")};
  CHECK(written({document::text("foo "), document::emphasis(bar), document::text(" baz")}) ==
        "foo *bar* baz\n");
  CHECK(written({document::text("foo"), document::strong(bar), document::text("baz")}) == "foo**bar**baz\n");
  CHECK(written({document::emphasis({document::strong(bar), document::text(" x")})}) == "*__bar__ x*\n");
  CHECK(written({document::emphasis(bar), document::strong(bar)}) == "*bar*__bar__\n");
  CHECK(written({document::text("un"), document::emphasis({document::text("(believ)")}),
                 document::text("able")}) == "u&#110;*(believ)*&#97;ble\n");
  CHECK(written({document::text("a"), document::emphasis({document::text(" b ")}), document::text("c")}) ==
        "a *b* c\n");
  CHECK(written({document::emphasis({}), document::text("x"), document::strong({document::text(" ")})}) ==
        "x&#32;\n");
  CHECK(written({of(InlineKind::struck, "", bar)}) == "~~bar~~\n");
}

TEST_CASE("code between as many backquotes as it needs") {
  CHECK(render::markdownCode("a") == "`a`");
  CHECK(render::markdownCode("a`b") == "``a`b``");
  CHECK(render::markdownCode("`a") == "`` `a ``");
  CHECK(render::markdownCode(" a ") == "`  a  `");
  CHECK(render::markdownCode(" ") == "` `");
  CHECK(render::markdownCode("").empty());
  Block block = of(BlockKind::code);
  block.text = "```\nx";
  CHECK(written(Blocks{block}) == "````\n```\nx\n````\n");
  block.info = "a`b";
  CHECK(written(Blocks{block}) == "~~~a`b\n```\nx\n~~~\n");
}

TEST_CASE("links lead to files and places, to addresses outside, or nowhere") {
  const Inlines jm{document::text("JM-045")};
  CHECK(written({document::link(jm, {"jessamount", "treatment-jm-045", ""})}) ==
        "[JM-045](jessamount.md#treatment-jm-045)\n");
  CHECK(written({document::link(jm, {"shapes", "treatment-jm-045", ""})}) == "[JM-045](#treatment-jm-045)\n");
  CHECK(written({document::link(jm, {"", "treatment-jm-045", ""})}) == "[JM-045](#treatment-jm-045)\n");
  CHECK(written({document::link(jm, {"jessamount", "", ""})}) == "[JM-045](jessamount.md)\n");
  CHECK(written({document::link(jm, {"", "", "https://example.org/a_(b)?c=d&e"})}) ==
        "[JM-045](<https://example.org/a_(b)?c=d&e>)\n");
  const std::string address = "https://example.org/x";
  CHECK(written({document::link({document::text(address)}, {"", "", address})}) ==
        "<https://example.org/x>\n");
  CHECK(written({document::link({document::text("a]b [c")}, {"", "", "a.md"})}) == "[a\\]b \\[c](a.md)\n");
  CHECK(written({document::text("!"), document::link(jm, {"", "", "a.md"})}) == "\\![JM-045](a.md)\n");
  CHECK(written({document::link({document::link(jm, {"", "", "a.md"})}, {"", "", "b.md"})}) ==
        "[JM-045](b.md)\n");
  CHECK(written({document::link(jm, {"", "", "javascript:alert(1)"})}) == "JM-045\n");
}

TEST_CASE("what nobody resolved is written as it was typed, index entries are their words") {
  CHECK(written({of(InlineKind::reference, "shape:jessamount"), document::text(" "),
                 of(InlineKind::reference, "treatment:jm-045", {document::text("the edge")}),
                 document::text(" "), of(InlineKind::citation, "books", {document::text("p. 3")}),
                 document::text(" "), of(InlineKind::citation, "books")}) ==
        "<shape:jessamount> [the edge](treatment:jm-045) [p. 3](source:books) <source:books>\n");
  CHECK(written({document::anchorAt("index-1"),
                 of(InlineKind::index, "Quoyne, Ismerelda", {document::text("she")})}) ==
        "<a id=\"index-1\"></a>she\n");
  Block query = of(BlockKind::query);
  query.info = "marks";
  query.text = "where: {a: b}";
  CHECK(written(Blocks{query}) == "```marks\nwhere: {a: b}\n```\n");
}

TEST_CASE("a table with anchors, bars, line ends, a group's head and short rows") {
  document::Table table;
  table.head = {document::cell("Number"), document::cell("Motif"), document::cell("Inches")};
  table.align = {document::Align::left, document::Align::centre, document::Align::right};
  document::Cell anchored = document::cell("JM-045");
  anchored.anchor = "treatment-jm-045";
  table.rows.push_back({{document::cell("Plain edges")}, true});
  table.rows.push_back({{anchored,
                         document::cell({document::text("a | b"), document::hardBreak(), document::text("c."),
                                         document::hardBreak(), document::code("d|e")}),
                         document::cell("9")},
                        false});
  table.rows.push_back({{document::cell("- x"), document::cell("\\|"), document::cell(" y ")}, false});
  table.rows.push_back({{}, false});
  CHECK(written(Blocks{document::table(table)}) ==
        "| Number | Motif | Inches |\n"
        "| --- | :-: | --: |\n"
        "| **Plain edges** | | |\n"
        "| <a id=\"treatment-jm-045\"></a>JM-045 | a \\| b; c. `d\\|e` | 9 |\n"
        "| - x | \\\\\\| | &#32;y&#32; |\n"
        "| | | |\n");
  table.head.clear();
  table.rows.resize(1);
  CHECK(written(Blocks{document::table(table)}).starts_with("| | | |\n| --- | :-: | --: |\n"));
  CHECK(written(Blocks{document::table({})}).empty());
}

TEST_CASE("headings, with the names that can be linked to in front") {
  CHECK(written(Blocks{document::heading(2, {document::text("Jessamount")}, "shape-jessamount"),
                       words("It is round.")}) ==
        "<a id=\"shape-jessamount\"></a>\n\n## Jessamount\n\nIt is round.\n");
  CHECK(written(Blocks{document::heading(9, {document::text("C#")})}) == "###### C\\#\n");
  CHECK(render::anchorTag("a\"b<c> d|") == "<a id=\"a&quot;b&lt;c&gt;-d&#124;\"></a>");
  Block anchored = words("- x");
  anchored.anchor = "claim-a";
  CHECK(written(Blocks{anchored}) == "<a id=\"claim-a\"></a>- x\n");
}

TEST_CASE("lists") {
  Block inner = document::list({{words("c")}, {words("d")}}, true);
  inner.start = 7;
  Block outer = document::list({{words("a")}, {words("b"), inner}, {}});
  CHECK(written(Blocks{outer}) == "- a\n- b\n\n  7. c\n  8. d\n-\n");
  inner.start = 1;
  outer = document::list({{words("a")}, {words("b"), inner}});
  CHECK(written(Blocks{outer, document::list({{words("e")}})}) == "- a\n- b\n  1. c\n  2. d\n\n* e\n");
  Block loose = document::list({{words("a"), words("b")}, {of(BlockKind::rule)}});
  loose.tight = false;
  CHECK(written(Blocks{loose}) == "- a\n\n  b\n\n- ___\n");
  Block box = document::list({{document::paragraph({document::tickBox(), document::text(" plate")})}});
  box.blocks[0].anchor = "form-plate";
  CHECK(written(Blocks{box}) == "- <a id=\"form-plate\"></a>☐ plate\n");
}

TEST_CASE("figures, notices, quotations and definitions") {
  Block figure = of(BlockKind::figure);
  figure.text = "a [round] plate";
  figure.target.make().address = "images/a b.png";
  CHECK(written(Blocks{figure}) == "![a \\[round\\] plate](<images/a b.png>)\n");
  figure.inlines = {document::text("1. The plate")};
  CHECK(written(Blocks{figure}) == "![a \\[round\\] plate](<images/a b.png>)\\\n1\\. The plate\n");

  CHECK(written(
            Blocks{document::notice("open-question", {words("Is there a line?"), words("Nobody knows.")})}) ==
        "> **Open question:** Is there a line?\n>\n> Nobody knows.\n");
  CHECK(written(Blocks{document::notice("caution", {document::list({{words("lead")}})})}) ==
        "> **Caution:**\n>\n> - lead\n");
  CHECK(written(Blocks{of(BlockKind::quote, {words("a")}),
                       of(BlockKind::quote, {of(BlockKind::quote, {words("b")})})}) == "> a\n\n> > b\n");

  Block definition = of(BlockKind::definition, {words("A film of metal."), words("Often worn.")});
  definition.inlines = {document::text("Lustre")};
  definition.anchor = "term-lustre";
  CHECK(written(Blocks{definition}) ==
        "<a id=\"term-lustre\"></a>**Lustre:** A film of metal.\n\nOften worn.\n");
}

TEST_CASE("footnotes are numbered by their marks and stand at the end") {
  const Inline inner = of(InlineKind::footnote, "", {document::text("inner")});
  const Inline outer = of(InlineKind::footnote, "",
                          {document::text("outer"), inner, document::hardBreak(), document::text("more")});
  document::Table table;
  table.head = {
      document::cell({document::text("a"), of(InlineKind::footnote, "", {document::text("cell")})})};
  CHECK(written(Blocks{document::paragraph({document::text("x"), outer, document::text("(y)")}),
                       document::table(table)}) ==
        "x[^1]\\(y)\n\n| a[^2] |\n| --- |\n\n[^1]: outer[^3]\\\n    more\n\n[^2]: cell\n\n[^3]: inner\n");
}

TEST_CASE("a draft says so first, a title stands in where there is no heading") {
  document::Document document;
  CHECK(render::renderMarkdown(document).empty());
  document.title = "Shapes & *marks*";
  document.blocks = {words("a")};
  CHECK(render::renderMarkdown(document) == "# Shapes & \\*marks\\*\n\na\n");
  document.draft = true;
  document.blocks = {document::heading(1, {document::text("Shapes")}), words("a")};
  const std::string draft = render::renderMarkdown(document);
  CHECK(draft.starts_with("**Draft:**"));
  CHECK(draft.ends_with("\n\n# Shapes\n\na\n"));
}
