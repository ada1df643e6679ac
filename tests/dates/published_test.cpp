// Published expressions: those of the two lists beside this file, each with its source, and the examples of
// the Library of Congress specification (EDTF, 4 February 2019) under the headings it gives them.
#include <doctest/doctest.h>

#include <algorithm>

#include "support.h"

namespace saggar::dates::testing {
namespace {

bool isContested(const std::vector<std::string>& row) {
  return row.size() > 7 && row[7].find("contested") != std::string::npos;
}

// A JSON string whose only escapes are of a backslash or a quote.
std::string decoded(std::string_view json) {
  std::string out;
  for (std::size_t i = 1; i + 1 < json.size(); ++i) {
    if (json[i] == '\\') ++i;
    out += json[i];
  }
  return out;
}

TEST_CASE("every valid expression of the list has its level and plain bounds") {
  const auto rows = rowsOf("edtf-valid.tsv");
  REQUIRE(rows.size() == 299);
  int checked = 0;
  for (const auto& row : rows) {
    const bool levelOnly = row.size() > 7 && row[7].find("level contested") != std::string::npos;
    if (isContested(row) && !levelOnly) continue;
    ++checked;
    CAPTURE(row[0]);
    const Result result = parseEdtf(row[0]);
    REQUIRE(result);
    CHECK(result->plain().earliest.toString() == row[2]);
    CHECK(result->plain().latest.toString() == row[3]);
    CHECK(levelName(result->level()) == row[1]);
  }
  CHECK(checked == 293);
}

TEST_CASE("contested expressions are read too, with the bounds the list gives") {
  for (const auto& row : rowsOf("edtf-valid.tsv")) {
    if (isContested(row)) CHECK(plainOf(row[0]) == row[2] + ".." + row[3]);
  }
}

TEST_CASE("every invalid expression of the list is refused with a message") {
  const auto rows = rowsOf("edtf-invalid.tsv");
  REQUIRE(rows.size() == 119);
  for (const auto& row : rows) {
    if (row[2] == "contested") continue;
    const std::string expression = decoded(row[0]);
    CAPTURE(expression);
    CAPTURE(row[1]);
    const Result edtf = parseEdtf(expression);
    REQUIRE_FALSE(edtf);
    CHECK_FALSE(edtf.error().message.empty());
    CHECK_FALSE(edtf.error().hint.empty());
    const Result any = parse(expression);
    if (expression == "1930s") {  // a date word of ours
      REQUIRE(any);
      CHECK(any->level() == Level::Words);
    } else {
      CHECK_FALSE(any);
    }
  }
}

struct Example {
  std::string_view expression;
  std::string_view level;
};

TEST_CASE("the specification's own examples are read at the level of their heading") {
  constexpr Example kExamples[] = {
      // Level 0: date, date and time, time interval
      {"1985-04-12", "0"},
      {"1985-04", "0"},
      {"1985", "0"},
      {"1985-04-12T23:20:30", "0"},
      {"1985-04-12T23:20:30Z", "0"},
      {"1985-04-12T23:20:30-04", "0"},
      {"1985-04-12T23:20:30+04:30", "0"},
      {"1964/2008", "0"},
      {"2004-06/2006-08", "0"},
      {"2004-02-01/2005-02-08", "0"},
      {"2004-02-01/2005-02", "0"},
      {"2004-02-01/2005", "0"},
      {"2005/2006-02", "0"},
      // Level 1: letter-prefixed year, seasons, qualification, unspecified digits, extended interval,
      // negative year
      {"Y170000002", "1"},
      {"Y-170000002", "1"},
      {"2001-21", "1"},
      {"1984?", "1"},
      {"2004-06~", "1"},
      {"2004-06-11%", "1"},
      {"201X", "1"},
      {"20XX", "1"},
      {"2004-XX", "1"},
      {"1985-04-XX", "1"},
      {"1985-XX-XX", "1"},
      {"1985-04-12/..", "1"},
      {"1985-04/..", "1"},
      {"1985/..", "1"},
      {"../1985-04-12", "1"},
      {"../1985-04", "1"},
      {"../1985", "1"},
      {"1985-04-12/", "1"},
      {"1985-04/", "1"},
      {"1985/", "1"},
      {"/1985-04-12", "1"},
      {"/1985-04", "1"},
      {"/1985", "1"},
      {"-1985", "1"},
      // Level 2: exponential year, significant digits, sub-year groupings, sets, qualification, unspecified
      // digits,
      // interval
      {"Y-17E7", "2"},
      {"1950S2", "2"},
      {"Y171010000S3", "2"},
      {"Y3388E2S3", "2"},
      {"2001-34", "2"},
      {"[1667,1668,1670..1672]", "2"},
      {"[..1760-12-03]", "2"},
      {"[1760-12..]", "2"},
      {"[1760-01,1760-02,1760-12..]", "2"},
      {"[1667,1760-12]", "2"},
      {"[..1984]", "2"},
      {"{1667,1668,1670..1672}", "2"},
      {"{1960,1961-12}", "2"},
      {"{..1984}", "2"},
      {"2004-06~-11", "2"},
      {"2004?-06-11", "2"},
      {"?2004-06-~11", "2"},
      {"2004-%06-11", "2"},
      {"156X-12-25", "2"},
      {"15XX-12-25", "2"},
      {"XXXX-12-XX", "2"},
      {"1XXX-XX", "2"},
      {"1XXX-12", "2"},
      {"1984-1X", "2"},
      {"2004-06-~01/2004-06-~20", "2"},
      {"2004-06-XX/2004-07-03", "2"},
  };
  for (const Example& example : kExamples) {
    CAPTURE(example.expression);
    const Result result = parseEdtf(example.expression);
    REQUIRE(result);
    CHECK(levelName(result->level()) == example.level);
  }
}

TEST_CASE("the specification's explanations of its level 2 examples hold") {
  CHECK(plainOf("1950S2") == "1900-01-01..1999-12-31");
  CHECK(plainOf("Y3388E2S3") == "338000-01-01..338999-12-31");
  CHECK(plainOf("15XX-12-25") == "1500-12-25..1599-12-25");

  // "One of the years 1667, 1668, 1670, 1671, 1672"
  const Result set = parse("[1667,1668,1670..1672]");
  REQUIRE(set);
  CHECK(set->shape() == Shape::OneOf);
  REQUIRE(set->size() == 3);
  CHECK(text(set->piece(0).plain({})) == "1667-01-01..1667-12-31");
  CHECK(text(set->piece(2).plain({})) == "1670-01-01..1672-12-31");

  // "All of the years"
  CHECK(parse("{1667,1668,1670..1672}")->isAllOf());

  // "year uncertain; month, day known", "year and month approximate; day known",
  // "year uncertain; month known; day approximate", "month uncertain and approximate; year and day known"
  const auto signs = [](std::string_view expression) {
    const Date date = parse(expression)->piece(0).from;
    return std::vector<int>{date.yearQualifier, date.monthQualifier, date.dayQualifier};
  };
  CHECK(signs("2004?-06-11") == std::vector<int>{kUncertain, 0, 0});
  CHECK(signs("2004-06~-11") == std::vector<int>{kApproximate, kApproximate, 0});
  CHECK(signs("?2004-06-~11") == std::vector<int>{kUncertain, 0, kApproximate});
  CHECK(signs("2004-%06-11") == std::vector<int>{0, kUncertain | kApproximate, 0});
  // Level 1: "date uncertain and approximate (entire date)"
  CHECK(signs("2004-06-11%") == std::vector<int>{3, 3, 3});
}

}  // namespace
}  // namespace saggar::dates::testing
