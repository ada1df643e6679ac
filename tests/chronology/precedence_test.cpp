#include "chronology/precedence.h"

#include <doctest/doctest.h>

#include "chronology/reasons.h"
#include "linking/link.h"
#include "reading/guide_reader.h"

// Which of two events was first, and when that is a contradiction. All data is invented.
using namespace saggar;
using namespace saggar::chronology;

namespace {

class Reasoned {
 public:
  explicit Reasoned(std::string records) {
    records::ReadGuide read;
    reading::readRecords(read, "records.yaml", std::move(records), findings_);
    diagnostics::Settings settings;
    collection_ = linking::link(std::move(read), findings_, settings);
    weights_ = std::make_unique<evidence::Weights>(collection_);
    chronology_ = Chronology::reason(collection_, *weights_, NoCodeDates());
  }

  // "second, likely second: `a` …; `b` …": the answer, and its reasons.
  std::string first(std::string_view a, std::string_view b) const {
    constexpr const char* kWords[] = {"first", "second", "same day", "undecided", "contradiction"};
    const Precedence found = Precedences(chronology_).of(nodeOf(a), nodeOf(b));
    CHECK(findings_.empty());
    CHECK((found.settle.empty() || found.answer == WhichFirst::undecided));
    const Reasons reasons(collection_, *weights_, chronology_, Reasons::Naming::ids);
    std::string out = std::string(kWords[static_cast<std::size_t>(found.answer)]) + ", likely " +
                      kWords[static_cast<std::size_t>(found.likely)] + (found.notFirst ? ", not first" : "");
    for (const FactId fact : found.because)
      out += "; " + reasons.says(fact) + " (" + reasons.standing(fact) + ')';
    return out;
  }

  // "not first: …": which of the two is proven not to be before the other, and why.
  std::string known(std::string_view a, std::string_view b) const {
    const Precedence found = Precedences(chronology_).of(nodeOf(a), nodeOf(b));
    const Reasons reasons(collection_, *weights_, chronology_, Reasons::Naming::ids);
    std::string out = found.notFirst ? "not first:" : found.notSecond ? "not second:" : "";
    for (const FactId fact : found.notFirst ? found.whyNotFirst : found.whyNotSecond)
      out += ' ' + reasons.says(fact);
    return out;
  }

  // "second not before 1924-01-01: first; …": what would settle it.
  std::string settle(std::string_view a, std::string_view b) const {
    std::string out;
    for (const Settling& one : Precedences(chronology_).of(nodeOf(a), nodeOf(b)).settle)
      out += std::string(out.empty() ? "" : "; ") + (one.first ? "first" : "second") +
             (one.bound == dates::End::Latest ? " by " : " not before ") + one.day.toString() + ": " +
             (one.thenFirst ? "first" : "second");
    return out;
  }

 private:
  Node nodeOf(std::string_view record) const {
    const auto index = collection_.find(record);
    REQUIRE(index.has_value());
    return chronology_.events().standsFor(*index);
  }

  diagnostics::Findings findings_;
  linking::Collection collection_;
  std::unique_ptr<evidence::Weights> weights_;
  Chronology chronology_;
};

std::string shape(const std::string& id, const std::string& introduced, const std::string& cite = "books") {
  return "- shape: " + id + "\n  introduced: " + introduced + (cite.empty() ? "" : "\n  cite: " + cite) +
         '\n';
}

const std::string kBooks = "- {source: books, title: Order books, type: trade-notice, date: 1889/1968}\n";

// A plate of it is older than it is.
std::string plate(const std::string& shape, const std::string& made) {
  return "- specimen: " + shape + "-plate\n  shape: " + shape + "\n  made: " + made +
         "\n  seen: {on: 2019, how: in-hand}\n";
}

std::string first(const std::string& records, std::string_view a, std::string_view b) {
  return Reasoned(kBooks + records).first(a, b);
}

}  // namespace

TEST_CASE("the order is proven, likely or undecided") {
  CHECK(first(shape("a", "1930") + shape("b", "1936"), "shape:a", "shape:b") ==
        "first, likely first; `b` was introduced in 1936 (documented); `a` was introduced in 1930 "
        "(documented)");
  CHECK(first(shape("a", "1936") + shape("b", "1930"), "shape:a", "shape:b")
            .starts_with("second, likely second, not first"));
  CHECK(first(shape("a", "1930") + shape("b", "1936", ""), "shape:a", "shape:b")
            .starts_with("undecided, likely first"));
  CHECK(first(shape("a", "1936") + shape("b", "1936"), "shape:a", "shape:b") ==
        "undecided, likely undecided");
  CHECK(first(shape("a", "1936-03-04") + shape("b", "1936-03-04"), "shape:a", "shape:b")
            .starts_with("same day, likely same day, not first"));
  // A decoration is never older than its shape.
  CHECK(first(shape("a", "1936") + "- treatment: t\n  shape: a\n  cite: books\n", "treatment:t", "shape:a") ==
        "undecided, likely undecided, not first");
}

TEST_CASE("an order that rests on a clash is a contradiction") {
  const std::string clash = shape("a", "1936") + plate("a", "1934");
  const std::string facts =
      "; `a` was introduced in 1936 (disputed; documented); `a-plate` was made in 1934 (disputed; "
      "documented); "
      "`a-plate` is of the shape `a` (disputed; documented)";
  // The two that clash themselves.
  CHECK(first(clash, "shape:a", "specimen:a-plate").starts_with("contradiction"));
  CHECK(first(clash, "shape:a", "specimen:a-plate").ends_with(facts));
  CHECK(first(clash, "specimen:a-plate", "shape:a").starts_with("contradiction"));
  // A third that is before or after one of them, as one or the other is wrong.
  CHECK(first(clash + shape("b", "1935"), "shape:a", "shape:b").ends_with(facts));
  CHECK(first(clash + shape("b", "1935"), "shape:a", "shape:b").starts_with("contradiction"));
  CHECK(first(clash + shape("b", "1930"), "shape:a", "shape:b").starts_with("contradiction"));
  // What is proven whichever of them is wrong stays proven, and what none of them settles undecided.
  CHECK(first(clash + shape("b", "1940"), "shape:a", "shape:b").starts_with("first"));
  CHECK(first(clash + shape("b", "1936"), "shape:b", "shape:a").starts_with("contradiction"));
  CHECK(
      first(clash + shape("b", "1936") + shape("c", "1936"), "shape:b", "shape:c").starts_with("undecided"));
  CHECK(first(clash + shape("b", "by 1960"), "shape:a", "shape:b").starts_with("undecided"));
}

TEST_CASE("facts that prove nothing can clash as well; what is documented does not yield to them") {
  const std::string weak = shape("a", "1936", "") + plate("a", "1934");
  CHECK(first(weak, "shape:a", "specimen:a-plate").starts_with("contradiction"));
  const std::string doubted = shape("a", "{is: 1936, doubted: a torn page}") + plate("a", "1934");
  CHECK(first(doubted, "shape:a", "specimen:a-plate").starts_with("undecided"));
  const std::string reported =
      shape("a", "1936") +
      "- specimen: a-plate\n  shape: a\n  made: 1934\n  seen: {on: 2019, how: reported}\n";
  CHECK(first(reported + shape("b", "1930"), "shape:a", "shape:b").starts_with("second"));
}

TEST_CASE("what would settle an order is within what is proven") {
  auto settle = [](const std::string& records, std::string_view a, std::string_view b) {
    return Reasoned(kBooks + records).settle(a, b);
  };
  CHECK(settle(shape("a", "by 1930") + shape("b", "by 1936"), "shape:a", "shape:b") ==
        "second not before 1931-01-01: first");
  CHECK(settle(shape("a", "1930/1934") + shape("b", "1932/1936"), "shape:a", "shape:b") ==
        "first by 1931-12-31: first; second not before 1935-01-01: first");
  CHECK(settle(shape("a", "1930 or later") + shape("b", "1936 or later"), "shape:a", "shape:b") ==
        "first by 1935-12-31: first");
  // A decoration is never older than its shape: only the other order is left to be settled.
  CHECK(settle(
            shape("a", "1930/1934") + "- treatment: t\n  shape: a\n  introduced: 1932/1936\n  cite: books\n",
            "treatment:t", "shape:a") == "second by 1931-12-31: second; first not before 1935-01-01: second");
  // The day on which somebody saw a piece is no bound that another could be found to be after.
  CHECK(settle(shape("a", "1930 or later") + "- shape: b\n  cite: books\n" + plate("b", "unknown"), "shape:a",
               "shape:b") == "second by 1929-12-31: second");
}

TEST_CASE("an order short of a day is known either way round") {
  const Reasoned reasoned(kBooks + shape("a", "1936") + "- treatment: t\n  shape: a\n  cite: books\n");
  CHECK(reasoned.known("treatment:t", "shape:a") == "not first: `t` is on `a`");
  CHECK(reasoned.known("shape:a", "treatment:t") == "not second: `t` is on `a`");
}
