// Guides that are wrong all over: each mistake is reported once, what follows from it is counted, and it ends soon.
#include <chrono>

#include "small_guide.h"

using namespace saggar::checks::testing;
using saggar::diagnostics::Finding;

namespace {

std::string shape(const std::string& id, const std::string& more) {
  return "- shape: " + id + "\n" + more + "  cite:\n    - books: p. 1\n";
}

std::string treatment(int i, const std::string& on, const std::string& more) {
  return "- treatment: t" + std::to_string(i) + "\n  shape: " + on + "\n  motif: none\n" + more +
         "  cite:\n    - books: p. " + std::to_string(i) + "\n";
}

// Reads and reasons within a time that is far more than it takes, and far less than a square of it would.
Small soon(const std::string& records, double seconds = 10) {
  const auto begin = std::chrono::steady_clock::now();
  Small small(records + kBooks);
  const std::chrono::duration<double> took = std::chrono::steady_clock::now() - begin;
  CHECK(took.count() < seconds);
  return small;
}

std::size_t countOf(const Small& small, std::string_view rule) {
  return static_cast<std::size_t>(std::count_if(small.report.findings.begin(), small.report.findings.end(),
                                                [&](const Finding& one) { return one.rule.id() == rule; }));
}

}  // namespace

TEST_CASE("a shape's year mistyped under three hundred treatments is one finding") {
  std::string records = shape("s", "  introduced: 1963\n");
  for (int i = 1; i <= 300; ++i)
    records += treatment(i, "s", "  introduced: " + std::to_string(1936 + i % 5) + "\n");
  const Small small = soon(records);
  const Finding& one = small.one();
  CHECK(one.rule.id() == "date-before-shape");
  CHECK(one.record == "shape:s");
  CHECK(one.field == "introduced");
  CHECK(one.related.size() == 10);
  CHECK(one.message.find("299 more contradictions with it") != std::string::npos);
  CHECK(one.message.find(" more facts take part") != std::string::npos);
}

TEST_CASE("three thousand treatments before their shape are one finding too") {
  std::string records = shape("s", "  introduced: 1963\n");
  for (int i = 1; i <= 3000; ++i) records += treatment(i, "s", "  introduced: 1936\n");
  const Small small = soon(records);
  CHECK(countOf(small, "date-before-shape") == 1);
  CHECK(small.report.findings.size() <= 2);  // and what still clashes, counted
}

TEST_CASE("records that come after one another in a ring") {
  std::string records = shape("s", "");
  constexpr int kLength = 40;
  for (int i = 1; i <= kLength; ++i)
    records += treatment(i, "s", "  after: treatment:t" + std::to_string(i % kLength + 1) + "\n");
  const Small small = soon(records);
  REQUIRE(small.report.findings.size() == 1);
  CHECK(small.report.findings[0].rule.id() == "dates-clash");
}

TEST_CASE("two hundred rings of two") {
  std::string records = shape("s", "");
  for (int i = 1; i <= 400; i += 2) {
    records += treatment(i, "s", "  after: treatment:t" + std::to_string(i + 1) + "\n");
    records += treatment(i + 1, "s", "  after: treatment:t" + std::to_string(i) + "\n");
  }
  const Small small = soon(records);
  CHECK(small.report.findings.size() == 200);
  CHECK(countOf(small, "dates-clash") == 200);
}

TEST_CASE("a record after itself") {
  const Small small = soon(shape("s", "") + treatment(1, "s", "  after: treatment:t1\n"));
  REQUIRE(small.report.findings.size() == 1);
  CHECK(small.report.findings[0].record == "treatment:t1");
}

TEST_CASE("years of twenty digits are reckoned with exactly") {
  const std::string early = "Y-10000000000000000000";
  const std::string late = "Y10000000000000000001";
  const auto clashes = [](const std::string& introduced, const std::string& withdrawn) {
    return Small(shape("s", "  introduced: " + introduced + "\n  withdrawn: " + withdrawn + "\n") + kBooks,
                 {*saggar::diagnostics::ruleNamed("dates-clash")});
  };
  CHECK(clashes(early, late).found == "");
  CHECK(clashes(late, late).found == "");
  CHECK(clashes(late, "Y10000000000000000000").one().message.ends_with("at least 1 day short"));
  CHECK(clashes(late, early).one().message.find("years short") != std::string::npos);
}

TEST_CASE("sources that draw on one another in a ring") {
  std::string records;
  constexpr int kLength = 60;
  for (int i = 1; i <= kLength; ++i)
    records += "- source: s" + std::to_string(i) +
               "\n  type: book\n  title: Book\n  date: 1950\n  draws-on: s" +
               std::to_string(i % kLength + 1) + "\n";
  records += "- shape: x\n  introduced: 1932\n  cite:\n    - s1: p. 1\n";
  const Small small = soon(records);
  CHECK(countOf(small, "source-ring") == 1);
}

TEST_CASE("a code with a hundred readings") {
  // Thirteen figures in nine parts of one or two, and the year before the last figure or before the last two.
  std::string written, parts;
  for (const char* name : {"A", "B", "C", "D", "E", "F", "G", "H", "YY", "I"}) {
    written += std::string(written.empty() ? "" : " ") + name;
    parts +=
        std::string("        ") + name + (std::string(name) == "YY" ? ": year 19YY\n" : ": 1 or 2 digits\n");
  }
  const std::string records =
      "- maker: m\n  codes:\n    - rule: date code\n      on: specimen.date-code\n      written: " + written +
      "\n      parts:\n" + parts +
      "  cite:\n    - books: p. 1\n"
      "- shape: s\n  maker: m\n  introduced: 1960\n  cite:\n    - books: p. 1\n"
      "- specimen: p\n  shape: s\n  date-code: 123412341231241\n  seen: {on: 14 May 2019, how: in-hand}\n";
  const Small small = soon(records);
  INFO(small.text);
  CHECK(countOf(small, "date-before-shape") == 1);
}

TEST_CASE("thousands of contradictions at once") {
  std::string records;
  constexpr int kCount = 3000;
  for (int i = 1; i <= kCount; ++i)
    records += shape("s" + std::to_string(i), "  introduced: 1940\n  withdrawn: 1930\n");
  const Small small = soon(records, 30);
  constexpr std::size_t kApart = saggar::chronology::Conflicts::kMost;
  REQUIRE(small.report.findings.size() == kApart + 1);
  const auto isRest = [&](const Finding& one) { return one.facts.size() == 2 * (kCount - kApart); };
  CHECK(std::count_if(small.report.findings.begin(), small.report.findings.end(), isRest) == 1);
}
