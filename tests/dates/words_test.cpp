// Dates in words: each form means one EDTF expression, and what is printed can be typed.
#include <doctest/doctest.h>

#include "generator.h"

namespace saggar::dates::testing {
namespace {

struct Row {
  std::string_view words, edtf;
};

std::string canonicalOf(std::string_view expression) {
  const Result result = parse(expression);
  return result ? canonical(*result) : "refused: " + result.error().sentence();
}

TEST_CASE("words mean exactly one expression") {
  constexpr Row kRows[] = {
      {"by 1935", "[..1935]"},
      {"By 1935", "[..1935]"},
      {"by the end of 1935", "[..1935]"},
      {"by May 1935", "[..1935-05]"},
      {"by 5 May 1935", "[..1935-05-05]"},
      {"by 1935-05", "[..1935-05]"},
      {"by the 1930s", "[..193X]"},
      {"by spring 1937", "[..1937-21]"},
      {"by about 1935", "[..1935~]"},
      {"no later than 1935", "[..1935]"},
      {"not after 1935", "[..1935]"},
      {"1935 or earlier", "[..1935]"},
      {"from 1937", "[1937..]"},
      {"from March 1936", "[1936-03..]"},
      {"not before 1937", "[1937..]"},
      {"no earlier than 1937", "[1937..]"},
      {"1937 or later", "[1937..]"},
      {"before 1935", "[..1934]"},
      {"before May 1932", "[..1932-04]"},
      {"before January 1932", "[..1931]"},
      {"before 5 May 1932", "[..1932-05-04]"},
      {"before 1 May 1932", "[..1932-04]"},
      {"before spring 1937", "[..1937-02]"},
      {"before the 1930s", "[..1929]"},
      {"after 1935", "[1936..]"},
      {"after December 1935", "[1936..]"},
      {"after 28 February 1936", "[1936-02-29..]"},
      {"after 29 February 1936", "[1936-03..]"},
      {"later than 1935", "[1936..]"},
      {"earlier than 1935", "[..1934]"},
      {"about 1932", "1932~"},
      {"around 1932", "1932~"},
      {"circa 1932", "1932~"},
      {"c. 1932", "1932~"},
      {"c.1932", "1932~"},
      {"c1932", "1932~"},
      {"ca. 1932", "1932~"},
      {"C. 1932", "1932~"},
      {"about May 1932", "1932-05~"},
      {"about the 1930s", "193X~"},
      {"perhaps 1932", "1932?"},
      {"probably 1932", "1932?"},
      {"perhaps in 1932", "1932?"},
      {"perhaps about 1932", "1932%"},
      {"perhaps May 1932", "1932-05?"},
      {"perhaps spring 1937", "1937-21?"},
      {"1930s", "193X"},
      {"the 1930s", "193X"},
      {"in the 1930s", "193X"},
      {"1930's", "193X"},
      {"1930\xE2\x80\x99s", "193X"},
      {"1930s?", "193X?"},
      {"in 1932", "1932"},
      {"May 1932", "1932-05"},
      {"may 1932", "1932-05"},
      {"MAY 1932", "1932-05"},
      {"May, 1932", "1932-05"},
      {"May of 1932", "1932-05"},
      {"in May 1932", "1932-05"},
      {"May 1932?", "1932-05?"},
      {"Sept 1932", "1932-09"},
      {"Sept. 1932", "1932-09"},
      {"5 May 1932", "1932-05-05"},
      {"05 May 1932", "1932-05-05"},
      {"on 5 May 1932", "1932-05-05"},
      {"5th May 1932", "1932-05-05"},
      {"the 5th of May 1932", "1932-05-05"},
      {"1st May 1932", "1932-05-01"},
      {"May 5, 1932", "1932-05-05"},
      {"May 5 1932", "1932-05-05"},
      {"14 Apr 1938", "1938-04-14"},
      {"14 Apr. 1938", "1938-04-14"},
      {"29 February 1936", "1936-02-29"},
      {"25 December 156X", "156X-12-25"},
      {"spring 1937", "1937-21"},
      {"summer 1937", "1937-22"},
      {"autumn 1937", "1937-23"},
      {"fall 1937", "1937-23"},
      {"winter 1937", "1937-24"},
      {"Spring of 1937", "1937-21"},
      {"northern spring 1937", "1937-25"},
      {"southern winter 1937", "1937-32"},
      {"1st quarter 1934", "1934-33"},
      {"3rd quarter 1934", "1934-35"},
      {"third quarter of 1934", "1934-35"},
      {"last quarter of 1934", "1934-36"},
      {"1st third 1934", "1934-37"},
      {"last third of 1934", "1934-39"},
      {"first half of 1934", "1934-40"},
      {"spring 45 BC", "-0044-21"},
      {"5 May 45 BC", "-0044-05-05"},
      {"February 6 BC", "-0005-02"},
      {"June Y7E1", "0070-06"},
      {"2nd half 1934", "1934-41"},
      {"1926 to 1935", "1926/1935"},
      {"from 1926 to 1935", "1926/1935"},
      {"May 1932 to 5 June 1933", "1932-05/1933-06-05"},
      {"spring 1937 to autumn 1938", "1937-21/1938-23"},
      {"about 1926 to 1935", "1926~/1935"},
      {"1926 to perhaps 1935", "1926/1935?"},
      {"March to May 1932", "1932-03/1932-05"},
      {"5 to 9 May 1932", "1932-05-05/1932-05-09"},
      {"5 May to 9 June 1932", "1932-05-05/1932-06-09"},
      {"1937 to ?", "1937/"},
      {"1937 to unknown", "1937/"},
      {"? to 1935", "/1935"},
      {"since 1937", "1937/.."},
      {"until 1935", "../1935"},
      {"up to 1935", "../1935"},
      {"between 1926 and 1935", "[1926..1935]"},
      {"between March and May 1932", "[1932-03..1932-05]"},
      {"1932 or 1934", "[1932,1934]"},
      {"1932, 1934 or 1936", "[1932,1934,1936]"},
      {"1932, 1934, or 1936", "[1932,1934,1936]"},
      {"1932 or 1934 to 1936", "[1932,1934..1936]"},
      {"by 1930 or from 1935", "[..1930,1935..]"},
      {"May 5, 1932 or May 6, 1932", "[1932-05-05,1932-05-06]"},
      {"1936 and 1938", "{1936,1938}"},
      {"45 BC", "-0044"},
      {"1 BC", "0000"},
      {"AD 409", "0409"},
      {"1932 AD", "1932"},
      {"year 170000002", "Y170000002"},
      {"year -170000002", "Y-170000002"},
  };
  for (const Row& row : kRows) {
    CAPTURE(row.words);
    CHECK(canonicalOf(row.words) == row.edtf);
    CHECK(plainOf(row.words) == plainOf(row.edtf));
    CHECK(wideOf(row.words) == wideOf(row.edtf));
    if (canonicalOf(row.words) != row.words) CHECK(levelName(parse(row.words)->level()) == "words");
    CHECK_FALSE(parseEdtf(row.words));
  }
}

struct Refusal {
  std::string_view words, says, suggestion;
};

TEST_CASE("what may mean two things, or nothing, is refused with what to type") {
  constexpr Refusal kRows[] = {
      {"1932-5", "1932-05 for the month, 1932/1935 for the years", ""},
      {"1938-5", "1938-05 for the month", "1938-05"},
      {"1932-85", "1932/1985 or 1932 to 1985", "1932/1985"},
      {"1926-1935", "1926/1935 or 1926 to 1935", "1926/1935"},
      {"1926 - 1935", "1926/1935", "1926/1935"},
      {"1926\xE2\x80\x93"
       "1935",
       "1926/1935", "1926/1935"},
      {"1932\xE2\x80\x93"
       "35",
       "1932/1935", "1932/1935"},
      {"1932/35", "1932/1935", "1932/1935"},
      {"1935/1926", "1926/1935", "1926/1935"},
      {"1935 to 1926", "1926 to 1935", "1926 to 1935"},
      {"May 1932 - June 1933", "May 1932 to June 1933", "May 1932 to June 1933"},
      {"1937-", "1937/.. if it has not ended, 1937/ if its end is not known", ""},
      {"193-", "193X", "193X"},
      {"193-?", "193X", "193X?"},
      {"193?", "193X", "193X"},
      {"193", "193X", ""},
      {"19--", "19XX", "19XX"},
      {"193x", "193X", "193X"},
      {"193u", "193X", "193X"},
      {"1930-xx", "1930-XX", "1930-XX"},
      {"1900s", "190X for the ten, 19XX for the hundred", ""},
      {"1936s", "1936 for the year, 1930s for the ten", ""},
      {"'30s", "1930s", ""},
      {"19th century", "18XX", ""},
      {"early 1930s", "between 1930 and 1933", ""},
      {"mid-1930s", "between 1934 and 1936", ""},
      {"late 1932", "first half of 1932", ""},
      {"5.6.1932", "5 June 1932", ""},
      {"25.6.1932", "25 June 1932", "1932-06-25"},
      {"6/25/1932", "25 June 1932", "1932-06-25"},
      {"5/6/1932", "1932-05-06", ""},
      {"1932/06/25", "1932-06-25", "1932-06-25"},
      {"1932.6.25", "1932-06-25", "1932-06-25"},
      {"19320625", "1932-06-25", "1932-06-25"},
      {"1932-6-25", "1932-06-25", "1932-06-25"},
      {"Q3 1934", "3rd quarter 1934", "3rd quarter 1934"},
      {"1934-Q3", "3rd quarter 1934", "3rd quarter 1934"},
      {"winter 1937/38", "winter 1937", "winter 1937"},
      {"winter 1937-38", "winter 1937", "winter 1937"},
      {"1936/present", "1936/..", "1936/.."},
      {"1936 to today", "1936/..", "1936/.."},
      {"1936/open", "1936/..", "1936/.."},
      {"1936/unknown", "1936/", "1936/"},
      {"unknown/1936", "/1936", "/1936"},
      {"1936..", "[1936..] for a day then or later, 1936/.. for what lasted", ""},
      {"..1936", "[..1936] for a day then or earlier, ../1936 for what lasted", ""},
      {"1936..1938", "[1936..1938] for a day between them, 1936/1938 for what lasted", ""},
      {"1932,1934", "[1932,1934] for one of these, {1932,1934} for all of them", ""},
      {"[1932, 1934]", "[1932,1934]", "[1932,1934]"},
      {"1936?~", "1936%", "1936%"},
      {"1936 ?", "1936?", "1936?"},
      {"1936 (?)", "1936?", "1936?"},
      {"(1936)", "1936", "1936"},
      {"2004-(06-11)?", "", ""},
      {"Jan-Feb 1932", "Jan to Feb 1932", "Jan to Feb 1932"},
      {"1936//1938", "1936/1938", "1936/1938"},
      {"-Y170000002", "Y-170000002", "Y-170000002"},
      {"y170000002", "Y170000002", "Y170000002"},
      {"1932 ", "take it out", "1932"},
      {" by 1935", "take it out", "by 1935"},
      {"n.d.", "leave the field out", ""},
      {"unknown", "leave the field out", ""},
      {"Febuary 1932", "February 1932", "February 1932"},
      {"5 Setpember 1932", "5 September 1932", "5 September 1932"},
      {"sprnig 1937", "spring 1937", "spring 1937"},
      {"form 1937", "from 1937", "from 1937"},
      {"31 June 1932", "that month has no day \"31\"", ""},
      {"29 February 1933", "that month has no day \"29\"", ""},
      {"32 May 1932", "there is no day \"32\"", ""},
      {"0 May 1932", "", ""},
      {"May", "type the year too", ""},
      {"5 May", "type the year too", ""},
      {"spring", "type the year too", ""},
      {"by", "lacks a date", ""},
      {"by the", "lacks a date", ""},
      {"1926 to", "lacks a date", ""},
      {"to 1935", "lacks a date", ""},
      {"between 1926", "lacks a date", ""},
      {"1932 or", "lacks a date", ""},
      {"5th quarter 1934", "1st to 4th quarter", ""},
      {"3rd half 1934", "1st or 2nd half", ""},
      {"4th third 1934", "1st to 3rd third", ""},
      {"before about 1935", "cannot be told to the day", ""},
      {"before 19X5", "cannot be told to the day", ""},
      {"1934 or by 1932", "open in the middle of a list", ""},
      {"from 1932 or 1934", "open in the middle of a list", ""},
      {"hello", "type a date such as", ""},
      {"1932 1934", "", ""},
      {"1932\t", "does not print", ""},
      {"\xEF\xBC\x91"
       "932",
       "no sign that a date is written with", ""},
  };
  for (const Refusal& row : kRows) {
    CAPTURE(row.words);
    const Result result = parse(row.words);
    REQUIRE_FALSE(result);
    const std::string sentence = result.error().sentence();
    CAPTURE(sentence);
    CHECK(sentence.find(row.says) != std::string::npos);
    CHECK(result.error().suggestion == row.suggestion);
    CHECK_FALSE(result.error().hint.empty());
    CHECK(sentence.back() != '.');
    CHECK_FALSE((sentence.front() >= 'A' && sentence.front() <= 'Z'));
    if (!row.suggestion.empty()) CHECK(parse(row.suggestion));
  }
}

TEST_CASE("a fault is placed in bytes and code points") {
  const Error month = parse("1926/1932-13").error();
  CHECK(month.seen == "13");
  CHECK(month.byte == 10);
  CHECK(month.bytes == 2);
  CHECK(month.codePoint == 10);
  const Error dash = parse("1932 \xE2\x80\x93 \xC3\xA9t\xC3\xA9 1935").error();
  CHECK(dash.byte == 5);
  const Error word = parse("1932 or \xC3\xA9t\xC3\xA9 1935x").error();
  CHECK(word.byte == 8);
  CHECK(word.codePoint == 8);
  const Error utf8 = parse("1932\xFF").error();
  CHECK(utf8.byte == 4);
  CHECK(utf8.message == "the text is not UTF-8 here");
}

TEST_CASE("what is printed in a table is read back with the same bounds and doubts") {
  Generator generator(1968, {.masks = false, .seasons = true, .qualifiersWithin = false, .sets = true});
  int compared = 0;
  for (int i = 0; i < 6000; ++i) {
    const std::string expression = generator.expression();
    const Result result = parse(expression);
    if (!result || (result->isAllOf() && result->size() == 1)) continue;
    const std::string table = inTable(*result), words = inWords(*result);
    // Between two ors, "or later" has no end that could be seen.
    const bool open = result->isSet() && result->size() > 1 && words.find(" or later") != std::string::npos;
    const bool spelled = words.find("a date not known") != std::string::npos;
    for (const std::string& text : {table, open || spelled ? table : words}) {
      CAPTURE(expression);
      CAPTURE(text);
      const Result again = parse(text);
      REQUIRE(again);
      CHECK(testing::text(again->plain()) == testing::text(result->plain()));
      CHECK(again->isDoubted(End::Earliest) == result->isDoubted(End::Earliest));
      CHECK(again->isDoubted(End::Latest) == result->isDoubted(End::Latest));
      CHECK(again->isAllOf() == result->isAllOf());
    }
    ++compared;
  }
  CHECK(compared > 3000);
}

TEST_CASE("canonical text is read back as the same expression") {
  Generator generator(1955, {});
  int compared = 0;
  for (int i = 0; i < 10000; ++i) {
    const std::string expression = generator.expression();
    const Result result = parse(expression);
    if (!result) continue;
    const std::string printed = canonical(*result);
    CAPTURE(expression);
    CAPTURE(printed);
    const Result again = parseEdtf(printed);
    REQUIRE(again);
    CHECK(canonical(*again) == printed);
    CHECK(again->shape() == result->shape());
    CHECK(again->level() <= result->level());
    CHECK(again->memberBounds(Reading::Plain) == result->memberBounds(Reading::Plain));
    CHECK(again->memberBounds(Reading::Wide) == result->memberBounds(Reading::Wide));
    CHECK(again->isDoubted(End::Earliest) == result->isDoubted(End::Earliest));
    CHECK(again->isDoubted(End::Latest) == result->isDoubted(End::Latest));
    ++compared;
  }
  CHECK(compared > 5000);
  for (const auto& row : rowsOf("edtf-valid.tsv")) {
    const Result result = parse(row[0]);
    REQUIRE(result);
    CHECK(plainOf(canonical(*result)) == row[2] + ".." + row[3]);
    CHECK(wideOf(canonical(*result)) == wideOf(row[0]));
  }
}

}  // namespace
}  // namespace saggar::dates::testing
