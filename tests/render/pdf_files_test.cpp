#include <doctest/doctest.h>

#include <cstdlib>
#include <fstream>
#include <string>
#include <vector>

#include "pdf_sample.h"
#include "render/pdf/pdf.h"

using namespace saggar;
using namespace saggar::document;
using render::FontBook;
using render::PdfNotice;
using render::PdfResult;

namespace {

const source::DiskFiles kDisk;

PdfResult made(const Document& document, const layout::PageLayout& layout = sample::plainLayout()) {
  FontBook fonts({{&kDisk, "/usr/share/fonts"}});
  return render::renderPdf(document, layout, fonts);
}

Document of(Blocks blocks) {
  Document document;
  document.file = "sample";
  document.title = "Sample";
  document.language = "en-GB";
  document.blocks = std::move(blocks);
  return document;
}

// The words of a document in the order of its pages, boxes included.
void addWords(std::string& out, const Inlines& inlines) {
  for (const Inline& one : inlines) {
    if (one.kind == InlineKind::tickBox)
      out += "☐";
    else if (one.kind == InlineKind::text || one.kind == InlineKind::code)
      out += one.text;
    else if (one.kind == InlineKind::softBreak || one.kind == InlineKind::hardBreak)
      out += ' ';
    addWords(out, one.children);
  }
}

void addWords(std::string& out, const Blocks& blocks) {
  for (const Block& block : blocks) {
    addWords(out, block.inlines);
    out += ' ';
    for (const Cell& cell : block.table->head) addWords(out += ' ', cell.inlines);
    for (const Row& row : block.table->rows)
      for (const Cell& cell : row.cells) addWords(out += ' ', cell.inlines);
    addWords(out, block.blocks);
  }
}

// A page so long that nothing is repeated, and nothing beside the text: what is in the file as text is the document.
layout::PageLayout roll() {
  layout::PageLayout layout = sample::plainLayout();
  layout.paper = {"roll", layout.paper.width, 9000};
  layout.head = {};
  layout.foot = {};
  return layout;
}

struct Named {
  std::string name;
  Document document;
  layout::PageLayout layout = sample::plainLayout();
};

Block tableOf(std::vector<std::vector<std::string>> rows, std::vector<std::string> head = {}) {
  Table all;
  for (std::string& words : head) all.head.push_back(cell(std::move(words)));
  for (auto& words : rows) {
    Row row;
    for (std::string& one : words) row.cells.push_back(cell(std::move(one)));
    all.rows.push_back(std::move(row));
  }
  return table(std::move(all));
}

Blocks nested(int depth) {
  Blocks inside = {paragraph({text("the innermost")})};
  for (int i = 0; i < depth; ++i) {
    switch (i % 3) {
      case 0: inside = {list({inside}, true)}; break;
      case 1: inside = {notice("caution", inside)}; break;
      default: {
        Block quote;
        quote.kind = BlockKind::quote;
        quote.blocks = std::move(inside);
        inside = {std::move(quote)};
      }
    }
  }
  return inside;
}

std::vector<Named> hostile() {
  std::vector<Named> all;
  auto add = [&](std::string name, Blocks blocks) {
    all.push_back({std::move(name), of(std::move(blocks))});
  };
  add("nothing", {});
  add("empty-table", {tableOf({})});
  add("head-only", {tableOf({}, {"Number", "Motif"})});
  add("no-columns", {tableOf({{}, {}, {}})});
  add("uneven-rows", {tableOf({{"a"}, {"b", "c", "d", "e"}, {}, {"f", "g"}}, {"one", "two"})});
  add("long-word", {paragraph({text(std::string(5000, 'x'))}), tableOf({{std::string(3000, 'y'), "b"}})});
  std::string cellText;
  while (cellText.size() < 10000) cellText += "the lustre is worn away at the lip and ";
  add("long-cell", {tableOf({{"1", cellText}, {"2", "short"}}, {"No.", "Note"})});
  add("control-characters",
      {paragraph({text(std::string("bell\a null") + '\0' + " escape\x1B[0m \x7F \xC2\x85 end")})});
  add("not-utf8", {paragraph({text("caf\xE9 noir \xF0\x9F \xED\xA0\x80 end")}), tableOf({{"\xFF\xFE"}})});
  add("replacement-character", {paragraph({text("a \uFFFD b")})});
  add("right-to-left", {paragraph({text("a שלום עולם b مرحبا c")}), tableOf({{"שלום"}})});
  add("emoji", {paragraph({text("a cup \U0001F375 and a family \U0001F468\u200D\U0001F469\u200D\U0001F467 "
                                "and \U0001F1EC\U0001F1E7")})});
  add("marks", {paragraph({text("e\u0301 a\u030A\u0323 \u0301 q\u0307\u0307\u0307\u0307")})});
  add("invisible", {paragraph({text("soft\u00ADhyphen zero\u200Bwidth no\u2060break no\u00A0break\uFEFF")})});
  std::vector<std::string> many(300, "wide words here");
  add("many-columns", {tableOf({many, many})});
  add("headings-only", {heading(1, {text("a")}), heading(2, {}), heading(2, {text("b")}),
                        heading(9, {text("c")}), heading(0, {text("d")})});
  add("deep", nested(200));
  Table heads;
  for (int i = 0; i < 200; ++i) {
    Row row;
    row.groupHead = true;
    row.cells = {cell("group " + std::to_string(i))};
    heads.rows.push_back(row);
  }
  add("groups-without-rows", {table(std::move(heads))});
  Inline footnote;
  footnote.kind = InlineKind::footnote;
  footnote.children = {text("a note "), footnote};
  add("footnotes", {paragraph({text("words"), footnote, text(" and"), footnote})});
  Block picture;
  picture.kind = BlockKind::figure;
  picture.target.make().address = "images/plate.jpg";
  picture.text = "a plate";
  picture.inlines = {text("A plate of 1936.")};
  add("picture", {picture});
  add("links", {heading(1, {text("a")}, "here"),
                paragraph({link({text("inside")}, {"", "here", ""}), text(" "),
                           link({text("nowhere")}, {"", "gone", ""}), text(" "),
                           link({text("outside (a)\\b")}, {"", "", "https://example.org/a(b)\\c é"}),
                           text(" "), link({text("script")}, {"", "", "javascript:alert(1)"}), text(" "),
                           link({text("chapter")}, {"jessamount", "shape-jessamount", ""})})});
  layout::PageLayout tiny = sample::plainLayout();
  tiny.paper = {"tiny", 120, 140};
  tiny.top = tiny.bottom = tiny.left = tiny.right = 10;
  for (layout::Style& style : tiny.styles) {
    style.size = 8;
    style.leading = 9;
  }
  all.push_back({"tiny-page", sample::checklist(), tiny});
  return all;
}

std::size_t countOf(const PdfResult& result, PdfNotice::Kind kind) {
  std::size_t out = 0;
  for (const PdfNotice& notice : result.notices)
    if (notice.kind == kind) out += notice.count;
  return out;
}

}  // namespace

TEST_CASE("a checklist becomes a file of some pages without a word") {
  const PdfResult result = made(sample::checklist());
  CHECK(result.error == "");
  CHECK(result.notices.empty());
  CHECK(result.pages >= 2);
  CHECK(result.pages <= 4);
  CHECK(result.bytes.starts_with("%PDF-1.5"));
}

TEST_CASE("the same document gives the same bytes, in one piece or row by row, whatever was set before") {
  const Document document = sample::checklist();
  FontBook fonts({{&kDisk, "/usr/share/fonts"}});
  const layout::PageLayout layout = sample::plainLayout();
  const PdfResult first = render::renderPdf(document, layout, fonts);
  CHECK(render::renderPdf(sample::checklist(true), layout, fonts).bytes != first.bytes);
  CHECK(render::renderPdf(document, layout, fonts).bytes == first.bytes);
  CHECK(made(document).bytes == first.bytes);
  render::PdfWriter writer(document, layout, fonts);
  for (const Block& block : document.blocks) {
    if (block.kind != BlockKind::table) {
      writer.add(block);
      continue;
    }
    Table head = block.table;
    head.rows.clear();
    writer.beginTable(head);
    for (const Row& row : block.table->rows) writer.addRow(row);
  }
  std::string pieces;
  const PdfResult inPieces = writer.finish([&](std::string_view piece) { pieces += piece; });
  CHECK(inPieces.ok());
  CHECK(inPieces.bytes.empty());
  CHECK(inPieces.pages == first.pages);
  CHECK(pieces == first.bytes);
  Document other = document;
  other.title += ".";
  const auto idOf = [](const std::string& bytes) { return bytes.substr(bytes.rfind("/ID")); };
  CHECK(idOf(made(other).bytes) != idOf(first.bytes));
}

TEST_CASE("whatever comes, there is a file, and what could not be shown is reported") {
  for (const Named& one : hostile()) {
    CAPTURE(one.name);
    const PdfResult result = made(one.document, one.layout);
    CHECK(result.error == "");
    CHECK(result.pages >= 1);
    CHECK(result.bytes.size() > 500);
    using Kind = PdfNotice::Kind;
    CHECK((countOf(result, Kind::pictureLeftOut) > 0) == (one.name == "picture"));
    CHECK(countOf(result, Kind::linkLeftOut) == (one.name == "links" ? 2 : 0));
    CHECK(countOf(result, Kind::anchorMissing) == (one.name == "links" ? 1 : 0));
    if (one.name == "control-characters") CHECK(countOf(result, Kind::characterMissing) >= 4);
    if (one.name == "emoji") CHECK(countOf(result, Kind::characterMissing) >= 1);
    if (one.name == "replacement-character") CHECK(countOf(result, Kind::characterMissing) == 0);
  }
}

TEST_CASE("the guide's own font goes first, a broken one is passed over, a missing one is named") {
  source::MemoryFiles guide;
  guide.put("fonts/deep/Ours.ttf", kDisk.read("/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf").bytes);
  guide.put("fonts/GentiumBookPlus-Italic.ttf", "no font at all");
  FontBook fonts({{&guide, "fonts"}, {&kDisk, "/usr/share/fonts"}});
  layout::PageLayout layout = sample::plainLayout();
  layout.faces[0].roman = "Ours.ttf";
  layout.faces[0].bold = "NotHere-Bold.ttf";
  const PdfResult result = render::renderPdf(sample::checklist(), layout, fonts);
  CHECK(result.error == "");
  REQUIRE(fonts.substitutions().size() == 1);
  CHECK(fonts.substitutions()[0].wanted == "NotHere-Bold.ttf");
  CHECK(fonts.substitutions()[0].used == "DejaVuSans.ttf");
  FontBook none({{&guide, "nowhere"}});
  CHECK(render::renderPdf(sample::checklist(), layout, none).error.find("no usable font") !=
        std::string::npos);
  layout.left = 5000;
  CHECK(render::renderPdf(sample::checklist(), layout, fonts).error.find("the layout cannot be used") == 0);
}

TEST_CASE("a spoilt font gives another font or another shape, never a crash") {
  const std::string good = kDisk.read("/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf").bytes;
  std::uint32_t seed = 11;
  for (int round = 0; round < 40; ++round) {
    std::string bytes = good;
    for (int edits = 0; edits < 400; ++edits) {
      seed = seed * 1664525u + 1013904223u;
      // Mostly in the directory and the first tables, where it hurts.
      bytes[(seed >> 4) % (edits % 4 == 0 ? bytes.size() : 400)] = static_cast<char>(seed >> 24);
      if (edits >= round * 10) break;
    }
    source::MemoryFiles guide;
    guide.put("fonts/GentiumBookPlus-Regular.ttf", bytes);
    FontBook fonts({{&guide, "fonts"}, {&kDisk, "/usr/share/fonts"}});
    const PdfResult result =
        render::renderPdf(of({paragraph({text("Gooseberry Wreath")})}), sample::plainLayout(), fonts);
    CHECK((result.ok() || !result.error.empty()));
  }
}

// Not a test of its own: build-scripts and tests/render/pdf_tools.sh read what it writes with other programs.
TEST_CASE("samples are written where they are asked for") {
  const char* folder = std::getenv("SAGGAR_PDF_SAMPLES");
  if (!folder) return;
  std::vector<Named> all = hostile();
  all.push_back({"checklist", sample::checklist()});
  all.push_back({"draft", sample::checklist(true)});
  all.push_back({"roll", sample::checklist(), roll()});
  for (const Named& one : all) {
    const PdfResult result = made(one.document, one.layout);
    REQUIRE(result.ok());
    std::ofstream(std::string(folder) + "/" + one.name + ".pdf", std::ios::binary) << result.bytes;
  }
  std::string words;
  addWords(words, sample::checklist().blocks);
  std::ofstream(std::string(folder) + "/roll.txt") << words;
  FontBook fonts({{&kDisk, "/usr/share/fonts"}});
  const layout::PageLayout layout = sample::plainLayout();
  render::PdfWriter writer(sample::checklist(), layout, fonts);
  writer.beginTable(sample::longListHead());
  for (std::size_t i = 0; i < 3000; ++i) writer.addRow(sample::longListRow(i));
  std::ofstream(std::string(folder) + "/long.pdf", std::ios::binary) << writer.finish().bytes;
}
