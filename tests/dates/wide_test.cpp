// Wide bounds, doubted ends and spans: the meaning of `~`, `%`, `?` for each end.
#include <doctest/doctest.h>

#include "support.h"

namespace saggar::dates::testing {
namespace {

struct Row {
  std::string_view expression, wide;
};

TEST_CASE("approximate dates are widened part by part") {
  constexpr Row kRows[] = {
      {"1932", "1932-01-01..1932-12-31"},
      {"1932?", "1932-01-01..1932-12-31"},
      {"1932~", "1927-01-01..1937-12-31"},
      {"1932%", "1927-01-01..1937-12-31"},
      {"1932-05~", "1927-05-01..1937-05-31"},
      {"2003-02~", "1998-02-01..2008-02-29"},  // the whole of February, whatever its length
      {"2004-02~", "1999-02-01..2009-02-28"},
      {"1932-05-12~", "1927-05-12..1937-05-12"},
      {"2004-02-29~", "1999-02-28..2009-02-28"},
      {"1932~-05", "1927-05-01..1937-05-31"},
      {"2004-06~-11", "1999-06-11..2009-06-11"},
      // the month alone gives the whole year, the day alone the whole month
      {"1932-~05", "1932-01-01..1932-12-31"},
      {"1932-%05", "1932-01-01..1932-12-31"},
      {"1932-?05", "1932-05-01..1932-05-31"},
      {"1932-~05-12", "1932-01-01..1932-12-31"},
      {"1932-05-~12", "1932-05-01..1932-05-31"},
      {"1932-02-%12", "1932-02-01..1932-02-29"},
      {"1932-~05-~12", "1932-01-01..1932-12-31"},
      {"?2004-06-~11", "2004-06-01..2004-06-30"},
      {"-0001~", "-0006-01-01..0004-12-31"},
      {"Y170000002~", "169999997-01-01..170000007-12-31"},
      {"Y17E7~", "169999995-01-01..170000005-12-31"},
      // end by end
      {"1932~/1940", "1927-01-01..1940-12-31"},
      {"1932/1940~", "1932-01-01..1945-12-31"},
      {"1932~/1940%", "1927-01-01..1945-12-31"},
      {"1932-~05/1940-02-~10", "1932-01-01..1940-02-29"},
      {"1932~/..", "1927-01-01..+inf"},
      {"../1940~", "-inf..1945-12-31"},
      {"1932~/", "1927-01-01..unknown"},
      {"/1940~", "unknown..1945-12-31"},
      // as written: X, S, seasons, quarters, decades, centuries
      {"193X~", "1930-01-01..1939-12-31"},
      {"19XX~", "1900-01-01..1999-12-31"},
      {"1932-XX~", "1932-01-01..1932-12-31"},
      {"1932-05-XX~", "1932-05-01..1932-05-31"},
      {"1950S2~", "1900-01-01..1999-12-31"},
      {"1932-21~", "1932-03-01..1932-05-31"},
      {"1932-34~", "1932-04-01..1932-06-30"},
      {"1932-40~", "1932-01-01..1932-06-30"},
      {"193X~/1945~", "1930-01-01..1950-12-31"},
      // sets: each member by itself
      {"[1932~,1936]", "1927-01-01..1937-12-31"},
      {"[1932..1936~]", "1932-01-01..1941-12-31"},
      {"[..1935~]", "-inf..1940-12-31"},
      // words
      {"about 1932", "1927-01-01..1937-12-31"},
      {"perhaps about 1932", "1927-01-01..1937-12-31"},
      {"by about 1935", "-inf..1940-12-31"},
      {"about 1926 to 1935", "1921-01-01..1935-12-31"},
      {"about the 1930s", "1930-01-01..1939-12-31"},
  };
  for (const Row& row : kRows) {
    CAPTURE(row.expression);
    CHECK(wideOf(row.expression) == row.wide);
  }
}

TEST_CASE("circa may be any length") {
  const auto wide = [](std::string_view expression, Length circa) { return wideOf(expression, {circa, {}}); };
  CHECK(wide("1932~", Length::ofYears(0)) == "1932-01-01..1932-12-31");
  CHECK(wide("1932~", Length::ofYears(2)) == "1930-01-01..1934-12-31");
  CHECK(wide("1932~", Length::ofMonths(6)) == "1931-07-01..1933-06-30");
  CHECK(wide("1932~", Length::ofMonths(2)) == "1931-11-01..1933-02-28");
  CHECK(wide("1932~", Length::ofDays(10)) == "1931-12-22..1933-01-10");
  CHECK(wide("1932~", Length{14, 10}) == "1930-10-22..1934-03-10");
  CHECK(wide("1932-05-31~", Length::ofMonths(1)) == "1932-04-30..1932-06-30");
  CHECK(plainOf("1932~", {Length::ofYears(9), {}}) == "1932-01-01..1932-12-31");
}

std::string doubtedEnds(std::string_view expression) {
  const Result result = parse(expression);
  REQUIRE(result);
  std::string out;
  if (result->isDoubted(End::Earliest)) out += "earliest ";
  if (result->isDoubted(End::Latest)) out += "latest";
  return out;
}

TEST_CASE("an end with ? or % is doubted") {
  constexpr Row kRows[] = {
      {"1932", ""},
      {"1932~", ""},
      {"1932?", "earliest latest"},
      {"1932%", "earliest latest"},
      {"?1932-05", "earliest latest"},
      {"1932-05-?12", "earliest latest"},
      {"1932-%05-12", "earliest latest"},
      {"1932?/1940", "earliest "},
      {"1932/1940?", "latest"},
      {"1932/1940-~05", ""},
      {"1932?/..", "earliest "},
      {"../1940?", "latest"},
      {"1932?/", "earliest "},
      {"[..1935?]", "latest"},
      {"[1935?..]", "earliest "},
      {"[1932?,1934]", "earliest latest"},
      {"[..1932?,1934]", "latest"},
      {"perhaps 1932", "earliest latest"},
      {"by perhaps 1935", "latest"},
      {"perhaps 1926 to 1935", "earliest "},
  };
  for (const Row& row : kRows) {
    CAPTURE(row.expression);
    CHECK(doubtedEnds(row.expression) == row.wide);
  }
}

TEST_CASE("a span has an event at either end") {
  const auto span = [](std::string_view expression, Reading reading = Reading::Plain) {
    const Result result = parse(expression);
    REQUIRE(result);
    const SpanBounds found = spanOf(*result, reading);
    return text(found.begin) + " " + text(found.end) + (found.beginDoubted ? " begin?" : "") +
           (found.endDoubted ? " end?" : "") + (found.beginOpen ? " from the first" : "") +
           (found.endOpen ? " to this day" : "");
  };
  CHECK(span("1926/1935") == "1926-01-01..1926-12-31 1935-01-01..1935-12-31");
  CHECK(span("1926 to 1935") == "1926-01-01..1926-12-31 1935-01-01..1935-12-31");
  CHECK(span("1932") == "1932-01-01..1932-12-31 1932-01-01..1932-12-31");
  CHECK(span("1937/..") == "1937-01-01..1937-12-31 -inf..+inf to this day");
  CHECK(span("1937/") == "1937-01-01..1937-12-31 unknown..unknown");
  CHECK(span("../1935") == "-inf..+inf 1935-01-01..1935-12-31 from the first");
  CHECK(span("1926~/1935?") == "1926-01-01..1926-12-31 1935-01-01..1935-12-31 end?");
  CHECK(span("1926~/1935?", Reading::Wide) == "1921-01-01..1931-12-31 1935-01-01..1935-12-31 end?");
  CHECK(span("1932?") == "1932-01-01..1932-12-31 1932-01-01..1932-12-31 begin? end?");
  CHECK(span("by 1935") == "-inf..1935-12-31 -inf..1935-12-31");
  CHECK(span("[1932,1934]") == "1932-01-01..1934-12-31 1932-01-01..1934-12-31");
  CHECK(span("{1936,1938,1940..1942}") == "1936-01-01..1936-12-31 1942-01-01..1942-12-31");
  CHECK(span("{1938,1936}") == "1936-01-01..1936-12-31 1938-01-01..1938-12-31");
  const SpanBounds k6 = spanOf(*parse("1952/1968"), Reading::Plain);
  CHECK(text(k6.hull()) == "1952-01-01..1968-12-31");
}

TEST_CASE("southern seasons stand six months away") {
  const Options south{Length::ofYears(5), Hemisphere::South};
  CHECK(plainOf("1937-21", south) == "1937-09-01..1937-11-30");
  CHECK(plainOf("1937-22", south) == "1937-12-01..1938-02-28");
  CHECK(plainOf("1937-23", south) == "1937-03-01..1937-05-31");
  CHECK(plainOf("1937-24", south) == "1937-06-01..1937-08-31");
  CHECK(plainOf("spring 1937", south) == "1937-09-01..1937-11-30");
  // codes that name their hemisphere, and quarters, do not move
  CHECK(plainOf("1937-25", south) == "1937-03-01..1937-05-31");
  CHECK(plainOf("1937-31", south) == "1937-03-01..1937-05-31");
  CHECK(plainOf("1937-31") == "1937-03-01..1937-05-31");
  CHECK(plainOf("1937-32") == "1937-06-01..1937-08-31");
  CHECK(plainOf("1937-34", south) == "1937-04-01..1937-06-30");
  // and order is that of the hemisphere
  CHECK_FALSE(parse("2012-23/2012-22"));
  CHECK(parse("2012-23/2012-22", south));
}

TEST_CASE("an end that hangs on a season says so") {
  const auto uses = [](std::string_view expression, End end) { return parse(expression)->usesSeason(end); };
  CHECK(uses("1937-21", End::Earliest));
  CHECK(uses("1937-21", End::Latest));
  CHECK(uses("1937-21/1940", End::Earliest));
  CHECK_FALSE(uses("1937-21/1940", End::Latest));
  CHECK_FALSE(uses("1937-34", End::Earliest));
  CHECK(uses("[1936,1937-22]", End::Latest));
  CHECK_FALSE(uses("[1936,1937-22]", End::Earliest));
  CHECK(uses("by spring 1937", End::Latest));
  CHECK_FALSE(uses("1937", End::Latest));
}

TEST_CASE("a quarter that may have been meant as two years is pointed out") {
  CHECK(parse("1932-35")->looksLikeYears());
  CHECK(parse("1926-38")->looksLikeYears());
  CHECK(parse("1918-24")->looksLikeYears());
  CHECK_FALSE(parse("1937-21")->looksLikeYears());
  CHECK_FALSE(parse("3rd quarter 1932")->looksLikeYears());
  CHECK_FALSE(parse("1932-12")->looksLikeYears());
}

TEST_CASE("sets keep their members") {
  const Result set = parse("[1932,1934~,1936..1938]");
  REQUIRE(set);
  CHECK(set->isSet());
  CHECK_FALSE(set->isAllOf());
  REQUIRE(set->size() == 3);
  const auto plain = set->memberBounds(Reading::Plain), wide = set->memberBounds(Reading::Wide);
  CHECK(text(plain[1]) == "1934-01-01..1934-12-31");
  CHECK(text(wide[1]) == "1929-01-01..1939-12-31");
  CHECK(text(plain[2]) == "1936-01-01..1938-12-31");
  CHECK(parse("{1932,1934}")->isAllOf());
  CHECK(parse("{1932}")->isAllOf());
  CHECK(parse("[..1935]")->size() == 1);
  CHECK_FALSE(parse("1932")->isSet());
}

}  // namespace
}  // namespace saggar::dates::testing
