#include "compose/numbers.h"

#include <algorithm>

#include "guide_of.h"

// Long lists of numbers, cut into files.
namespace saggar::compose::testing {
namespace {

std::vector<std::string> titles(const std::vector<std::string_view>& codes, std::size_t most) {
  std::vector<std::string> out;
  std::size_t at = 0;
  for (const NumberPart& one : partsOf(codes, most)) {
    CHECK(one.begin == at);  // nothing left out, nothing twice
    CHECK(one.end > one.begin);
    CHECK(one.end - one.begin <= most);
    at = one.end;
    out.push_back(one.title);
  }
  CHECK(at == codes.size());
  return out;
}

using Titles = std::vector<std::string>;

TEST_CASE("a list that one file takes is not cut") {
  CHECK(titles({"AB-1", "AB-2", "CD-1"}, 3) == Titles{""});
  const std::vector<NumberPart> none = partsOf({}, 3);
  REQUIRE(none.size() == 1);
  CHECK(none[0].end == 0);
}

TEST_CASE("a file begins with a new prefix where it can, and takes several that fit") {
  CHECK(titles({"AB-1", "AB-2", "CD-1", "EF-1", "EF-2", "EF-3", "GH-1"}, 3) ==
        Titles{"AB to CD", "EF", "GH"});
  CHECK(titles({"AB-1", "ab-2", "CD-1", "CD-2"}, 3) == Titles{"AB", "CD"});
}

TEST_CASE("a prefix with more numbers than a file takes is cut in equal pieces, called by their numbers") {
  CHECK(titles({"AB-1", "CD-1", "CD-2", "CD-3", "CD-4", "CD-5", "EF-1"}, 3) ==
        Titles{"AB", "CD-1 to CD-2", "CD-3 to CD-5", "EF"});
  CHECK(titles({"1", "2", "3", "4"}, 3) == Titles{"1 to 2", "3 to 4"});
  CHECK(titles({"7", "AB-1", "AB-2"}, 2) == Titles{"7", "AB"});
}

// So many treatments on two shapes, with numbers BR-0001 and on, CA-0001 and on.
std::string manyTreatments(int bryn, int cairn) {
  std::string out;
  const auto put = [&](const std::string& shape, const std::string& prefix, int count) {
    for (int i = 1; i <= count; ++i) {
      const std::string number = std::to_string(10000 + i).substr(1);
      out += "- treatment: " + shape + '-' + number + "\n  shape: " + shape +
             "\n  motif: fern\n  code: " + prefix + '-' + number + "\n";
    }
  };
  put("bryn", "BR", bryn);
  put("cairn", "CA", cairn);
  return out;
}

const char* const kShapes = "- shape: bryn\n- shape: cairn\n- motif: fern\n";

std::size_t count(const std::string& text, std::string_view words) {
  std::size_t found = 0;
  for (std::size_t at = text.find(words); at != std::string::npos; at = text.find(words, at + 1)) ++found;
  return found;
}

TEST_CASE("the chapter of codes and the index go on in files of their own, and every link leads somewhere") {
  Guide guide(Texts{{"guide.yaml", "guide: V\ncontents: [{a-chapter-for-every: shape}, codes]\n"},
                    {"records.yaml", kShapes + manyTreatments(700, 1500)}});
  const auto& files = guide.files();
  CHECK(deadLinks(files).empty());
  for (const std::string chapter : {"codes", "index"}) {
    REQUIRE(files.contains(chapter + "-3"));
    CHECK_FALSE(files.contains(chapter + "-4"));
    CHECK(holds(files.at(chapter), "- [BR](" + chapter + "-1.md), 700 numbers\n- [CA-0001 to CA-0750](" +
                                       chapter + "-2.md), 750 numbers\n- [CA-0751 to CA-1500](" + chapter +
                                       "-3.md), 750 numbers"));
    CHECK(holds(files.at(chapter), "2,200 numbers are too many for one page."));
    CHECK_FALSE(holds(files.at(chapter), "CA-0002"));
    std::string parts;
    for (const char* part : {"-1", "-2", "-3"}) parts += files.at(chapter + part);
    for (const char* number : {"BR-0001", "BR-0700", "CA-0001", "CA-0749", "CA-0752", "CA-1500"})
      CHECK(count(parts, chapter == "codes" ? "\n| " + std::string(number) + " |"
                                            : "\n- " + std::string(number) + ", ") == 1);
  }
  CHECK(holds(files.at("codes-2"),
              "# Numbers and codes: CA-0001 to CA-0750\n\nThese numbers belong to the chapter [Numbers and "
              "codes](codes.md); before them come [BR](codes-1.md), after them [CA-0751 to "
              "CA-1500](codes-3.md).\n"));
  CHECK(holds(files.at("index-1"), "[Index](index.md); after them come [CA-0001 to CA-0750](index-2.md).\n"));
  // The contents name the chapter, not its parts; and each file says what it was made from.
  CHECK(count(files.at("README"), "](codes") == 1);
  CHECK(guide.madeFrom["codes-1"].contains("treatment:bryn-0700"));
  CHECK_FALSE(guide.madeFrom["codes-1"].contains("treatment:cairn-0001"));
  CHECK_FALSE(guide.madeFrom["codes"].contains("treatment:bryn-0700"));
  // In the order of the guide: a chapter before its parts.
  const auto place = [&](const char* file) {
    return std::find(guide.order.begin(), guide.order.end(), file) - guide.order.begin();
  };
  CHECK(place("codes") + 1 == place("codes-1"));
  CHECK(place("codes-3") + 1 == place("motifs"));
}

TEST_CASE("a part takes no other chapter's file") {
  Guide guide(
      Texts{{"guide.yaml", "guide: V\ncontents: [{a-chapter-for-every: shape}, codes, prose/Codes-2.md]\n"},
            {"prose/Codes-2.md", "# More on codes\n\nWords of its own.\n"},
            {"records.yaml", kShapes + manyTreatments(700, 1500)}});
  CHECK(deadLinks(guide.files()).empty());
  CHECK(holds(guide.file("codes-2"), "Words of its own."));
  CHECK(holds(guide.file("codes-part-2"), "# Numbers and codes: CA-0001 to CA-0750"));
}

TEST_CASE("several prefixes in one file have a heading each, one alone has none") {
  std::string more;
  for (int i = 0; i < 5; ++i) {
    const std::string n = std::to_string(i);
    more += "- treatment: x-" + n + "\n  shape: bryn\n  motif: fern\n  code: AX-" + n + "\n";
  }
  Guide guide(Texts{{"guide.yaml", "guide: V\ncontents: [codes]\n"},
                    {"records.yaml", kShapes + more + manyTreatments(700, 400)}});
  CHECK(holds(guide.file("codes-1"), "\n## AX\n\n| Number |"));
  CHECK(holds(guide.file("codes-1"), "\n## BR\n\n| Number |"));
  CHECK_FALSE(holds(guide.file("codes-2"), "\n## "));
}

TEST_CASE("codes inside a chapter of prose stay where the author put them") {
  Guide guide(Texts{{"guide.yaml", "guide: V\ncontents: [prose/a.md]\n"},
                    {"prose/a.md", "# A\n\n```codes\n```\n"},
                    {"records.yaml", kShapes + manyTreatments(700, 400)}});
  CHECK(count(guide.file("a"), "\n| BR-") == 700);
  CHECK(count(guide.file("a"), "\n| CA-") == 400);
}

}  // namespace
}  // namespace saggar::compose::testing
