// Features within the years in which they were used: one value within its years, of a list not before the earliest and
// not after the latest (SEMANTICS, "The relations records imply").
#include "small_guide.h"

using namespace saggar::checks::testing;

namespace {

const std::string kFeatures =
    "- feature: edge\n  values:\n    gold: a gold line\n    platinum: {is: a grey line, used: 1937/..}\n"
    "    lustre: {is: a lustre band, used: 1927/1933}\n    none: no line\n"
    "- {shape: s, introduced: 1900, cite: books}\n";

std::string guide(const std::string& look, const std::string& dates,
                  const std::string& features = kFeatures) {
  return "- treatment: a\n  look: " + look + "\n  " + dates + "\n  shape: s\n  cite: books\n" + features +
         kBooks;
}

std::string found(const std::string& look, const std::string& dates) {
  return Small(guide(look, dates)).found;
}

}  // namespace

TEST_CASE("too early, too late, and within") {
  silent(guide("{edge: platinum}", "introduced: 1937"));
  silent(guide("{edge: lustre}", "introduced: 1929\n  withdrawn: 1933"));
  caught(guide("{edge: platinum}", "introduced: 1935"), "3:15", "look-out-of-time");
  caught(guide("{edge: lustre}", "introduced: 1934"), "3:15", "look-out-of-time");
  caught(guide("{edge: lustre}", "withdrawn: 1940"), "3:14", "look-out-of-time");
  CHECK(found("{edge: gold}", "introduced: 1901") == "");
  CHECK(found("{edge: none}", "introduced: 1901") == "");
}

TEST_CASE("what the finding says") {
  const Small early(guide("{edge: platinum}", "introduced: 1935"));
  const auto& one = early.one();
  CHECK(one.message ==
        "`a` was introduced in 1935, but `a` has the edge platinum, used since 1937: at least 1 year short");
  CHECK(one.records == std::vector<std::string>{"treatment:a", "feature:edge"});
  CHECK(one.field == "introduced");
  CHECK(one.related.size() == 1);
  CHECK(one.facts.size() == 2);
  CHECK(one.shortByDays == 367);  // from 31 December 1935 to 1 January 1937, 1936 being a leap year
  CHECK(Small(guide("{edge: lustre}", "withdrawn: 1940")).one().message ==
        "`a` was last offered in 1940, but `a` has the edge lustre, used from 1927 to 1933: at least 6 years "
        "short");
}

TEST_CASE("of a list, any of its values may be meant") {
  CHECK(found("{edge: [gold, platinum]}", "introduced: 1935") == "");
  CHECK(found("{edge: [lustre, platinum]}", "introduced: 1935") == "");
  CHECK(found("{edge: [lustre, platinum]}", "introduced: 1926") == "3:15 look-out-of-time");
  CHECK(Small(guide("{edge: [platinum, lustre]}", "introduced: 1926")).one().message ==
        "`a` was introduced in 1926, but `a` has the edge platinum or lustre, of which none was used then: "
        "at least 1 "
        "day short");
  CHECK(found("{edge: [platinum, unknown]}", "introduced: 1935") == "");
  CHECK(found("{edge: unknown}", "introduced: 1935") == "");
}

TEST_CASE("what is doubted, or dated by words that reach far, binds nothing") {
  CHECK(found("{edge: {is: platinum, doubted: perhaps worn gold}}", "introduced: 1935") == "");
  CHECK(found("{edge: [{is: platinum, doubted: worn}, gold]}", "introduced: 1935") == "");
  CHECK(found("{edge: platinum}", "introduced: {is: 1935, doubted: a later hand}") == "");
  CHECK(found("{edge: platinum}", "introduced: 1935?") == "3:15 date-at-face-value");
  CHECK(found("{edge: platinum}", "introduced: about 1935") == "3:15 date-at-face-value");
  CHECK(found("{edge: platinum}", "introduced: about 1931") == "3:15 look-out-of-time");
  CHECK(found("{edge: platinum}", "introduced: by 1940") == "");
  CHECK(found("{edge: platinum}", "introduced: unknown") == "");
  CHECK(found("{edge: {is: platinum, cite: books}}", "introduced: 1935") == "3:15 look-out-of-time");
}

TEST_CASE("a value that is dated on the treatment itself") {
  CHECK(found("{edge: [{is: gold, used: ../1936}, {is: platinum, used: 1937/..}]}", "introduced: 1935") ==
        "");
  CHECK(found("{edge: {is: platinum, used: 1937/..}}", "introduced: 1935") == "3:15 look-out-of-time");
}

TEST_CASE("spans with an end that is open, not known or doubted") {
  auto with = [](const std::string& used, const std::string& dates) {
    return Small(guide("{edge: platinum}", dates,
                       "- feature: edge\n  values: {platinum: {is: grey, used: " + used +
                           "}}\n- {shape: s, introduced: 1900, cite: books}\n"))
        .found;
  };
  CHECK(with("1937/", "introduced: 1950") == "");
  CHECK(with("1937/..", "introduced: 1950") == "");
  CHECK(with("../1937", "introduced: 1905") == "");
  CHECK(with("../1937", "introduced: 1938") == "3:15 look-out-of-time");
  CHECK(with("1937?/1950", "introduced: 1935") == "3:15 date-at-face-value");
  CHECK(with("1937?/1950", "introduced: 1951") == "3:15 look-out-of-time");
  CHECK(with("about 1937 to 1950", "introduced: 1933") == "3:15 date-at-face-value");
  CHECK(with("1937", "introduced: 1938") == "3:15 look-out-of-time");
}

TEST_CASE("a feature that is not there, and a value that it does not list, are told as such alone") {
  CHECK(found("{edgy: platinum}", "introduced: 1935") == "2:10 reference-missing");
  CHECK(found("{edge: platinium}", "introduced: 1935") == "2:16 value-unfit");
}
