#include "dates/length.h"

#include <doctest/doctest.h>

#include "support.h"

namespace saggar::dates::testing {
namespace {

TEST_CASE("lengths are read and printed") {
  const auto read = [](std::string_view text) {
    const LengthResult result = parseLength(text);
    return result.length ? result.length->toString() : "refused: " + result.error;
  };
  CHECK(read("2y") == "2y");
  CHECK(read("6m") == "6m");
  CHECK(read("10d") == "10d");
  CHECK(read("3w") == "3w");
  CHECK(read("1y 6m") == "1y 6m");
  CHECK(read("1y6m") == "1y 6m");
  CHECK(read("18m") == "1y 6m");
  CHECK(read("14d") == "2w");
  CHECK(read("1w 3d") == "10d");
  CHECK(read("2 years") == "2y");
  CHECK(read("1 year 6 months") == "1y 6m");
  CHECK(read("0d") == "0d");
  CHECK(parseLength("1y 6m 2w 3d").length == Length{18, 17});
  CHECK(parseLength("1y 6m").length->inWords() == "1 year and 6 months");
  CHECK(parseLength("10d").length->inWords() == "10 days");
  CHECK(lengthInWords("18m") == "1 year and 6 months");
  CHECK(lengthInWords("soon") == "soon");
}

TEST_CASE("a length that cannot be read says what to type") {
  for (const std::string_view text :
       {"", " ", "y", "2", "2 ", "2x", "y2", "6m 1y", "1y 1y", "123456y", "2y ", " 2y", "-2y", "1.5y",
        "2y,6m", "2Y", "\xFF", "99999999999999999999y", "1y\xC3\xA9"}) {
    CAPTURE(text);
    const LengthResult result = parseLength(text);
    CHECK_FALSE(result.length);
    CHECK(result.error.find("type a length as") != std::string::npos);
    CHECK(result.at <= text.size());
  }
}

TEST_CASE("months have the days of the longest and the shortest run of them") {
  const auto most = [](std::string_view text) { return parseLength(text).length->mostDays(); };
  const auto fewest = [](std::string_view text) { return parseLength(text).length->fewestDays(); };
  CHECK(most("1m") == 31);
  CHECK(most("6m") == 184);
  CHECK(most("1y") == 366);
  CHECK(most("2y") == 731);
  CHECK(fewest("1m") == 28);
  CHECK(fewest("6m") == 181);
  CHECK(fewest("1y") == 365);
  CHECK(fewest("2y") == 730);
  CHECK(most("10d") == 10);
  CHECK(fewest("3w") == 21);
  CHECK(most("1y 10d") == 376);
  CHECK(most("8y") == 2922);
  CHECK(fewest("8y") == 2920 + 1);  // over 1900 or 2100 one leap day falls out
  CHECK(most("400y") == 146097);
  CHECK(fewest("400y") == 146097);
  CHECK(most("99999y") > fewest("99999y"));
}

TEST_CASE("a run of months is measured by walking through the calendar") {
  for (int months = 1; months <= 60; ++months) {
    std::int64_t most = 0, fewest = 100'000;
    for (int first = 0; first < 4800; ++first) {
      std::int64_t days = 0;
      for (int month = first; month < first + months; ++month)
        days += daysInMonth(month / 12, month % 12 + 1);
      most = std::max(most, days);
      fewest = std::min(fewest, days);
    }
    CAPTURE(months);
    CHECK(Length::ofMonths(months).mostDays() == most);
    CHECK(Length::ofMonths(months).fewestDays() == fewest);
  }
}

}  // namespace
}  // namespace saggar::dates::testing
