#include "compose/code_dates.h"

#include <doctest/doctest.h>

#include <optional>

#include "guide_of.h"

// The dates of codes with a sign that cannot be read.
namespace saggar::compose::testing {
namespace {

using codes::DateChoice;

// A unit that is not given is nought.
DateChoice date(int year, int quarter = 0, int month = 0, int week = 0, int day = 0) {
  auto given = [](int number) { return number == 0 ? std::optional<int>() : number; };
  DateChoice out;
  out.year = given(year);
  out.quarter = given(quarter);
  out.month = given(month);
  out.week = given(week);
  out.day = given(day);
  return out;
}

std::vector<DateChoice> quarters(int from, int to, const std::vector<int>& quarters) {
  std::vector<DateChoice> out;
  for (int year = from; year <= to; ++year)
    for (const int quarter : quarters) out.push_back(date(year, quarter));
  return out;
}

std::vector<DateChoice> weeks(const std::vector<int>& years, int from, int to) {
  std::vector<DateChoice> out;
  for (const int year : years)
    for (int week = from; week <= to; ++week) out.push_back(date(year, 0, 0, week));
  return out;
}

TEST_CASE("one date is itself, and several are told by what they have in common") {
  CHECK(datesOfCode({}).empty());
  CHECK(datesOfCode(quarters(1934, 1934, {1})) == "1st quarter 1934");
  CHECK(datesOfCode(quarters(1930, 1939, {1, 2, 3, 4})) == "a quarter of 1930 to 1939");
  CHECK(datesOfCode(quarters(1930, 1939, {2})) == "2nd quarter of a year from 1930 to 1939");
  CHECK(datesOfCode(quarters(1934, 1934, {1, 2, 3, 4})) == "a quarter of 1934");
  CHECK(datesOfCode(quarters(1934, 1935, {1, 4})) == "1st quarter or 4th quarter of 1934 or 1935");
  CHECK(datesOfCode(weeks({1952, 1953, 1954, 1955}, 7, 7)) == "week 7 of a year from 1952 to 1955");
  CHECK(datesOfCode(weeks({1956}, 10, 19)) == "week from 10 to 19 of 1956");
  CHECK(datesOfCode(weeks({1956}, 1, 52)) == "a week of 1956");
  CHECK(datesOfCode(weeks({1904, 1914, 1924, 1934}, 3, 3)) ==
        "week 3 of one of four years from 1904 to 1934");
  CHECK(datesOfCode({date(1931), date(1930), date(1931)}) == "1930 or 1931");
  CHECK(datesOfCode({date(1930), date(1931), date(1932), date(1933)}) == "a year from 1930 to 1933");
}

TEST_CASE("dates that make no table are counted, and told by the first and the last") {
  std::vector<DateChoice> most = quarters(1930, 1939, {1, 2, 3, 4});
  most.pop_back();
  CHECK(datesOfCode(most) == "one of 39 dates from 1st quarter 1930 to 3rd quarter 1939");
  CHECK(datesOfCode({date(1934, 1), date(1935, 2)}) == "1st quarter 1934 or 2nd quarter 1935");
  CHECK(datesOfCode({date(0, 0, 5), date(0, 0, 6)}) == "May or June");
  CHECK(datesOfCode({date(1857, 0, 8, 0, 5), date(1858, 0, 8, 0, 5)}) == "5 August 1857 or 5 August 1858");
}

// A works at Velm that stamped its letter, two figures of the year and the quarter.
constexpr std::string_view kWorks = R"(
- maker: m
  works:
    - {works: low, name: Low works, letter: L, used: 1900/1931}
    - {works: top, name: Top works, letter: T, used: 1920/1950}
  codes:
    - rule: number
      written: PREFIX-SERIAL/LINE
      parts:
        PREFIX: shape.prefix
        SERIAL: 3 digits
        LINE: {0: no line, 1: gold, 2: platinum, 3: green, 4: rust, 5: lustre}
    - rule: date code
      on: specimen.date-code
      used: 1920/1950
      written: WORKS YY QUARTER
      parts: {WORKS: maker.works.letter, YY: year 19YY, QUARTER: quarter}
- shape: a
  name: Alder
  maker: m
  prefix: AL
- treatment: scratched
  shape: a
  code: AL-2?3/?
- specimen: worn
  shape: a
  date-code: T3??
- specimen: works-gone
  shape: a
  date-code: ?304
- specimen: eye
  shape: a
  date-code: [L301, L341]
- specimen: late
  shape: a
  date-code: L341
- specimen: unread
  shape: a
  code-seen: TR-6
  date-code: {is: T341, doubted: The stamp is smeared.}
)";

TEST_CASE("a code with signs that cannot be read, on a piece and on a decoration") {
  Guide guide(Texts{{"guide.yaml", "guide: G\ncontents: [{a-chapter-for-every: shape}, codes]\n"},
                    {"records.yaml", std::string(kWorks)}});
  CHECK(plain(guide.unlinked().codeReadings(guide.at("treatment:scratched"))) ==
        "AL-2?3/?: AL for Alder; serial 2?3; ? for no line, gold, platinum, green or one of two others");
  CHECK(plain(guide.unlinked().codeReadings(guide.at("specimen:worn"))) ==
        "T3??: Top works, a quarter of 1930 to 1939");
  CHECK(plain(guide.unlinked().codeReadings(guide.at("specimen:works-gone"))) ==
        "?304: Low works, or Top works; 4th quarter 1930");
  const std::string& shape = guide.file("a");
  CHECK(holds(shape, "; date code T3?? (Top works, a quarter of 1930 to 1939)"));
  CHECK(holds(
      shape,
      "; date code L301 (Low works, 1st quarter 1930); the eye allows L341 as well, but it would be of the "
      "1st quarter of 1934, and Low works was used from 1900 to 1931"));
  CHECK(holds(shape, "; date code L341 (Low works, 1st quarter 1934)"));
  CHECK(holds(
      shape,
      "numbered TR-6 (nobody can read it yet); date code T341 (Top works, 1st quarter 1934; doubted: the "
      "stamp is smeared)"));
  CHECK(holds(guide.file("codes"), "- **TR-6:** [Alder](a.md#specimen-unread); nobody can read it yet"));
}

}  // namespace
}  // namespace saggar::compose::testing
