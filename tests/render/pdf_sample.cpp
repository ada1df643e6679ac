#include "pdf_sample.h"

#include <string>
#include <utility>
#include <vector>

#include <fmt/format.h>

namespace saggar::sample {
namespace {

using namespace saggar::document;

struct Treatment {
  const char *number, *motif, *lines, *made, *seen;
};
struct Group {
  const char* shape;
  std::vector<Treatment> treatments;
};

const std::vector<Group>& groups() {
  static const std::vector<Group> all = {
      {"Tavenshaw",
       {{"TV-33-C/1", "Barrow of Blooms", "gold edge line", "1927–1941",
         "plates 4 to 8, oatmeal, nappy, dishes, teacup and saucer"},
        {"TV-36-B/0", "Teasel Row", "none", "1930–1934", "plate 7"},
        {"TV-39-D/2", "Bellrope Border", "gold edge and verge lines", "1928–1930",
         "plate 8, covered dish, sauceboat"},
        {"TV-41-C/1", "Pimpernel Paling", "gold edge line", "1928–1935", "plates, coupe soup"},
        {"TV-44-A/4", "–", "green edge line", "1929–1932", "teacup and saucer"},
        {"TV-47-C/5", "Heron Pond", "lustre band at the shoulder", "1929–1933",
         "jug 36s, sugar, cream, batter set; the lustre is often worn away at the lip"},
        {"TV-48-C/5", "Heron Pond", "lustre band at the shoulder", "1930–1933", "teapot"},
        {"TV-52-B/1", "Oat Spray", "gold edge line", "about 1931", "one dish 12 only"},
        {"TV-55-C/0", "Harbour Lantern", "none", "1934–1939", "plates 6 and 7, fruit 4"},
        {"TV-58-D/1", "Quince Bough", "gold edge line", "not recorded", "dish 10"},
        {"TV-60-C/1", "Sampler Posy", "gold edge line", "1937–1943", "plates, oatmeal 36s"},
        {"TV-61-B/3", "Sampler Posy", "platinum edge line", "1938–1942", "plate 6"}}},
      {"Jessamount",
       {{"JM-018-C/1", "Teasel Row", "gold edge line", "1932–1944", "whole assortment of thirty-one pieces"},
        {"JM-021-B/0", "Quince Bough", "none", "1932", "salesman’s samples: plate 7, teacup"},
        {"JM-027-C/6", "Pimpernel Paling", "gold connecting lines between the sprays", "1933–1936",
         "plates 4 to 8"},
        {"JM-045-C/0", "Copper Pantry", "none", "1933–1950",
         "whole assortment, batter set, covered dish 8; the baker of S15 carries the decal upside down"},
        {"QM-112-C/1", "Copper Pantry", "gold edge line", "1934–1941",
         "as JM-045; sold by the mail order house only"},
        {"JM-061-C/1", "Harbour Lantern", "gold edge line", "1934–1946",
         "plates, nappy 7, nappy 8, dishes 8 to 12"},
        {"JM-066-B/3", "Sampler Posy", "platinum edge line", "1937–1948", "plates, teacup and saucer"},
        {"JM-070-A/7", "–", "gold stamp at the rim", "1935–1939", "plate 8, square salad"},
        {"JM-203-C/1", "Gooseberry Wreath", "gold edge line", "1938–1951", "whole assortment"},
        {"JM-203-D/1", "Wren and Medlar", "gold edge line", "1941–1953",
         "plates, dish 12 (platter), sauceboat, pickle dish"},
        {"JM-240-D/0", "Plaid Ribbon", "none; on green tint", "1946–1950", "plates 6, 7 and 8, lug soup"},
        {"JM-244-D/4", "Plaid Ribbon", "rust edge line", "1947–1955", "plates, teacup and saucer"},
        {"TR-6", "–", "unknown", "unknown", "three plates, painted in gold in the same hand"}}},
      {"Linnavere",
       {{"LV-05-B/3", "Sampler Posy", "platinum edge line", "1937–1948", "whole assortment"},
        {"LV-08-C/1", "Gooseberry Wreath", "gold edge line", "1938–1945", "plates 4 to 8"},
        {"LV-12-C/0", "Harbour Lantern", "none", "1938–1946", "plates, teapot, sugar, cream"},
        {"LV-14-A/4", "–", "blue edge line", "1939–1940", "teacup and saucer"},
        {"LV-17-D/2", "Wren and Medlar", "gold edge and verge lines", "1942–1952", "plate 8, covered dish 8"},
        {"SW-07-B/3", "Sampler Posy", "platinum edge line", "1938–1948",
         "tea saucer and teacup, given with coupons"},
        {"SW-09-B/0", "Oat Spray", "none", "1951–1952", "oatmeal 36s"},
        {"LV-22-B/1", "Teasel Row", "gold edge line", "1940–1944", "plates"},
        {"LV-25-C/7", "Copper Pantry", "gold stamp at the rim", "1940–1949", "plate 7, baker 7"},
        {"LV-28-B/0", "Seedhead", "none", "trial of 1951", "sample board only"},
        {"LV-30-C/1", "Plaid Ribbon", "gold edge line", "1946–1952", "plates 6 and 7"}}},
      {"Bellancroft",
       {{"BC-203-C/0", "Gooseberry Wreath", "none", "1939–1950", "whole assortment"},
        {"BC-12-D/1", "Wren and Medlar", "gold edge line", "1941–1950", "plates, dish 10"},
        {"BC-18-C/2", "Copper Pantry", "gold edge and verge lines", "1940–1948", "plates, cream, sugar"},
        {"BC-22-B/3", "Oat Spray", "platinum edge line", "not recorded", "plate 6"},
        {"BC-27-C/6", "Teasel Row", "gold connecting lines between the sprays", "1940–1944",
         "plates 6, 7, 8"},
        {"BC-31-B/7", "Sampler Posy", "gold stamp at the rim", "1940–1948",
         "plates, teacup and saucer, sauceboat"},
        {"BC-33-C/1", "Harbour Lantern", "gold edge line", "1941–1946", "nappy 8"},
        {"BC-35-A/4", "–", "maroon edge line", "1942–1945", "teacup and saucer"},
        {"OT-44-A/4", "–", "green edge line", "1940–1949",
         "open stock of the five-and-ten: plates 4 to 8, fruit 4, nappy 7"},
        {"OT-46-B/0", "Plaid Ribbon", "none", "1946–1949", "plates"},
        {"OT-47-B/0", "Teasel Row", "none", "1940–1943", "plate 6"}}},
      {"Sorrendale",
       {{"SD-02-D/4", "Plaid Ribbon", "rust edge line", "1947–1960", "whole assortment"},
        {"SD-04-C/1", "Copper Pantry", "gold edge line", "1947–1950", "coupe plates 6 to 8"},
        {"SD-05-C/0", "Gooseberry Wreath", "none", "1948–1951", "plates 7 and 8"},
        {"SD-07-D/1", "Wren and Medlar", "gold edge line", "1948–1953", "plates, covered dish 8"},
        {"SD-09-B/3", "Sampler Posy", "platinum edge line", "1947–1948", "teacup"},
        {"SD-11-B/0", "Oat Spray", "none; on green tint", "1951–1961",
         "whole assortment; the tint runs from grey-green to nearly blue"},
        {"SD-13-B/0", "Oat Spray", "none; on vellum", "1951–1958", "plates, lug soup"},
        {"SD-16-A/4", "–", "charcoal edge line", "1955–1961", "teacup and saucer"},
        {"SD-18-B/1", "Seedhead", "gold edge line", "not before 1954", "one plate 7, no mark"},
        {"SD-20-B/0", "Seedhead", "none", "doubtful", "one plate in a house sale, photograph only"},
        {"SD-21-C/0", "Quince Bough", "none", "doubtful", "–"},
        {"SD-22-B/2", "Harbour Lantern", "gold edge and verge lines", "1947", "one platter"},
        {"SD-23-B/0", "Teasel Row", "none", "about 1949", "cream"},
        {"SD-24-C/3", "Bellrope Border", "platinum edge line", "about 1950", "sugar with its cover"},
        {"SD-25-B/0", "Plaid Ribbon", "none", "1952–1957", "fruit 4"},
        {"X-771", "Seedhead", "none", "1954", "sample board"}}},
  };
  return all;
}

Cell tick() {
  return cell(Inlines{tickBox()});
}

}  // namespace

layout::PageLayout plainLayout() {
  using layout::Role;
  layout::PageLayout made;
  made.name = "plain";
  made.paper = *layout::paperNamed("A4");
  made.faces = {{"text", "GentiumBookPlus-Regular.ttf", "GentiumBookPlus-Italic.ttf",
                 "GentiumBookPlus-Bold.ttf", "GentiumBookPlus-BoldItalic.ttf", "signs"},
                {"signs", "DejaVuSans.ttf", "", "", "", ""}};
  made.fallbacks = {{"signs", 0.92, 0}};
  for (layout::Style& style : made.styles) style.face = "text";
  made.style(Role::body).align = layout::Setting::justify;
  made.style(Role::body).hyphenate = true;
  made.style(Role::body).after = 5;
  made.style(Role::title).size = 24;
  made.style(Role::title).leading = 30;
  made.style(Role::cell).size = 9;
  made.style(Role::cell).leading = 12;
  made.style(Role::tableHead).caps = layout::Caps::small;
  made.style(Role::continued).italic = true;
  made.style(Role::runningHead).caps = layout::Caps::small;
  made.head = {20, false, "{title}", "", "{group}"};
  made.foot = {28, true, "{edition}", "", "{page} of {pages}"};
  made.notices = {{"", 10, 8, 8, layout::NoticeRules::beside}};
  for (layout::RuleLine& rule : made.rules) rule.weight = 0.4;
  return made;
}

Document checklist(bool draft) {
  Document made;
  made.file = "treatments-by-shape";
  made.title = "Treatments by Shape";
  made.language = "en-GB";
  made.authors = {"Odile Marrenby"};
  made.edition = "Second edition, 2026";
  made.draft = draft;
  made.blocks.push_back(heading(1, {text("Treatments by Shape")}, "top"));
  made.blocks.push_back(
      paragraph({text("Every decoration that the books of the Wesperling & Sarnock Pottery Company enter for "
                      "five of its later shapes, "
                      "and every one that somebody has seen on a piece. Tick what stands on your own shelf. "
                      "The number is the one painted "
                      "or stamped under the foot; where a customer had the ware made up under a number of "
                      "its own, the list gives "
                      "that number and the shape is still the factory’s. Sizes are the trade’s: a 7-inch "
                      "plate measures rather more.")}));
  Inlines more = {text("Dates are those of the first and the last entry in the "),
                  emphasis({text("decoration books")}),
                  text("; “about” means five years either side. Words in the column "),
                  strong({text("Seen on")}),
                  text(" name the pieces that have been reported, never all that may exist. The shapes "
                       "themselves are told "
                       "apart in the guide; an earthenware or porcelain blank without its lattice embossing, "
                       "an underglaze "
                       "backstamp or an octagonal verge belongs elsewhere. See also "),
                  link({text("Sorrendale")}, {"", "group-sorrendale", ""}),
                  text(" below, and "),
                  link({text("the society’s page")}, {"", "", "https://example.org/tollivane?list=shapes"}),
                  text(".")};
  made.blocks.push_back(paragraph(std::move(more)));
  made.blocks.push_back(notice(
      "legend",
      {paragraph({tickBox(), text(" to tick\u2003\u2003"), strong({text("–")}), text(" no motif\u2003\u2003"),
                  strong({text("about")}), text(" five years either side\u2003\u2003"),
                  strong({text("doubtful")}), text(" seen once, and not by us")})}));
  made.blocks.push_back(
      notice("caution", {paragraph({strong({text("Caution. ")}),
                                    text("Old decorations may give off lead and cadmium, and looks tell "
                                         "nothing about it. Keep food and drink "
                                         "away from these pieces unless a laboratory has tested them.")}),
                         paragraph({strong({text("Not a complete list. ")}),
                                    text("Pages 88 to 91 of the third book are torn out, and the Ollerstone "
                                         "ledger stops in 1949. If your piece "
                                         "is not here, it is news: please write to the author.")})}));
  Table list;
  list.head = {cell(""), cell("Number"), cell("Motif"), cell("Lines"), cell("Made"), cell("Seen on")};
  list.align = {Align::left, Align::left, Align::left, Align::left, Align::left, Align::left};
  for (const Group& group : groups()) {
    Row head;
    head.groupHead = true;
    head.cells = {cell(group.shape)};
    std::string anchor = std::string("group-") + group.shape;
    for (char& c : anchor)
      if (c >= 'A' && c <= 'Z') c = static_cast<char>(c + 32);
    head.cells.front().anchor = anchor;
    list.rows.push_back(std::move(head));
    for (const Treatment& one : group.treatments) {
      Row row;
      row.cells = {tick(),          cell(one.number), cell(one.motif),
                   cell(one.lines), cell(one.made),   cell(one.seen)};
      list.rows.push_back(std::move(row));
    }
  }
  made.blocks.push_back(table(std::move(list)));
  return made;
}

Table longListHead() {
  Table head;
  head.head = {cell(""), cell("Number"), cell("Motif"), cell("Shape"), cell("Made"), cell("Lines")};
  return head;
}

Row longListRow(std::size_t number) {
  static const char* const kMotifs[] = {"Quince Bough",     "Bellrope Border",   "Pimpernel Paling",
                                        "Barrow of Blooms", "Teasel Row",        "Heron Pond",
                                        "Copper Pantry",    "Gooseberry Wreath", "Wren and Medlar"};
  static const char* const kShapes[] = {"Tavenshaw",   "Kelderling", "Jessamount", "Linnavere",
                                        "Bellancroft", "Sorrendale", "Fennimarque"};
  static const char* const kLines[] = {"none", "gold edge line", "gold edge and verge lines",
                                       "platinum edge line", "lustre band at the shoulder"};
  Row row;
  if (number % 500 == 0) {
    row.groupHead = true;
    row.cells = {cell(fmt::format("{}, part {}", kShapes[number / 500 % 7], number / 500 + 1))};
    return row;
  }
  row.cells = {tick(),
               cell(fmt::format("JM-{:05}-C/{}", number, number % 8)),
               cell(kMotifs[number % 9]),
               cell(kShapes[number % 7]),
               cell(fmt::format("{}–{}", 1926 + number % 20, 1940 + number % 28)),
               cell(kLines[number % 5])};
  return row;
}

}  // namespace saggar::sample
