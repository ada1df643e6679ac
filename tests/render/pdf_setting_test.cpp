#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "layout/built_in.h"
#include "pdf_sample.h"
#include "render/pdf/flow.h"
#include "render/pdf/font_book.h"
#include "render/pdf/fount.h"
#include "render/pdf/haru.h"
#include "render/pdf/hyphenation.h"
#include "render/pdf/operators.h"
#include "render/pdf/setting.h"
#include "render/pdf/table.h"

using namespace saggar;
using namespace saggar::render;

namespace {

const source::DiskFiles kDisk;

std::string hyphenated(Hyphenator& by, const std::string& word) {
  std::string out;
  std::size_t done = 0;
  for (const std::uint16_t at : by.points(word)) {
    out += word.substr(done, at - done) + "-";
    done = at;
  }
  return out + word.substr(done);
}

// Everything a text needs to be set.
struct Shop {
  layout::PageLayout layout = sample::plainLayout();
  FontBook book{{{&kDisk, "/usr/share/fonts"}}};
  FontSet fonts{layout, book, "en"};
  Hyphenator hyphenator{kDisk, "en-GB", "", {}, 2, 3};
  Shared shared;
  TextSetter texts{fonts, layout, hyphenator, shared};

  SetText set(const document::Inlines& inlines, double measure, layout::Style style) {
    styles.push_back(std::make_unique<layout::Style>(std::move(style)));
    SetText out;
    texts.set(inlines, *styles.back(), measure, 0, out);
    return out;
  }
  SetText set(const std::string& words, double measure) {
    return set({document::text(words)}, measure, layout.style(layout::Role::body));
  }
  std::vector<std::unique_ptr<layout::Style>> styles;
};

std::string numberOf(double value) {
  std::string out;
  appendNumber(out, value);
  return out;
}

}  // namespace

TEST_CASE("numbers on the page are short and never in an exponent") {
  CHECK(numberOf(0) == "0");
  CHECK(numberOf(-0.0001) == "0");
  CHECK(numberOf(12) == "12");
  CHECK(numberOf(-0.5) == "-0.5");
  CHECK(numberOf(3.14159) == "3.142");
  CHECK(numberOf(100.05) == "100.05");
  CHECK(numberOf(1e9) == "1000000000");
  CHECK(textString("aé☐🁱") == "<FEFF006100E92610D83CDC71>");  // U+1F071 is D83C DC71 in UTF-16
}

TEST_CASE("words of the trade break where the list says, other words where the patterns say") {
  const auto list = *layout::builtInLayout("trade-words.txt");
  Hyphenator british(kDisk, "en-GB", list, {"sag-gar"}, 2, 3);
  REQUIRE(british.hasPatterns());
  CHECK(hyphenated(british, "creamware") == "cream-ware");
  CHECK(hyphenated(british, "Porcelain,") == "Porce-lain,");
  CHECK(hyphenated(british, "saggar") == "sag-gar");
  CHECK(hyphenated(british, "\u201Cunderglaze\u201D") == "\u201Cun-der-glaze\u201D");
  // As the British patterns of Debian's hyphen-en-gb gave them when they were tried one by one.
  CHECK(hyphenated(british, "octagonal") == "oc-tag-o-nal");
  Hyphenator bare(kDisk, "en-GB", "", {}, 2, 3);
  CHECK(hyphenated(bare, "octagonal") == "oc-ta-gonal");
  CHECK(hyphenated(bare, "record") == "re-cord");
  Hyphenator american(kDisk, "en-US", "", {}, 2, 3);
  CHECK(hyphenated(american, "record") == "record");
  CHECK(hyphenated(american, "decoration") == "dec-o-ra-tion");
  // No breaks in codes, in short words, or where letters are missing.
  CHECK(hyphenated(british, "JM-203-C/1") == "JM-203-C/1");
  CHECK(hyphenated(british, "to") == "to");
  CHECK(hyphenated(british, "decora\xFFtion").find('-') == std::string::npos);
  Hyphenator unknown(kDisk, "xx", "cream-ware", {}, 2, 3);
  CHECK_FALSE(unknown.hasPatterns());
  CHECK(hyphenated(unknown, "creamware") == "cream-ware");
  CHECK_FALSE(Hyphenator(kDisk, "../../etc/passwd", "", {}, 2, 3).hasPatterns());
}

TEST_CASE("letters are kerned and joined, and a word's width is that of its glyphs") {
  Shop shop;
  Fount& fount = shop.texts.fount(shop.layout.style(layout::Role::body));
  const double apart = fount.word("A").width + fount.word("V").width;
  CHECK(fount.word("AV").width < apart);
  std::vector<Stop> stops;
  fount.stops("effigy", stops);
  CHECK(stops.back().bytes == 6);
  CHECK(stops.back().width == doctest::Approx(fount.word("effigy").width));
  for (std::size_t i = 1; i < stops.size(); ++i) CHECK(stops[i].bytes > stops[i - 1].bytes);
}

TEST_CASE("a sign that the text's face lacks is taken from another, and one that none has is reported") {
  Shop shop;
  Fount& fount = shop.texts.fount(shop.layout.style(layout::Role::body));
  CHECK(fount.word("☐").width > 0);
  CHECK(shop.fonts.missing().empty());
  CHECK(fount.word("\U000F1234").width > 0);
  REQUIRE(shop.fonts.missing().size() == 1);
  CHECK(shop.fonts.missing().begin()->first == 0xF1234);
}

TEST_CASE("true small capitals stand for their letters") {
  Shop shop;
  layout::Style style = shop.layout.style(layout::Role::body);
  style.caps = layout::Caps::small;
  shop.styles.push_back(std::make_unique<layout::Style>(style));
  Fount& small = shop.texts.fount(*shop.styles.back());
  Fount& plain = shop.texts.fount(shop.layout.style(layout::Role::body));
  CHECK(small.word("motif").code != plain.word("motif").code);
  bool found = false;
  for (const UsedFont& font : shop.fonts.fonts())
    for (const auto& glyph : font.glyphs()) found = found || *glyph.text == "m";
  CHECK(found);
}

TEST_CASE("filled lines are as wide as the measure, the last is not") {
  Shop shop;
  const std::string words =
      "The books of the decorating shop were kept by one foreman for twenty-two years, in the same hand, and "
      "what he "
      "did not enter was not made, or was made after hours by somebody who did not wish it known.";
  layout::Style style = shop.layout.style(layout::Role::body);
  style.align = layout::Setting::justify;
  style.hyphenate = true;
  const SetText set = shop.set({document::text(words)}, 180, style);
  REQUIRE(set.lines.size() > 4);
  for (std::size_t i = 0; i + 1 < set.lines.size(); ++i)
    CHECK(set.lines[i].width == doctest::Approx(180).epsilon(0.001));
  CHECK(set.lines.back().width < 180.01);
  style.align = layout::Setting::right;
  for (const Line& line : shop.set({document::text(words)}, 180, style).lines)
    CHECK(line.x + line.width == doctest::Approx(180).epsilon(0.001));
}

TEST_CASE("a word longer than the line is cut, whatever it is") {
  Shop shop;
  for (const std::string& word : {std::string(10000, 'W'), std::string("JM-203-C/1/JM-203-D/1/JM-240-D/0"),
                                  std::string("\u05E9\u05DC\u05D5\u05DD\u05E9\u05DC\u05D5\u05DD")}) {
    const SetText set = shop.set(word, 30);
    CHECK(set.lines.size() > 1);
    if (word[0] == 'W' || word[0] == 'J')
      for (const Line& line : set.lines) CHECK(line.width < 30.01);
  }
  CHECK(shop.set("WWW", 0.5).lines.size() == 3);
  CHECK(shop.set("", 30).lines.empty());
  CHECK(shop.set(" \n\t ", 30).lines.empty());
}

TEST_CASE("forced line ends, empty lines among them, are kept") {
  Shop shop;
  const auto lines =
      shop.set({document::text("a"), document::hardBreak(), document::hardBreak(), document::text("b")}, 200,
               shop.layout.style(layout::Role::body))
          .lines;
  REQUIRE(lines.size() == 3);
  CHECK(lines[1].width == 0);
}

TEST_CASE("columns fill the measure and the wide ones give way first") {
  const std::vector<Widths> columns = {{12, 12}, {60, 60}, {90, 40}, {600, 50}};
  for (const double measure : {100.0, 250.0, 400.0, 480.0, 900.0}) {
    const ColumnPlan plan = planColumns(columns, measure, 10);
    REQUIRE(plan.width.size() == 4);
    CHECK(plan.x.back() + plan.width.back() == doctest::Approx(measure));
    for (const double width : plan.width) CHECK(width > 0);
  }
  const ColumnPlan plan = planColumns(columns, 400, 10);
  CHECK(plan.width[0] == doctest::Approx(12));
  CHECK(plan.width[1] == doctest::Approx(60));
  const ColumnPlan shares = planColumnsByShare({1, 2, 1}, 220, 10);
  CHECK(shares.width[1] == doctest::Approx(100));
  CHECK(planColumnsByShare({0, -1, 1e300}, 220, 10).width.size() == 3);
  CHECK(planColumns({}, 100, 10).width.empty());
}

TEST_CASE("a column is widened where that saves lines") {
  // One text of 130 in a column that was given 120, beside a column of long texts that can spare it.
  const std::vector<Widths> columns = {{130, 30}, {700, 30}};
  std::vector<float> rows;
  for (int i = 0; i < 40; ++i) rows.insert(rows.end(), {130, i == 0 ? 700.0F : 60.0F});
  const ColumnPlan plan = planColumns(columns, rows, 260, 10);
  CHECK(plan.width[0] >= 130);
  CHECK(plan.x[1] + plan.width[1] == doctest::Approx(260));
}

TEST_CASE("a group's heading stays with two rows, and no row is left alone") {
  Shop shop;
  for (const int rows : {0, 1, 2, 3, 4, 9}) {
    std::vector<Slab> slabs;
    document::Table head;
    head.head = {document::cell("Number"), document::cell("Motif")};
    TableSetter setter(
        shop.layout, shop.texts, [&](Slab&& slab) { slabs.push_back(std::move(slab)); }, head, 0, 300, 10,
        false);
    for (int group = 0; group < 2; ++group) {
      document::Row heading;
      heading.groupHead = true;
      heading.cells = {document::cell(group == 0 ? "Jessamount" : "Linnavere")};
      setter.add(heading);
      for (int i = 0; i < rows; ++i) {
        document::Row row;
        row.cells = {document::cell("JM"), document::cell("Teasel Row")};
        setter.add(row);
      }
    }
    setter.finish();
    REQUIRE(slabs.size() == static_cast<std::size_t>(1 + 2 * (1 + rows)));
    CHECK(slabs[0].isTableHead);
    CHECK(slabs[0].mayBreakBefore);
    for (int group = 0; group < 2; ++group) {
      const std::size_t at = static_cast<std::size_t>(1 + group * (1 + rows));
      CHECK(slabs[at].isGroupHead);
      // The last group goes with the rows before it where it has two rows or fewer: alone they would be a page.
      CHECK(slabs[at].mayBreakBefore == (group == 1 && rows > 2));
      for (int i = 0; i < rows; ++i) {
        CAPTURE(rows);
        CAPTURE(i);
        // Not among the first two, nor between the last two.
        CHECK(slabs[at + 1 + static_cast<std::size_t>(i)].mayBreakBefore == (i >= 2 && i != rows - 1));
      }
    }
  }
}

TEST_CASE("slabs are poured in order, inside the page, and parted only where they may be") {
  Shop shop;
  std::uint32_t seed = 5;
  auto random = [&](unsigned most) {
    return (seed = seed * 1664525u + 1013904223u) >> 8 & 0xFFFF ? (seed >> 8) % most : 0;
  };
  Deflater deflater;
  Flow flow(shop.layout, deflater);
  std::vector<double> heights;
  std::vector<bool> mayBreak;
  for (int i = 0; i < 3000; ++i) {
    Slab slab;
    slab.height = i % 500 == 499 ? shop.layout.depth() * 1.5 : 5 + random(60);
    slab.above = random(20);
    slab.mayBreakBefore = random(3) != 0;
    slab.anchors = {std::to_string(i)};
    heights.push_back(slab.height);
    mayBreak.push_back(slab.mayBreakBefore);
    flow.add(std::move(slab));
  }
  flow.finish();
  CHECK(deflater.finish().size() == flow.pages().size());
  REQUIRE(flow.anchors().size() == 3000);
  const double foot = shop.layout.bottom;
  std::size_t runStart = 0;
  for (std::size_t i = 0; i < 3000; ++i) {
    const auto& at = flow.anchors()[i];
    CHECK(at.name == std::to_string(i));
    if (heights[i] <= shop.layout.depth()) CHECK(at.top - heights[i] >= foot - 0.1);
    if (mayBreak[i]) runStart = i;
    if (i == 0) continue;
    const auto& before = flow.anchors()[i - 1];
    if (before.page == at.page) {
      CHECK(at.top <= before.top - heights[i - 1] + 0.01);
      continue;
    }
    CHECK(at.page == before.page + 1);
    if (mayBreak[i]) continue;
    // Parted where it may not be: then the run is higher than a page.
    double run = 0;
    for (std::size_t k = runStart; k < 3000 && (k == runStart || !mayBreak[k]); ++k) run += heights[k] + 20;
    CHECK(run > shop.layout.depth());
  }
}

TEST_CASE("words that run from right to left follow each other that way inside a line") {
  Shop shop;
  const auto widthOf = [&](const std::string& word) {
    return shop.texts.fount(shop.layout.style(layout::Role::body)).word(word).width;
  };
  const std::string one = "\u05D0", two = "\u05D1\u05D1", three = "\u05D2\u05D2\u05D2";
  const SetText set = shop.set("a " + one + " " + two + " " + three + " b", 400);
  REQUIRE(set.pieces.size() == 5);
  CHECK(set.pieces[1].width == widthOf(three));
  CHECK(set.pieces[2].width == widthOf(two));
  CHECK(set.pieces[3].width == widthOf(one));
  CHECK(set.pieces[4].width == widthOf("b"));
  for (std::size_t i = 1; i < 5; ++i) CHECK(set.pieces[i].gap > 0);
  CHECK(set.pieces[0].gap < 0);
}

TEST_CASE("what libharu refuses is thrown, and the file can be given up") {
  Haru file;
  const Haru::Id resources = file.add("/Font <<>>");
  const Haru::Id body = file.addStream("BT ET", false);
  // A page is at most 14,400 units wide (ISO 32000-1, annex C).
  CHECK_THROWS_AS(file.addPage(20000, 100, "", false, body, resources), HaruError);
  try {
    file.addPage(20000, 100, "", false, body, resources);
  } catch (const HaruError& error) {
    CHECK(error.inWords().find("could not be put together") != std::string::npos);
  }
}

TEST_CASE("pages are compressed in order, whoever is quicker") {
  Deflater deflater;
  std::vector<std::string> bodies;
  for (int i = 0; i < 200; ++i)
    bodies.push_back(std::string(static_cast<std::size_t>(i * 50), static_cast<char>('a' + i % 26)));
  for (const std::string& body : bodies) deflater.add(body);
  const auto done = deflater.finish();
  REQUIRE(done.size() == bodies.size());
  for (std::size_t i = 0; i < done.size(); ++i) CHECK(done[i] == deflated(bodies[i]));
}
