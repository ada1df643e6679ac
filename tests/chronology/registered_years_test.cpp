// Registered design numbers bound dates: what bears a number was designed by the end of the year in which the number was
// given, and a piece that bears it was not made before that year began. The years are those of
// tests/codes/registered-design-numbers.tsv, which names its source; the pieces are invented.
#include "../codes/making.h"
#include "reasoned.h"

using namespace saggar;
using namespace saggar::chronology;
using saggar::chronology::testing::Reasoned;

namespace {

struct YearRow {
  int year;
  long first;  // number of the year
};

std::vector<YearRow> table() {
  std::vector<YearRow> years;
  for (const auto& row : codes::rowsOf("../codes/registered-design-numbers.tsv"))
    years.push_back({std::stoi(row[0]), std::stol(row[1])});
  return years;
}

// `cite`: of the office's rule.
std::string office(const std::vector<YearRow>& years, const std::string& cite) {
  std::string text =
      "- maker: office\n  trade: office\n  codes:\n    - rule: design number\n      on: registered\n"
      "      used: 1884/1965\n      written: NUMBER\n      parts: {NUMBER: 1 to 999999}\n      order: "
      "NUMBER\n" +
      cite + "      first-of:\n";
  for (const YearRow& row : years)
    text += "        " + std::to_string(row.first) + ": " + std::to_string(row.year) + '\n';
  return text + "- {source: register, title: Register of designs, type: ledger, date: 1884/1965}\n";
}

std::string bearing(long number) {
  const std::string n = std::to_string(number);
  return "- motif: m" + n + "\n  registered: " + n + "\n  cite: register\n- specimen: p" + n +
         "\n  registered: " + n + "\n  seen: {on: 2019, how: in-hand}\n";
}

std::string begins(int year) {
  return std::to_string(year) + "-01-01";
}
std::string ends(int year) {
  return std::to_string(year) + "-12-31";
}

// The year of each number: at, just below and just above each year's first.
std::map<long, int> numbersOf(const std::vector<YearRow>& years) {
  std::map<long, int> numbers;
  for (std::size_t i = 0; i < years.size(); ++i) {
    if (i != 0) numbers[years[i].first - 1] = years[i - 1].year;
    numbers[years[i].first] = numbers[years[i].first + 1] = years[i].year;
  }
  return numbers;
}

}  // namespace

TEST_CASE(
    "numbers of a register bound when a design was drawn and a piece was made, to the year of the table") {
  const auto years = table();
  REQUIRE(years.size() == 82);
  const auto numbers = numbersOf(years);
  REQUIRE(numbers.size() == 82 * 3 - 1);
  std::string records = office(years, "      cite: register\n");
  for (const auto& [number, year] : numbers) records += bearing(number);
  const Reasoned guide(records);
  CHECK(guide.chronology.clashes().empty());
  for (const auto& [number, year] : numbers) {
    const std::string n = std::to_string(number);
    CAPTURE(n);
    const Node designed = guide.node("motif:m" + n, "designed"_f);
    const Node made = guide.node("specimen:p" + n, "made"_f);
    for (const BoundsOf which : {BoundsOf::proven, BoundsOf::likely}) {
      CHECK(guide.days(designed, which) == "-inf … " + ends(year));
      CHECK(guide.days(made, which) == begins(year) + " … 2019-12-31");
    }
    // The reasons: the row of the table that begins its year (for the first the years of the rule say as much), and the
    // number on the piece.
    const std::string because = guide.because(made, BoundsOf::proven, dates::End::Earliest);
    CHECK(because.ends_with("`p" + n + "` has the number `" + n + "` (documented)"));
    if (year != years[0].year) CHECK(because.find(" is of " + std::to_string(year)) != std::string::npos);
  }
}

TEST_CASE("a register for which nothing is cited proves no year; it makes one likely") {
  const auto years = table();
  const Reasoned guide(office(years, "") + bearing(years[10].first));
  const std::string n = std::to_string(years[10].first);
  const Node made = guide.node("specimen:p" + n, "made"_f);
  CHECK(guide.days(made, BoundsOf::proven) == "-inf … 2019-12-31");
  CHECK(guide.days(made, BoundsOf::likely) == begins(years[10].year) + " … 2019-12-31");
}

TEST_CASE(
    "a design drawn after the year of its number, a piece made before it: each is a clash, short by its "
    "days") {
  const auto years = table();
  const std::string records = office(years, "      cite: register\n");
  const std::string n = std::to_string(years[5].first);
  const std::string late = "- {motif: late, registered: " + n +
                           ", designed: " + std::to_string(years[5].year + 1) + ", cite: diary}\n" +
                           "- {source: diary, title: Diary, type: ledger}\n";
  const Reasoned drawn(records + late);
  REQUIRE(drawn.chronology.clashes().size() == 1);
  CHECK(drawn.chronology.clashes()[0].shortBy == 1);
  const std::string early = "- {specimen: early, registered: " + n +
                            ", made: " + std::to_string(years[5].year - 1) +
                            ", seen: {on: 2019, how: in-hand}}\n";
  const Reasoned made(records + early);
  REQUIRE(made.chronology.clashes().size() == 1);
  CHECK(made.chronology.clashes()[0].shortBy == 1);
}
