// The British registry mark of 1842 to 1883, typed as class, top, right, bottom, left with blanks between, as
// rules that an author could write. The table, its sources and where they disagree: registry-diamond.tsv.
#include <map>

#include "making.h"

using namespace saggar::codes;

namespace {

struct Published {
  std::vector<TableRow> classes, firstYears, secondYears, months;
};

// Rows that sources print differently are taken as the table has them; `O` for January, which one source
// adds, as well.
Published published() {
  Published table;
  for (const auto& row : rowsOf("registry-diamond.tsv")) {
    TableRow meaning{row[1], {}, {}, {}};
    if (row[0] == "class") {
      meaning.means = row[2];
      table.classes.push_back(meaning);
    } else if (row[0] == "year1" || row[0] == "year2") {
      meaning.date.years = {std::stoi(row[2])};
      (row[0] == "year1" ? table.firstYears : table.secondYears).push_back(meaning);
    } else if (row[0] == "month") {
      meaning.date.months = {std::stoi(row[2])};
      table.months.push_back(meaning);
    }
  }
  return table;
}

NamedPart yearLetter(std::string name, std::string letter, int year) {
  TableRow row{std::move(letter), {}, {}, {}};
  row.date.years = {year};
  return table(std::move(name), {row});
}

NamedPart monthLetter(std::string name, std::string letter, int month) {
  TableRow row{std::move(letter), {}, {}, {}};
  row.date.months = {month};
  return table(std::move(name), {row});
}

// The two series, and the three exceptions as further rules.
std::vector<Rule> rules() {
  const Published p = published();
  const RuleSpec first = rule("registry mark 1842 to 1867", "CLASS TOP RIGHT BOTTOM LEFT",
                              {table("CLASS", p.classes), table("TOP", p.firstYears), part("RIGHT", "day"),
                               part("BOTTOM", "1 or 2 digits"), table("LEFT", p.months)});
  const RuleSpec second = rule("registry mark 1868 to 1883", "CLASS TOP RIGHT BOTTOM LEFT",
                               {table("CLASS", p.classes), part("TOP", "day"), table("RIGHT", p.secondYears),
                                table("BOTTOM", p.months), part("LEFT", "1 or 2 digits")});
  std::vector<Rule> all = {compiled(first), compiled(second)};
  all.push_back(compiled(
      like("September 1857", first,
           {yearLetter("TOP", "K", 1857), part("RIGHT", "day 1 to 19"), monthLetter("LEFT", "R", 9)})));
  all.push_back(
      compiled(like("December 1860", first, {yearLetter("TOP", "Z", 1860), monthLetter("LEFT", "K", 12)})));
  all.push_back(compiled(
      like("March 1878", second,
           {part("TOP", "day 1 to 6"), yearLetter("RIGHT", "W", 1878), monthLetter("BOTTOM", "G", 3)})));
  return all;
}

std::vector<std::string> daysRead(const std::vector<Rule>& rules, std::string_view text) {
  std::vector<std::string> found;
  for (const Rule& rule : rules) {
    for (const Reading& reading : rule.read(text).all) {
      REQUIRE(reading.when);
      CHECK(reading.when->earliest == reading.when->latest);
      found.push_back(reading.when->earliest.toString());
    }
  }
  return found;
}

using Days = std::vector<std::string>;

}  // namespace

TEST_CASE("every year and month letter of both series") {
  const std::vector<Rule> all = rules();
  const auto rows = rowsOf("registry-diamond.tsv");
  int checked = 0;
  for (const auto& year : rows) {
    if (year[0] != "year1" && year[0] != "year2") continue;
    for (const auto& month : rows) {
      if (month[0] != "month") continue;
      const bool firstSeries = year[0] == "year1";
      const std::string text =
          firstSeries ? "IV " + year[1] + " 20 3 " + month[1] : "IV 20 " + year[1] + " " + month[1] + " 3";
      CAPTURE(text);
      const std::string number = month[2].size() == 1 ? "0" + month[2] : month[2];
      Days expected = {year[2] + "-" + number + "-20"};
      if (firstSeries && year[1] == "Z" && month[1] == "K") expected.push_back("1860-12-20");
      CHECK(daysRead(all, text) == expected);
      ++checked;
    }
  }
  CHECK(checked == (26 + 16) * 13);
}

TEST_CASE("published worked readings") {
  const std::vector<Rule> all = rules();
  CHECK(daysRead(all, "III N 2 7 A") == Days{"1864-12-02"});
  CHECK(daysRead(all, "III 1 K R 7") == Days{"1883-08-01"});
  const Readings readings = all[0].read("III N 2 7 A");
  CHECK(readings.all.at(0).part("CLASS")->means == "glass");
  CHECK(readings.all.at(0).part("TOP")->means == "1864");
  CHECK(readings.all.at(0).part("LEFT")->means == "December");
  CHECK(readings.all.at(0).dateInWords() == "2 December 1864");
}

TEST_CASE("the exceptions give a second reading, and only where they apply") {
  const std::vector<Rule> all = rules();
  CHECK(daysRead(all, "IV K 5 3 R") == Days{"1857-08-05", "1857-09-05"});
  CHECK(daysRead(all, "IV K 19 3 R") == Days{"1857-08-19", "1857-09-19"});
  CHECK(daysRead(all, "IV K 20 3 R") == Days{"1857-08-20"});
  CHECK(daysRead(all, "IV K 5 3 D") == Days{"1857-09-05"});
  CHECK(daysRead(all, "IV Z 5 3 K") == Days{"1860-11-05", "1860-12-05"});
  CHECK(daysRead(all, "IV 5 W G 3") == Days{"1878-03-05"});
  CHECK(daysRead(all, "IV 7 W G 3").empty());  // W is no year of the second series
  CHECK(daysRead(all, "IV 5 D W 3") == Days{"1878-03-05"});
}

TEST_CASE("a letter at the right corner means the second series, a number the first") {
  const std::vector<Rule> all = rules();
  CHECK(all[0].read("IV 5 H C 3").all.empty());
  CHECK(all[1].read("IV X 5 3 C").all.empty());
  for (const char* letter : {"R", "O", "N", "Z", "B", "M", "G", "Q", "T", "W"}) {
    CHECK(all[0].read(std::string("IV ") + letter + " 20 3 C").all.size() == 1);
    CHECK(all[1].read(std::string("IV 20 ") + letter + " C 3").all.empty());
  }
}

TEST_CASE("days that do not exist are not read, and blanks may be left away") {
  const std::vector<Rule> all = rules();
  CHECK(daysRead(all, "IV X 30 3 G").empty());  // 30 February 1842
  CHECK(all[0].explain("IV X 30 3 G").message == "there is no 30 February in 1842");
  CHECK(daysRead(all, "IV C 29 3 G") == Days{"1844-02-29"});
  CHECK(daysRead(all, "IV A 29 3 G").empty());
  CHECK(daysRead(all, "XII ii N 2 7 A") == Days{"1864-12-02"});
  const Readings together = all[0].read("IVK53R");
  CHECK(divisions(together) == std::vector<std::string>{"CLASS=IV TOP=K RIGHT=5 BOTTOM=3 LEFT=R"});
  CHECK(divisions(all[0].read("IVV123R")) ==
        std::vector<std::string>{"CLASS=IV TOP=V RIGHT=1 BOTTOM=23 LEFT=R",
                                 "CLASS=IV TOP=V RIGHT=12 BOTTOM=3 LEFT=R"});
}

TEST_CASE("a letter that means two months has both readings") {
  TableRow ambiguous{"R", {}, {}, {}};
  ambiguous.date.months = {8, 9};
  const Published p = published();
  const Rule rule = compiled(
      saggar::codes::rule("both", "CLASS TOP RIGHT BOTTOM LEFT",
                          {table("CLASS", p.classes), yearLetter("TOP", "K", 1857), part("RIGHT", "day"),
                           part("BOTTOM", "1 or 2 digits"), table("LEFT", {ambiguous})}));
  CHECK(daysRead({rule}, "IV K 5 3 R") == Days{"1857-08-05", "1857-09-05"});
  CHECK(daysRead({rule}, "IV K 31 3 R") == Days{"1857-08-31"});  // September has 30 days
}
