// Numbers that an office gives, as an author could record them: the British registry mark of 1842 to 1883 (the
// "diamond"), typed as class, top, right, bottom, left with blanks between, its exceptions as further rules, and
// registered design numbers from 1884. Compared with tests/codes/registry-diamond.tsv and
// tests/codes/registered-design-numbers.tsv, which name their sources and where those disagree. The pieces are invented.
#include <fstream>
#include <map>

#include "base/text.h"
#include "choosing/code_readings.h"
#include "guide.h"

using namespace saggar;
using namespace saggar::choosing;
using saggar::choosing::testing::Guide;

namespace {

// January has two letters: `O` as well as `C` in one source.
constexpr const char* kOffice = R"(- maker: designs-office
  name: The office of designs
  trade: office
  codes:
    - rule: registry mark 1842 to 1867
      on: registered
      used: 1842/1867
      written: CLASS TOP RIGHT BOTTOM LEFT
      parts:
        CLASS:
          I: metal
          II: wood
          III: glass
          IV: earthenware
          V: paper hangings
          VI: carpets
          VII: printed shawls
          VIII: other shawls
          IX: yarn
          X: printed fabrics
          XI: furniture
          XII i: other fabrics
          XII ii: damasks
          XIII: lace
        TOP:
          A: {year: 1845}
          B: {year: 1858}
          C: {year: 1844}
          D: {year: 1852}
          E: {year: 1855}
          F: {year: 1847}
          G: {year: 1863}
          H: {year: 1843}
          I: {year: 1846}
          J: {year: 1854}
          K: {year: 1857}
          L: {year: 1856}
          M: {year: 1859}
          N: {year: 1864}
          O: {year: 1862}
          P: {year: 1851}
          Q: {year: 1866}
          R: {year: 1861}
          S: {year: 1849}
          T: {year: 1867}
          U: {year: 1848}
          V: {year: 1850}
          W: {year: 1865}
          X: {year: 1842}
          Y: {year: 1853}
          Z: {year: 1860}
        RIGHT: day
        BOTTOM: 1 or 2 digits
        LEFT:
          C: {month: January}
          O: {month: January}
          G: {month: February}
          W: {month: March}
          H: {month: April}
          E: {month: May}
          M: {month: June}
          I: {month: July}
          R: {month: August}
          D: {month: September}
          B: {month: October}
          K: {month: November}
          A: {month: December}
      means: Class, then year, day, parcel and month round the diamond, from the top clockwise.
    - rule: registry mark of September 1857
      like: registry mark 1842 to 1867
      used: 1857-09
      parts:
        TOP: {K: {year: 1857}}
        RIGHT: day 1 to 19
        LEFT: {R: {month: September}}
    - rule: registry mark of December 1860
      like: registry mark 1842 to 1867
      used: 1860-12
      parts:
        TOP: {Z: {year: 1860}}
        LEFT: {K: {month: December}}
    - rule: registry mark 1868 to 1883
      like: registry mark 1842 to 1867
      used: 1868/1883
      parts:
        TOP: day
        RIGHT:
          A: {year: 1871}
          C: {year: 1870}
          D: {year: 1878}
          E: {year: 1881}
          F: {year: 1873}
          H: {year: 1869}
          I: {year: 1872}
          J: {year: 1880}
          K: {year: 1883}
          L: {year: 1882}
          P: {year: 1877}
          S: {year: 1875}
          U: {year: 1874}
          V: {year: 1876}
          X: {year: 1868}
          Y: {year: 1879}
        BOTTOM:
          C: {month: January}
          O: {month: January}
          G: {month: February}
          W: {month: March}
          H: {month: April}
          E: {month: May}
          M: {month: June}
          I: {month: July}
          R: {month: August}
          D: {month: September}
          B: {month: October}
          K: {month: November}
          A: {month: December}
        LEFT: 1 or 2 digits
    - rule: registry mark of March 1878
      like: registry mark 1868 to 1883
      used: 1878-03
      parts:
        TOP: day 1 to 6
        RIGHT: {W: {year: 1878}}
        BOTTOM: {G: {month: March}}
    - rule: registered design number
      on: registered
      used: 1884/1965
      written: NUMBER
      parts: {NUMBER: 1 to 999999}
      order: NUMBER
)";

std::vector<std::vector<std::string>> rowsOf(const std::string& file) {
  std::ifstream in(std::string(TEST_DATA) + "/../codes/" + file);
  REQUIRE(in.good());
  std::vector<std::vector<std::string>> rows;
  bool head = true;
  for (std::string line; std::getline(in, line);) {
    if (line.empty() || line[0] == '#') continue;
    if (!head) {
      std::vector<std::string> row;
      for (const std::string_view cell : base::split(line, '\t')) row.emplace_back(cell);
      rows.push_back(std::move(row));
    }
    head = false;
  }
  return rows;
}

class Registered : public Guide {
 public:
  explicit Registered(const std::string& records) : Guide(records) {
    CHECK(faults() == "");
    const std::size_t before = findings.all().size();
    codes = CodeReadings::read(*chooser, findings);
    for (std::size_t i = before; i < findings.all().size(); ++i) FAIL_CHECK(findings.all()[i].message);
  }

  std::vector<std::string> days(std::string_view reference) const {
    std::vector<std::string> found;
    for (const CodeOnRecord& code : codes.of(at(reference)))
      for (const CodeReading& reading : code.readings)
        if (const auto when = reading.reading.when(); reading.possible && when)
          found.push_back(when->earliest.toString() + (when->earliest == when->latest ? "" : " …"));
    return found;
  }

  CodeReadings codes;
};

using Days = std::vector<std::string>;

std::string piece(const std::string& id, const std::string& registered) {
  return "- specimen: " + id + "\n  registered: " + registered + "\n";
}

}  // namespace

TEST_CASE("the registry diamond: every year and month of both series, read on pieces") {
  const auto rows = rowsOf("registry-diamond.tsv");
  std::string records = kOffice;
  std::map<std::string, Days> expected;
  for (const auto& year : rows) {
    if (year[0] != "year1" && year[0] != "year2") continue;
    for (const auto& month : rows) {
      if (month[0] != "month") continue;
      const bool first = year[0] == "year1";
      const std::string id = "p" + std::to_string(expected.size());
      records += piece(
          id, first ? "IV " + year[1] + " 20 3 " + month[1] : "IV 20 " + year[1] + ' ' + month[1] + " 3");
      expected[id] = {year[2] + (month[2].size() == 1 ? "-0" : "-") + month[2] + "-20"};
      if (first && year[1] == "Z" && month[1] == "K") expected[id].push_back("1860-12-20");
    }
  }
  CHECK(expected.size() == (26 + 16) * 13);
  const Registered guide(records);
  for (const auto& one : expected) {
    CAPTURE(one.first);
    CHECK(guide.days("specimen:" + one.first) == one.second);
  }
  std::size_t classes = 0;
  for (const auto& row : rows)
    if (row[0] == "class") {
      ++classes;
      CHECK(guide.codes.readLoose(row[1] + " N 2 7 A", std::nullopt).readings.size() == 1);
    }
  CHECK(classes == 14);
}

TEST_CASE("the registry diamond: worked readings, the exceptions, and days that there are not") {
  std::string records = kOffice;
  const std::vector<std::pair<std::string, Days>> cases = {
      {"III N 2 7 A", {"1864-12-02"}},
      {"III 1 K R 7", {"1883-08-01"}},
      {"IV K 5 3 R", {"1857-08-05", "1857-09-05"}},
      {"IV K 20 3 R", {"1857-08-20"}},
      {"IV Z 5 3 K", {"1860-11-05", "1860-12-05"}},
      {"IV 5 W G 3", {"1878-03-05"}},
      {"IV 7 W G 3", {}},
      {"IV X 30 3 G", {}},
  };
  for (std::size_t i = 0; i < cases.size(); ++i) records += piece("c" + std::to_string(i), cases[i].first);
  const Registered guide(records);
  for (std::size_t i = 0; i < cases.size(); ++i) {
    CAPTURE(cases[i].first);
    CHECK(guide.days("specimen:c" + std::to_string(i)) == cases[i].second);
  }
  CHECK(guide.codes.of(guide.at("specimen:c6"))[0].applies);
}

TEST_CASE("an office's rules read every record, whoever made it; the others do not read what is registered") {
  std::string records = kOffice;
  records +=
      "- maker: m\n  codes:\n    - {rule: any, written: N, parts: {N: 1 to 9999999}}\n"
      "- shape: s\n  maker: m\n  registered: III N 2 7 A\n"
      "- shape: late\n  maker: m\n  registered: III N 2 7 A\n  designed: 1870\n"
      "- motif: d\n  registered: [351202, III N 2 7 A]\n"
      "- specimen: p\n  shape: s\n  registered: 351202\n"
      "- specimen: early\n  shape: s\n  registered: 351202\n  made: 1880\n";
  const Registered guide(records);
  CHECK(guide.days("shape:s") == Days{"1864-12-02"});
  CHECK(guide.days("shape:late").empty());  // designed after the years of the rule
  CHECK(guide.codes.of(guide.at("motif:d")).size() == 2);
  const auto number = guide.codes.of(guide.at("specimen:p"));
  REQUIRE(number.size() == 1);
  REQUIRE(number[0].only() != nullptr);
  CHECK(number[0].only()->rule->name == "registered design number");
  CHECK(guide.codes.of(guide.at("specimen:early"))[0].possibleCount() == 0);
}

TEST_CASE("registered design numbers: the first number of each year") {
  const auto rows = rowsOf("registered-design-numbers.tsv");
  REQUIRE(rows.size() == 82);
  std::string records = std::string(kOffice) + "      first-of:\n";
  for (const auto& row : rows) records += "        " + row[1] + ": " + row[0] + "\n";
  const Registered guide(records);
  const MakerRule* rule = nullptr;
  for (const MakerRule& one : guide.codes.rules())
    if (one.name == "registered design number") rule = &one;
  REQUIRE(rule != nullptr);
  auto yearsOf = [&](long long number) {
    const codes::NumberBounds bounds = rule->rule->series().bounds({{}, number}, rule->rule->ordered());
    CHECK_FALSE(bounds.clash());
    return (bounds.earliest ? bounds.earliest->day.toString() : "-") + " " +
           (bounds.latest ? bounds.latest->day.toString() : "-");
  };
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const long long first = std::stoll(rows[i][1]);
    const std::string year = rows[i][0] + "-01-01 " + rows[i][0] + "-12-31";
    CAPTURE(first);
    CHECK(yearsOf(first) == year);
    if (i + 1 == rows.size()) continue;
    const long long next = std::stoll(rows[i + 1][1]);
    CHECK(yearsOf(next - 1) == year);
    CHECK(yearsOf((first + next) / 2) == year);
  }
  CHECK(yearsOf(999999) == "1965-01-01 -");
}
