#include "making.h"

using namespace saggar::codes;

namespace {

std::string daysIn(std::optional<int> year, std::optional<int> quarter, std::optional<int> month,
                   std::optional<int> week, std::optional<int> day) {
  const auto when = daysOf({year, quarter, month, week, day});
  return when ? days(when) : "none";
}

constexpr std::nullopt_t no = std::nullopt;

}  // namespace

TEST_CASE("years with 53 weeks") {
  // The 71 long years of each 400 (ISO 8601); 1903 to 2004 as they are commonly listed, from memory.
  const std::vector<int> longYears = {1903, 1908, 1914, 1920, 1925, 1931, 1936, 1942, 1948, 1953,
                                      1959, 1964, 1970, 1976, 1981, 1987, 1992, 1998, 2004};
  std::vector<int> found;
  for (int year = 1901; year <= 2005; ++year) {
    if (weeksInYear(year) == 53) found.push_back(year);
  }
  CHECK(found == longYears);
  int count = 0;
  for (int year = 1601; year <= 2000; ++year) count += weeksInYear(year) == 53 ? 1 : 0;
  CHECK(count == 71);
}

TEST_CASE("weeks follow each other without a gap") {
  for (int year = 1895; year < 1970; ++year) {
    CHECK(mondayOfWeek(year, weeksInYear(year)).plusDays(7) == mondayOfWeek(year + 1, 1));
  }
}

TEST_CASE("parts of a date put together") {
  CHECK(daysIn(1934, no, no, no, no) == "1934-01-01 to 1934-12-31");
  CHECK(daysIn(1934, 3, no, no, no) == "1934-07-01 to 1934-09-30");
  CHECK(daysIn(1936, no, 2, no, no) == "1936-02-01 to 1936-02-29");
  CHECK(daysIn(1857, no, 8, no, 5) == "1857-08-05 to 1857-08-05");
  CHECK(daysIn(1857, no, no, no, 31) == "1857-01-31 to 1857-12-31");
  CHECK(daysIn(1857, 2, no, no, 31) == "1857-05-31 to 1857-05-31");
  CHECK(daysIn(1956, no, no, 14, no) == "1956-04-02 to 1956-04-08");
  CHECK(daysIn(1956, no, 4, 14, no) == "1956-04-02 to 1956-04-08");
  CHECK(daysIn(1953, no, 1, 53, no) == "1954-01-01 to 1954-01-03");
  CHECK(daysIn(1953, 4, no, 53, no) == "1953-12-28 to 1953-12-31");
  CHECK(daysIn(1953, no, no, 53, 2) == "1954-01-02 to 1954-01-02");
  CHECK(daysIn(1956, no, 5, 14, no) == "none");
  CHECK(daysIn(1956, no, no, 53, no) == "none");
  CHECK(daysIn(1956, no, 2, no, 30) == "none");
  CHECK(daysIn(1955, no, 2, no, 29) == "none");
  CHECK(daysIn(1956, 1, 4, no, no) == "none");
  CHECK(daysIn(no, no, 2, no, 29) == "-inf to +inf");
  CHECK(daysIn(no, no, 2, no, 30) == "none");
  CHECK(daysIn(no, no, no, 53, no) == "-inf to +inf");
  CHECK(daysIn(10000, no, no, no, no) == "none");
  CHECK(daysIn(1956, no, 13, no, no) == "none");
}

TEST_CASE("the reason why there is no such day") {
  CHECK(whyNoDay({1956, no, no, 53, no}) == "1956 has no week 53: it ends with week 52 (ISO 8601)");
  CHECK(whyNoDay({1955, no, 2, no, 29}) == "there is no 29 February in 1955");
  CHECK(whyNoDay({no, no, 4, no, 31}) == "there is no 31 April");
  CHECK(whyNoDay({1956, 1, 4, no, no}) == "April is not in the 1st quarter");
  CHECK(whyNoDay({1956, no, 5, 14, no}) == "week 14 of 1956 has no day in May");
}

TEST_CASE("dates in words") {
  CHECK(inWords({1934, 1, no, no, no}) == "1st quarter 1934");
  CHECK(inWords({1857, no, 9, no, 5}) == "5 September 1857");
  CHECK(inWords({no, no, 9, no, no}) == "September");
  CHECK(inWords({1956, no, no, 14, no}) == "week 14 of 1956");
  CHECK(inWords({no, no, no, no, 5}) == "day 5 of a month");
  CHECK(inWords({}).empty());
}
