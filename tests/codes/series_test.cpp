#include <map>

#include "tollivane.h"

using namespace saggar::codes;
using saggar::dates::Bounds;
using saggar::dates::Day;

namespace {

std::string bounds(const NumberBounds& b) {
  return (b.earliest ? b.earliest->day.toString() : "-") + " to " +
         (b.latest ? b.latest->day.toString() : "-");
}

std::string bounds(const Rule& rule, std::string_view code) {
  const Readings readings = rule.read(code);
  REQUIRE(readings.all.size() == 1);
  REQUIRE(readings.all[0].number);
  return bounds(rule.series().bounds(*readings.all[0].number, rule.ordered()));
}

Rule officeOf(const std::string& file) {
  RuleSpec spec = rule("registered", "NUMBER", {part("NUMBER", "1 to 999999")});
  spec.firstOf.emplace();
  for (const auto& row : rowsOf(file)) spec.firstOf->push_back({row[1], yearBounds(std::stoi(row[0]))});
  return compiled(spec);
}

// Every number next to a boundary, and the middle of each year, against the rows themselves.
void checkTable(const std::string& file, std::size_t rowsWanted) {
  const Rule office = officeOf(file);
  const auto rows = rowsOf(file);
  CHECK(rows.size() == rowsWanted);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const int year = std::stoi(rows[i][0]);
    const int low = std::stoi(rows[i][1]);
    const bool last = i + 1 == rows.size();
    const int high = last ? low + 1000 : std::stoi(rows[i + 1][1]) - 1;
    const int nextYear = last ? 0 : std::stoi(rows[i + 1][0]);
    CAPTURE(year);
    for (const int number : {low, low + (high - low) / 2, high}) {
      CAPTURE(number);
      const std::string from = std::to_string(year) + "-01-01 to ";
      const std::string until =
          last && number != low ? "-" : std::to_string(last ? year : nextYear - 1) + "-12-31";
      CHECK(bounds(office, std::to_string(number)) == from + until);
    }
  }
}

}  // namespace

// The table and its source: registered-design-numbers.tsv.
TEST_CASE("British registered designs: the first number of each year") {
  checkTable("registered-design-numbers.tsv", 82);
}

// The table and its source: us-design-patent-numbers.tsv.
TEST_CASE("American design patents: the first number of each year") {
  checkTable("us-design-patent-numbers.tsv", 61);
}

TEST_CASE("numbers known on a date bind their neighbours only by the order") {
  const Rule old = compiled(oldNumber());
  CHECK(bounds(old, "1187") == "1909-01-01 to 1909-12-31");
  CHECK(bounds(old, "1") == "- to 1909-12-31");
  CHECK(bounds(old, "1188") == "1909-01-01 to 1911-12-31");
  CHECK(bounds(old, "1422") == "1911-01-01 to 1911-12-31");
  CHECK(bounds(old, "2700") == "1923-01-01 to 1926-12-31");
  CHECK(bounds(old, "2880") == "1923-01-01 to 1926-12-31");
  const NumberBounds next = old.series().bounds({"", 1188}, true);
  CHECK(next.earliest->byOrder);
  CHECK(next.earliest->number == 1187);
  CHECK(next.earliest->table == SeriesTable::onDate);
  CHECK_FALSE(old.series().bounds({"", 1187}, true).earliest->byOrder);
  CHECK(bounds(old.series().bounds({"", 1188}, false)) == "- to -");
  CHECK(bounds(old.series().bounds({"", 2880}, false)) == "- to 1926-12-31");
  CHECK_FALSE(old.series().bounds({"", 2880}, true).beyondLast);
  CHECK(old.series().bounds({"", 2881}, true).beyondLast == 2880);
  CHECK(bounds(old.series().bounds({"jm", 1187}, true)) == "- to -");
}

TEST_CASE("pages torn out") {
  const Rule old = compiled(oldNumber());
  const Series& series = old.series();
  CHECK(series.missing({"", 1600}) == nullptr);
  REQUIRE(series.missing({"", 1601}) != nullptr);
  CHECK(series.missing({"", 1688})->because == "pages torn out");
  CHECK(series.missing({"", 1689}) == nullptr);
  CHECK(series.presentBetween({"", 1600}, 1689) == 0);
  CHECK(series.presentBetween({"", 1599}, 1690) == 2);
  CHECK(series.presentBetween({"", 1187}, 1422) == 234);
  CHECK(series.presentBetween({"", 1650}, 1700) == 11);
  CHECK(series.presentBetween({"", 5}, 6) == 0);

  RuleSpec spec = oldNumber();
  spec.missing = std::vector<MissingNumbers>{{"100-200", "a"},
                                             {"120 to 130", "b"},
                                             {"140", "c"},
                                             {"150\xE2\x80\x93"
                                              "250",
                                              "d"}};
  const Rule overlapping = compiled(spec);
  CHECK(overlapping.series().presentBetween({"", 99}, 251) == 0);
  CHECK(overlapping.series().missing({"", 145})->because == "a");
  CHECK(overlapping.series().missing({"", 240})->because == "d");
  spec.missing = std::vector<MissingNumbers>{{"200-100", "a"}};
  CHECK(problemsOf(spec).at(0).hint == "write `100-200`");
  spec.missing = std::vector<MissingNumbers>{{"some", "a"}};
  CHECK(problemsOf(spec).at(0).field == "missing");
}

TEST_CASE("a series within a prefix has numbers of its own") {
  RuleSpec spec = onJessamount();
  spec.onDate = {{"JM-045", yearBounds(1933)}, {"QM-112-C/1", yearBounds(1934)}};
  spec.missing =
      std::vector<MissingNumbers>{{"JM-100 to JM-110", "a leaf is lost"}, {"LV-020", "struck out"}};
  const Rule rule = compiled(spec);
  CHECK(bounds(rule, "JM-045-C/0") == "1933-01-01 to 1933-12-31");
  CHECK(bounds(rule, "JM-061-C/1") == "1933-01-01 to -");
  CHECK(bounds(rule, "QM-061-C/1") == "- to 1934-12-31");
  CHECK(rule.series().missing({"jm", 105}) != nullptr);
  CHECK(rule.series().missing({"qm", 105}) == nullptr);
  CHECK(rule.series().missing({"lv", 20}) != nullptr);
  spec.onDate = {{"45", yearBounds(1933)}};
  CHECK(problemsOf(spec).at(0).hint == "write it with its PREFIX, as in a code");
  spec.onDate.reset();
  spec.missing = std::vector<MissingNumbers>{{"JM-100 to QM-110", ""}};
  CHECK(problemsOf(spec).at(0).message == "`JM-100 to QM-110` is no stretch of one series");
}

TEST_CASE("tables that contradict themselves") {
  RuleSpec spec = oldNumber();
  spec.onDate = {{"1187", yearBounds(1911)}, {"1422", yearBounds(1909)}};
  const std::vector<Problem> problems = problemsOf(spec);
  REQUIRE(problems.size() == 1);
  CHECK(problems[0].message ==
        "number 1187 under `on-date` and number 1422 under `on-date` contradict each other");
  spec.order = order("none");
  CHECK(problemsOf(spec).empty());
  spec = oldNumber();
  spec.lastOf = {{"1500", yearBounds(1926)}};
  CHECK(problemsOf(spec).size() == 2);  // 2310 and 2641 stand above it
}

// Bounds worked out entry by entry, in the plainest way, for random tables.
TEST_CASE("bounds agree with a plain reckoning") {
  std::uint32_t seed = 7;
  const auto random = [&](std::uint32_t below) {
    seed = seed * 1664525U + 1013904223U;
    return static_cast<int>((seed >> 8) % below);
  };
  for (int round = 0; round < 300; ++round) {
    std::vector<Series::Entry> entries;
    const int size = random(8);
    for (int i = 0; i < size; ++i) {
      Bounds when = yearBounds(1900 + random(20));
      if (random(5) == 0) when.earliest = Day::minusInfinity();
      if (random(5) == 0) when.latest = Day::plusInfinity();
      entries.push_back({{"", random(30)}, static_cast<SeriesTable>(random(3)), when});
    }
    const Series series(entries, {});
    for (int number = 0; number < 30; ++number) {
      for (const bool ordered : {false, true}) {
        Day low = Day::minusInfinity();
        Day high = Day::plusInfinity();
        std::optional<std::int64_t> last;
        for (const Series::Entry& e : entries) {
          const bool first = e.table == SeriesTable::firstOf;
          const bool lastOf = e.table == SeriesTable::lastOf;
          if (e.at.number == number) {
            if (!lastOf) low = std::max(low, e.when.earliest);
            high = std::min(high, e.when.latest);
          } else if (e.at.number < number) {
            if (first || (ordered && !lastOf)) low = std::max(low, e.when.earliest);
          } else if (first) {
            high = std::min(high,
                            e.when.earliest.isFinite() ? e.when.earliest.plusDays(-1) : Day::plusInfinity());
          } else if (ordered) {
            high = std::min(high, e.when.latest);
          }
          if (lastOf && (!last || e.at.number < *last)) last = e.at.number;
        }
        const NumberBounds found = series.bounds({"", number}, ordered);
        CHECK((found.earliest ? found.earliest->day : Day::minusInfinity()) == low);
        CHECK((found.latest ? found.latest->day : Day::plusInfinity()) == high);
        CHECK(found.beyondLast.has_value() == (last && number > *last));
      }
    }
  }
}
