#include <doctest/doctest.h>

#include "support.h"

namespace saggar::dates::testing {
namespace {

struct Row {
  std::string_view expression, table, words, happened, lasted;
};

TEST_CASE("dates are printed as an author would") {
  constexpr Row kRows[] = {
      {"1932", "1932", "1932", "in 1932", "in 1932"},
      {"1932-05", "May 1932", "May 1932", "in May 1932", "in May 1932"},
      {"1932-05-05", "5 May 1932", "5 May 1932", "on 5 May 1932", "on 5 May 1932"},
      {"1932~", "about 1932", "about 1932", "about 1932", "about 1932"},
      {"1932?", "perhaps 1932", "perhaps 1932", "perhaps in 1932", "perhaps in 1932"},
      {"1932-05-05?", "perhaps 5 May 1932", "perhaps 5 May 1932", "perhaps on 5 May 1932",
       "perhaps on 5 May 1932"},
      {"1932%", "perhaps about 1932", "perhaps about 1932", "perhaps about 1932", "perhaps about 1932"},
      {"193X", "1930s", "the 1930s", "in the 1930s", "in the 1930s"},
      {"193X?", "perhaps 1930s", "perhaps the 1930s", "perhaps in the 1930s", "perhaps in the 1930s"},
      {"190X", "190X", "one of the years 1900 to 1909", "in one of the years 1900 to 1909",
       "in one of the years 1900 to 1909"},
      {"19XX", "19XX", "one of the years 1900 to 1999", "in one of the years 1900 to 1999",
       "in one of the years 1900 to 1999"},
      {"1932-XX", "1932", "1932 (month not known)", "in 1932 (month not known)", "in 1932 (month not known)"},
      {"1932-05-XX", "May 1932", "May 1932 (day not known)", "in May 1932 (day not known)",
       "in May 1932 (day not known)"},
      {"1937-21", "spring 1937", "spring 1937", "in spring 1937", "in spring 1937"},
      {"1937-31", "southern autumn 1937", "southern autumn 1937", "in southern autumn 1937",
       "in southern autumn 1937"},
      {"1934-35", "3rd quarter 1934", "the third quarter of 1934", "in the third quarter of 1934",
       "in the third quarter of 1934"},
      {"2020-37", "1st third 2020", "the first third of 2020", "in the first third of 2020",
       "in the first third of 2020"},
      {"2020-39", "3rd third 2020", "the last third of 2020", "in the last third of 2020",
       "in the last third of 2020"},
      {"1934-41", "2nd half 1934", "the second half of 1934", "in the second half of 1934",
       "in the second half of 1934"},
      {"[..1935]", "by 1935", "by the end of 1935", "by the end of 1935", "by the end of 1935"},
      {"[..1935-05-05]", "by 5 May 1935", "by 5 May 1935", "by 5 May 1935", "by 5 May 1935"},
      {"[..193X]", "by 1930s", "by the end of the 1930s", "by the end of the 1930s",
       "by the end of the 1930s"},
      {"[1935..]", "from 1935", "1935 or later", "in 1935 or later", "in 1935 or later"},
      {"[1935-05-05..]", "from 5 May 1935", "5 May 1935 or later", "on 5 May 1935 or later",
       "on 5 May 1935 or later"},
      {"[1932,1934]", "1932 or 1934", "1932 or 1934", "in 1932 or 1934", "in 1932 or 1934"},
      {"[1667,1668,1670..1672]", "1667, 1668 or 1670 to 1672", "1667, 1668 or 1670 to 1672",
       "in 1667, 1668 or 1670 to 1672", "in 1667, 1668 or 1670 to 1672"},
      {"{1936,1938}", "1936 and 1938", "1936 and 1938", "in 1936 and 1938", "in 1936 and 1938"},
      {"[1926..1935]", "between 1926 and 1935", "between 1926 and 1935", "between 1926 and 1935",
       "between 1926 and 1935"},
      {"1926/1935", "1926 to 1935", "1926 to 1935", "between 1926 and 1935", "from 1926 to 1935"},
      {"1926~/1935?", "about 1926 to perhaps 1935", "about 1926 to perhaps 1935",
       "between about 1926 and perhaps 1935", "from about 1926 to perhaps 1935"},
      {"1932-03/1932-05", "March to May 1932", "March to May 1932", "between March and May 1932",
       "from March to May 1932"},
      {"1932-05-05/1932-05-09", "5 to 9 May 1932", "5 to 9 May 1932", "between 5 and 9 May 1932",
       "from 5 to 9 May 1932"},
      {"1937/..", "since 1937", "since 1937", "in 1937 or later", "since 1937"},
      {"1937/", "1937 to ?", "1937 to a date not known", "in 1937 or later", "from 1937 to a date not known"},
      {"../1935", "until 1935", "until 1935", "by the end of 1935", "until 1935"},
      {"/1935", "? to 1935", "a date not known to 1935", "by the end of 1935",
       "from a date not known to 1935"},
      {"-0044", "45 BC", "45 BC", "in 45 BC", "in 45 BC"},
      {"0000", "1 BC", "1 BC", "in 1 BC", "in 1 BC"},
      {"0409", "AD 409", "AD 409", "in AD 409", "in AD 409"},
      {"Y170000002", "year 170000002", "year 170000002", "in year 170000002", "in year 170000002"},
      {"2004-06~-11", "11 June 2004 (year and month approximate)",
       "11 June 2004 (year and month approximate)", "on 11 June 2004 (year and month approximate)",
       "on 11 June 2004 (year and month approximate)"},
      {"?2004-06-~11", "11 June 2004 (year uncertain, day approximate)",
       "11 June 2004 (year uncertain, day approximate)", "on 11 June 2004 (year uncertain, day approximate)",
       "on 11 June 2004 (year uncertain, day approximate)"},
      {"1950S2", "1950 (estimated; 1900 to 1999)", "1950 (estimated; 1900 to 1999)",
       "in 1950 (estimated; 1900 to 1999)", "in 1950 (estimated; 1900 to 1999)"},
      {"1985-04-12T23:20:30Z", "12 April 1985", "12 April 1985, 23:20:30Z", "on 12 April 1985, 23:20:30Z",
       "on 12 April 1985, 23:20:30Z"},
      {"1X32-X1-X2", "1X32-X1-X2", "1X32-X1-X2", "in 1X32-X1-X2", "in 1X32-X1-X2"},
  };
  for (const Row& row : kRows) {
    CAPTURE(row.expression);
    const Result result = parse(row.expression);
    REQUIRE(result);
    CHECK(inTable(*result) == row.table);
    CHECK(inWords(*result) == row.words);
    CHECK(happened(*result) == row.happened);
    CHECK(lasted(*result) == row.lasted);
  }
}

TEST_CASE("canonical text has the qualifiers where they are shortest") {
  const auto canonicalOf = [](std::string_view text) { return canonical(*parse(text)); };
  CHECK(canonicalOf("?2004-06-04~") == "2004%-~06-~04");
  CHECK(canonicalOf("2004?-?06") == "2004-06?");
  CHECK(canonicalOf("~1945") == "1945~");
  CHECK(canonicalOf("2004-%06-11") == "2004-%06-11");
  CHECK(canonicalOf("Y-17E7") == "Y-17E7");
  CHECK(canonicalOf("Y3388E2S3") == "Y3388E2S3");
  CHECK(canonicalOf("1985-04-12T23:20:30-04") == "1985-04-12T23:20:30-04");
  CHECK(canonicalOf("1985-04-12T23:20:30+04:30") == "1985-04-12T23:20:30+04:30");
  CHECK(canonicalOf("-15XX-0X-X5") == "-15XX-0X-X5");
}

TEST_CASE("bounds are described in the widest units that are exact") {
  const auto described = [](std::string_view text) { return describeBounds(parse(text)->plain()); };
  CHECK(described("1932") == "1932");
  CHECK(described("1932-05") == "May 1932");
  CHECK(described("1932-05-05") == "5 May 1932");
  CHECK(described("1926/1935") == "1926 to 1935");
  CHECK(described("1932-03/1932-05") == "March to May 1932");
  CHECK(described("1932-05/1935") == "May 1932 to December 1935");
  CHECK(described("1932/1935-05") == "January 1932 to May 1935");
  CHECK(described("1932/1935-05-05") == "1 January 1932 to 5 May 1935");
  CHECK(described("1932-05-05/1932-05-09") == "5 to 9 May 1932");
  CHECK(described("1932-05-05/1932-06-09") == "5 May to 9 June 1932");
  CHECK(described("by 1935") == "by the end of 1935");
  CHECK(described("by 1935-05") == "by the end of May 1935");
  CHECK(described("by 1935-05-05") == "by 5 May 1935");
  CHECK(described("1937/..") == "1937 or later");
  CHECK(described("1937/") == "1937 or later");
  CHECK(described("1937-05-05/..") == "5 May 1937 or later");
  CHECK(describeBounds({Day::minusInfinity(), Day::plusInfinity()}) == "any time");
  CHECK(describeBounds({}) == "not known");
  CHECK(describeDay(Day::plusInfinity()) == "no limit");
  CHECK(describeDay(Day::fromCivil(1936, 2, 29)) == "29 February 1936");
}

TEST_CASE("one line in, one JSON object out") {
  CHECK(
      readLine("1926 to 1932-13") ==
      R"({"expression":"1926 to 1932-13","error":"there is no month \"13\"; months are 01 to 12, seasons 21 to 24, )"
      R"(quarters 33 to 36; for a range of years type 1926/1935","at":14})");
  CHECK(readLine("1926~/1935?") ==
        R"({"expression":"1926~/1935?","level":"1","plain":{"earliest":"1926-01-01","latest":"1935-12-31"},)"
        R"("wide":{"earliest":"1921-01-01","latest":"1935-12-31"},"doubted":["latest"],)"
        R"("says":"about 1926 to perhaps 1935"})");
  CHECK(readLine("by 1935") ==
        R"({"expression":"by 1935","level":"words","plain":{"earliest":"-inf","latest":"1935-12-31"},)"
        R"("wide":{"earliest":"-inf","latest":"1935-12-31"},"doubted":[],"says":"by the end of 1935"})");
  CHECK(
      readLine("1937/") ==
      R"({"expression":"1937/","level":"1","plain":{"earliest":"1937-01-01","latest":"unknown"},)"
      R"("wide":{"earliest":"1937-01-01","latest":"unknown"},"doubted":[],"says":"1937 to a date not known"})");
  CHECK(readLine("1932?").find(R"("doubted":["earliest","latest"])") != std::string::npos);
  CHECK(readLine(" 2020") ==
        R"({"expression":" 2020","error":"a blank stands before or after the date; take it out","at":1})");
  CHECK(readLine("\"\\\t\xFF").find("{\"expression\":\"\\\"\\\\\\u0009\xEF\xBF\xBD\",\"error\":") == 0);
}

}  // namespace
}  // namespace saggar::dates::testing
