#include "naive.h"

#include <doctest/doctest.h>

#include "generator.h"

namespace saggar::dates::testing {
namespace {

TEST_CASE("the two implementations agree on the published list") {
  int compared = 0;
  for (const auto& row : rowsOf("edtf-valid.tsv")) {
    if (row[0].find_first_of("YST") != std::string::npos) continue;
    CAPTURE(row[0]);
    const auto naive = naiveBounds(row[0]);
    REQUIRE(naive);
    CHECK(naive->earliest + ".." + naive->latest == plainOf(row[0]));
    ++compared;
  }
  CHECK(compared > 250);
}

TEST_CASE("the two implementations agree on generated expressions") {
  Generator generator(1932, {});
  int accepted = 0, refused = 0;
  for (int i = 0; i < 6000; ++i) {
    const std::string expression = generator.expression();
    CAPTURE(expression);
    const auto naive = naiveBounds(expression);
    const Result result = parseEdtf(expression);
    REQUIRE(static_cast<bool>(result) == naive.has_value());
    if (!naive) {
      ++refused;
      continue;
    }
    ++accepted;
    REQUIRE(text(result->plain()) == naive->earliest + ".." + naive->latest);
  }
  CHECK(accepted > 3000);
  CHECK(refused > 500);
}

TEST_CASE("every month and day with X agrees with trying all days") {
  constexpr std::string_view kDigits = "0123X";
  for (const std::string_view year : {"1936", "193X", "1900", "XXX1", "19X0"}) {
    for (const char m1 : std::string_view("01X")) {
      for (const char m2 : std::string_view("0123456789X")) {
        for (const char d1 : kDigits) {
          for (const char d2 : std::string_view("01289X")) {
            const std::string expression = std::string(year) + "-" + m1 + m2 + "-" + d1 + d2;
            CAPTURE(expression);
            const auto naive = naiveBounds(expression);
            const Result result = parseEdtf(expression);
            REQUIRE(static_cast<bool>(result) == naive.has_value());
            if (naive) REQUIRE(text(result->plain()) == naive->earliest + ".." + naive->latest);
          }
        }
      }
    }
  }
}

}  // namespace
}  // namespace saggar::dates::testing
