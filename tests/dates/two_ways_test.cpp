// What may be meant as years though it is read as a part of one.
#include <doctest/doctest.h>

#include "dates/dates.h"

namespace saggar::dates::testing {
namespace {

TEST_CASE("a year with a code behind its months says how it was taken") {
  const auto two = meantInTwoWays("1930-35");
  REQUIRE(two);
  CHECK(two->message == "`1930-35` is read as the third quarter of 1930, not as the years 1930 to 1935");
  CHECK(two->hint == "type `1930/1935` for the years, `3rd quarter 1930` for the part of a year");
}

TEST_CASE("it is found wherever it stands, and nothing else is") {
  for (const std::string_view text : {"1930-35", "1930-35?", "about 1930-35", "by 1930-35", "1918-24/1930",
                                      "1910/1918-24", "[1930-35,1950]", "1930-35 to 1940"}) {
    CAPTURE(text);
    REQUIRE(parse(text));
    const auto two = meantInTwoWays(text);
    REQUIRE(two);
    const std::string_view part = text.substr(two->byte, two->bytes);
    CHECK((part == "1930-35" || part == "1918-24"));
  }
  for (const std::string_view text : {"1937-21", "1932-12", "1930", "1930/1935", "3rd quarter 1930",
                                      "1930-05-21", "-1930-35", "Y1930", "", "-", "1930-", "30-35"}) {
    CAPTURE(text);
    CHECK_FALSE(meantInTwoWays(text));
  }
}

TEST_CASE("both ways of typing it are read as what they promise") {
  for (int code = 21; code <= 41; ++code) {
    const std::string text = "1910-" + std::to_string(code);
    CAPTURE(text);
    const auto two = meantInTwoWays(text);
    REQUIRE(two);
    const std::size_t second = two->hint.find("years, `") + 8;
    const std::string words = two->hint.substr(second, two->hint.find('`', second) - second);
    const Result asRead = parse(text);
    const Result asWords = parse(words);
    REQUIRE(asRead);
    REQUIRE(asWords);
    CHECK(asWords->plain() == asRead->plain());
    CHECK(two->hint.find("`1910/19" + std::to_string(code) + "`") != std::string::npos);
  }
}

}  // namespace
}  // namespace saggar::dates::testing
