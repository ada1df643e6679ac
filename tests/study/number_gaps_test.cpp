// Numbers missing from a series, and when they are likely to have been given.
#include "study/number_gaps.h"

#include "../choosing/tollivane.h"
#include "small_study.h"

using namespace saggar::study;
using saggar::study::testing::Records;

namespace {

std::string day(saggar::dates::Day one) {
  return one.isFinite() ? one.toString() : "?";
}

std::string inWords(const NumberGaps& gaps, const std::vector<NumberRun>& runs) {
  std::string out;
  for (const NumberRun& one : runs) {
    out += gaps.form.of(one.first);
    if (one.last != one.first) out += " to " + gaps.form.of(one.last);
    out += ": " + day(one.when.earliest) + " " + day(one.when.latest);
    if (!one.because.empty()) out += " (" + one.because + ")";
    out += '\n';
  }
  return out;
}

std::string maker(const std::string& rule) {
  return "- maker: w\n  name: W\n  codes:\n    - rule: number\n" + rule;
}

std::string treatment(const std::string& id, const std::string& code, const std::string& introduced = {}) {
  return "- {treatment: " + id + ", shape: s, motif: m, code: " + code +
         (introduced.empty() ? "" : ", introduced: " + introduced) + "}\n";
}

const std::string kSerial = maker(
    "      written: PREFIX-SERIAL\n      parts: {PREFIX: [shape.prefix, for.prefix], SERIAL: 2 or 3 digits}\n"
    "      order: SERIAL within PREFIX\n      used: 1920/1950\n");
const std::string kShape = "- {shape: s, maker: w, prefix: JM}\n- {motif: m}\n";

std::string only(const std::string& records) {
  const Records guide(records);
  const auto gaps = numberGaps(*guide.chooser, guide.codes);
  REQUIRE(gaps.size() <= 1);
  return gaps.empty() ? std::string() : inWords(gaps[0], gaps[0].missing) + inWords(gaps[0], gaps[0].tornOut);
}

}  // namespace

TEST_CASE("the invented pottery") {
  const Records guide(saggar::choosing::testing::kTollivane);
  const auto gaps = numberGaps(*guide.chooser, guide.codes);
  REQUIRE(gaps.size() == 2);
  CHECK(gaps[0].rule->name == "old decoration number");
  CHECK(inWords(gaps[0], gaps[0].missing) ==
        "1 to 1186: 1896-01-01 1909-12-31\n"
        "1187: 1909-01-01 1909-12-31\n"
        "1188 to 1421: 1909-01-01 1911-12-31\n"
        "1423 to 1600: 1911-01-01 1916-12-31\n"
        "1689 to 2309: 1911-01-01 1916-12-31\n"
        "2310: 1916-01-01 1916-12-31\n"
        "2311 to 2640: 1916-01-01 1923-12-31\n"
        "2641: 1923-01-01 1923-12-31\n"
        "2642 to 2880: 1923-01-01 1926-12-31\n");
  CHECK(inWords(gaps[0], gaps[0].tornOut) == "1601 to 1688: 1911-01-01 1916-12-31 (pages torn out)\n");
  CHECK(guide.ids(gaps[0].holders) == "od-1422");
  CHECK(gaps[1].series == "jm");
  CHECK(gaps[1].known == 3);
  // JM-203 may be read in two ways: it is on record, and dates nothing.
  CHECK(inWords(gaps[1], gaps[1].missing) ==
        "JM-019 to JM-060: 1932-01-01 1934-12-31\nJM-062 to JM-202: 1934-01-01 1955-12-31\n");
  CHECK(guide.ids(gaps[1].holders) == "jm-018 jm-061 jm-203");
}

TEST_CASE("between numbers on record, with the days of the nearest that have any") {
  const auto guide = [](const std::string& treatments) { return kSerial + kShape + treatments; };
  CHECK(only(guide(treatment("a", "JM-04", "1930") + treatment("b", "JM-07", "1932"))) ==
        "JM-05 to JM-06: 1930-01-01 1932-12-31\n");
  CHECK(only(guide(treatment("a", "JM-04", "1930") + treatment("b", "JM-05"))).empty());
  CHECK(only(guide(treatment("a", "JM-04", "1930"))).empty());
  CHECK(only(guide(treatment("a", "JM-98", "1930") + treatment("b", "JM-101"))) ==
        "JM-99 to JM-100: 1930-01-01 1950-12-31\n");
  // The neighbour has no date of its own; the next one has.
  CHECK(only(guide(treatment("a", "JM-04", "1930") + treatment("b", "JM-06") +
                   treatment("c", "JM-08", "1934"))) ==
        "JM-05: 1930-01-01 1934-12-31\nJM-07: 1930-01-01 1934-12-31\n");
  // Two of one number are one, and a further code of a treatment was not booked on its first day.
  CHECK(only(guide(treatment("a", "JM-04", "1930") + treatment("b", "JM-04", "1930") +
                   treatment("c", "[JM-10, JM-12]", "1931"))) ==
        "JM-05 to JM-09: 1930-01-01 1931-12-31\nJM-11: 1931-01-01 1950-12-31\n");
  // What nobody can have read is seen on a piece.
  CHECK(only(guide(treatment("a", "JM-04", "1930") + treatment("b", "JM-09", "1931") +
                   "- {specimen: p, treatment: a, code-seen: JM-06}\n")) ==
        "JM-05: 1930-01-01 1931-12-31\nJM-07 to JM-08: 1930-01-01 1931-12-31\n");
}

TEST_CASE("numbers within a shape's prefix were given while shapes of that prefix were offered") {
  const std::string rule = maker(
      "      written: PREFIX-SERIAL\n      parts: {PREFIX: [shape.prefix, for.prefix], SERIAL: 1 to 99}\n"
      "      order: SERIAL within PREFIX\n      used: 1920/1950\n");
  const std::string third = treatment("a", "JM-3", "1934");
  const std::string shape =
      "- {shape: s, maker: w, prefix: JM, introduced: 1930, withdrawn: 1940}\n- {motif: m}\n";
  CHECK(only(rule + shape + third) == "JM-1 to JM-2: 1930-01-01 1934-12-31\n");
  CHECK(only(rule + shape + "- {shape: t, maker: w, prefix: [ZZ, JM], introduced: 1925}\n" + third) ==
        "JM-1 to JM-2: 1925-01-01 1934-12-31\n");
  // A customer's prefix may be meant, and what is not known of the shape leaves the rule's years.
  CHECK(only(rule + shape + "- {maker: c, prefix: JM}\n" + third) == "JM-1 to JM-2: 1920-01-01 1934-12-31\n");
  CHECK(only(rule + kShape + third) == "JM-1 to JM-2: 1920-01-01 1934-12-31\n");
}

TEST_CASE("torn-out pages lie where they lie") {
  const std::string rule =
      "      written: NUMBER\n      parts: {NUMBER: 1 to 99}\n      order: NUMBER\n      used: 1900/1910\n";
  const auto guide = [&](const std::string& missing) {
    return maker(rule + "      missing: {" + missing + "}\n") + kShape + treatment("a", "\"10\"", "1903") +
           treatment("b", "\"20\"", "1905");
  };
  CHECK(only(guide("9-12: torn")) ==
        "1 to 8: 1900-01-01 1903-12-31\n13 to 19: 1903-01-01 1905-12-31\n"
        "9 to 12: 1900-01-01 1905-12-31 (torn)\n");
  CHECK(only(guide("11-19: torn, 30-40: wet")) ==
        "1 to 9: 1900-01-01 1903-12-31\n11 to 19: 1903-01-01 1905-12-31 (torn)\n30 to 40: 1905-01-01 "
        "1910-12-31 (wet)\n");
  CHECK(only(guide("11-15: torn, 13-14: burnt")) ==
        "1 to 9: 1900-01-01 1903-12-31\n16 to 19: 1903-01-01 1905-12-31\n"
        "11 to 15: 1903-01-01 1905-12-31 (torn)\n13 to 14: 1903-01-01 1905-12-31 (burnt)\n");
}

TEST_CASE("rules without an order have no gaps") {
  CHECK(only(maker("      written: PREFIX-SERIAL\n      parts: {PREFIX: shape.prefix, SERIAL: 2 digits}\n"
                   "      order: none\n") +
             kShape + treatment("a", "JM-04", "1930") + treatment("b", "JM-09", "1931"))
            .empty());
}

TEST_CASE("forty thousand numbers with a gap after each end in time") {
  std::string records =
      maker("      written: NUMBER\n      parts: {NUMBER: 1 to 99999}\n      order: NUMBER\n") + kShape;
  for (int i = 1; i <= 40'000; ++i)
    records += treatment("t" + std::to_string(i), '"' + std::to_string(2 * i) + '"');
  const Records guide(records);
  const auto gaps = numberGaps(*guide.chooser, guide.codes);
  REQUIRE(gaps.size() == 1);
  CHECK(gaps[0].missing.size() == 40'000);
}
