// A treatment on one of several shapes: it is not older than the oldest of them, and was not offered after the last was.
// What that day rests on is each shape's own day, with its reasons. All data is invented.
#include "reasoned.h"

using namespace saggar;
using namespace saggar::chronology;
using saggar::chronology::testing::Reasoned;

namespace {

std::string shape(const std::string& id, const std::string& introduced, const std::string& cite = "books") {
  return "- shape: " + id + "\n  introduced: " + introduced + (cite.empty() ? "" : "\n  cite: " + cite) +
         '\n';
}
std::string plate(const std::string& of, const std::string& made) {
  return "- {specimen: " + of + "-plate, shape: " + of + ", made: " + made +
         ", seen: {on: 2019, how: in-hand}}\n";
}
const std::string kOnBoth = "- {treatment: t, shape: [a, b], cite: books}\n";
const std::string kBooks = "- {source: books, title: Order books, type: trade-notice}\n";

class Treatment : public Reasoned {
 public:
  explicit Treatment(const std::string& records) : Reasoned(kBooks + records) {}
  std::string earliest(BoundsOf which) const {
    return chronology.bounds(introduced(), which).earliest.toString();
  }
  std::string reasonsOf(BoundsOf which) const { return because(introduced(), which, dates::End::Earliest); }
  std::string disputed() const {
    std::string out;
    for (const FactId fact : chronology.disputed()) out += reasons.says(fact) + "; ";
    return out;
  }

 private:
  Node introduced() const { return node("treatment:t", "introduced"_f); }
};

}  // namespace

TEST_CASE("the chain names the day of every shape") {
  const Treatment guide(shape("a", "1932") + shape("b", "1935") + kOnBoth);
  CHECK(guide.earliest(BoundsOf::proven) == "1932-01-01");
  for (const BoundsOf which : {BoundsOf::proven, BoundsOf::likely})
    CHECK(guide.reasonsOf(which) ==
          "`a` was introduced in 1932 (documented); `b` was introduced in 1935 (documented); `t` is on one "
          "of `a` "
          "or `b` (documented)");
  // Of a shape without a date anything may be true.
  CHECK(Treatment(shape("a", "1932") + shape("b", "by 1935") + kOnBoth).earliest(BoundsOf::proven) == "-inf");
}

TEST_CASE("shapes that are dated by what is on them do not go round for ever") {
  const Treatment guide(shape("a", "1932") +
                        "- {shape: b, introduced: 1931, after: treatment:t, cite: books}\n" + kOnBoth);
  CHECK(guide.earliest(BoundsOf::proven) >= "1931-01-01");
  CHECK(guide.earliest(BoundsOf::proven) <= "1932-01-01");
  CHECK(guide.reasonsOf(BoundsOf::proven).find("`t` is on one of `a` or `b`") != std::string::npos);
}

TEST_CASE("a day that is open for the shape is open for what is on it") {
  const Treatment guide(shape("a", "1932") + plate("a", "1930") + shape("b", "1935") + kOnBoth);
  CHECK(guide.earliest(BoundsOf::proven) == "-inf");
  CHECK(guide.earliest(BoundsOf::likely) == "1932-01-01");
}

TEST_CASE("a day that gave way makes nothing likely") {
  const Treatment guide(shape("a", "1932", "") + plate("a", "1930") + shape("b", "1935") + kOnBoth);
  CHECK(guide.disputed() == "`a` was introduced in 1932; ");
  CHECK(guide.earliest(BoundsOf::likely) == "-inf");
  CHECK(guide.earliest(BoundsOf::tests) == "-inf");
  // What was ruled out by that day alone is not in dispute.
  const Treatment dated(shape("a", "1932", "") + plate("a", "1930") + shape("b", "1935") +
                        "- {treatment: t, introduced: 1931, shape: [a, b]}\n");
  CHECK(dated.disputed() == "`a` was introduced in 1932; ");
  CHECK(dated.earliest(BoundsOf::likely) == "1931-01-01");
}

TEST_CASE("a clash with all shapes is a clash of their days as well") {
  const Treatment guide(shape("a", "1932") + shape("b", "1935") +
                        "- {treatment: t, introduced: 1930, shape: [a, b], cite: books}\n");
  REQUIRE(guide.chronology.clashes().size() == 1);
  CHECK(guide.chronology.clashes()[0].facts.size() == 4);
  CHECK(guide.chronology.clashes()[0].shortBy == 366);
  CHECK(guide.disputed() ==
        "`a` was introduced in 1932; `b` was introduced in 1935; `t` was introduced in 1930; `t` is on one "
        "of `a` or "
        "`b`; ");
  CHECK(guide.earliest(BoundsOf::proven) == "1930-01-01");
  CHECK(guide.days(guide.node("shape:a", "introduced"_f), BoundsOf::proven) == "-inf … 1932-12-31");
}
