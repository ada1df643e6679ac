// Comparison of uncertain days and spans, against trying every pair of days that small bounds allow.
#include "dates/compare.h"

#include <doctest/doctest.h>

#include <functional>
#include <vector>

#include "support.h"

namespace saggar::dates::testing {
namespace {

Bounds of(std::string_view expression) {
  return parse(expression)->plain();
}
SpanBounds spanOf(std::string_view expression) {
  return dates::spanOf(*parse(expression), Reading::Plain);
}

TEST_CASE("days of published dates are compared") {
  CHECK(before(of("1932"), of("1933")) == Certainty::Certain);
  CHECK(before(of("1932"), of("1932")) == Certainty::Possible);
  CHECK(before(of("1932-05-05"), of("1932-05-05")) == Certainty::Impossible);
  CHECK(notAfter(of("1932-05-05"), of("1932-05-05")) == Certainty::Certain);
  CHECK(before(of("1933"), of("1932")) == Certainty::Impossible);
  CHECK(before(of("by 1932"), of("1933")) == Certainty::Certain);
  CHECK(before(of("by 1932"), of("by 1935")) == Certainty::Possible);
  CHECK(before(of("from 1935"), of("by 1932")) == Certainty::Impossible);
  CHECK(after(of("from 1937"), of("1936")) == Certainty::Certain);
  CHECK(sameDay(of("1932"), of("1932")) == Certainty::Possible);
  CHECK(sameDay(of("1932-05-05"), of("1932-05-05")) == Certainty::Certain);
  CHECK(sameDay(of("1932"), of("1933")) == Certainty::Impossible);
  CHECK(within(of("1932"), of("1926/1935")) == Certainty::Certain);
  CHECK(within(of("1932"), of("1932-05/1935")) == Certainty::Possible);
  CHECK(within(of("1925"), of("1926/1935")) == Certainty::Impossible);
  CHECK(within(of("1932"), of("1926/..")) == Certainty::Certain);
  CHECK(within(of("1932"), of("1926/")) == Certainty::Possible);
  CHECK(within(of("1925"), of("1926/")) == Certainty::Impossible);
  CHECK(opposite(Certainty::Certain) == Certainty::Impossible);
  CHECK(opposite(Certainty::Possible) == Certainty::Possible);
  CHECK(both(Certainty::Certain, Certainty::Possible) == Certainty::Possible);
}

TEST_CASE("members of a set leave their gaps out") {
  const auto members = parse("[1932,1934]")->memberBounds(Reading::Plain);
  CHECK(within(of("[1932,1934]"), of("1933")) == Certainty::Possible);
  CHECK(within(members, of("1933")) == Certainty::Impossible);
  CHECK(within(members, of("1932")) == Certainty::Possible);
  CHECK(within(members, of("1930s")) == Certainty::Certain);
}

TEST_CASE("spans that are open at an end reach as far as may be") {
  CHECK(within(of("1932"), spanOf("1926/1935")) == Certainty::Certain);
  CHECK(within(of("1926"), spanOf("1926/1935")) == Certainty::Possible);
  CHECK(within(of("1936"), spanOf("1926/1935")) == Certainty::Impossible);
  CHECK(within(of("1940"), spanOf("1937/..")) == Certainty::Certain);
  CHECK(within(of("1940"), spanOf("1937/")) == Certainty::Possible);
  CHECK(within(of("1936"), spanOf("1937/..")) == Certainty::Impossible);
  CHECK(overlaps(spanOf("1926/1935"), of("1930")) == Certainty::Certain);
  CHECK(overlaps(spanOf("1926/1935"), of("1926-01")) == Certainty::Possible);
  CHECK(overlaps(spanOf("1926/1935"), of("1936/1940")) == Certainty::Impossible);
  CHECK(overlaps(spanOf("1937/.."), of("1950")) == Certainty::Certain);
  CHECK(overlaps(spanOf("1937/"), of("1950")) == Certainty::Possible);
  CHECK(overlaps(spanOf("1926/1935"), spanOf("1930/1940")) == Certainty::Certain);
  CHECK(overlaps(spanOf("1926/1935"), spanOf("1935/1940")) == Certainty::Possible);
  CHECK(overlaps(spanOf("1926/1935"), spanOf("1936/1940")) == Certainty::Impossible);
  CHECK(overlaps(spanOf("1926/.."), spanOf("1936/..")) == Certainty::Certain);
  CHECK(overlaps(spanOf("../1935"), spanOf("1930/1940")) == Certainty::Certain);
  CHECK(overlaps(spanOf("1932"), of("1932")) == Certainty::Certain);
}

Bounds days(int from, int to) {
  return {Day::fromNumber(from), Day::fromNumber(to)};
}

Certainty tried(int yes, int no) {
  return yes == 0 ? Certainty::Impossible : no == 0 ? Certainty::Certain : Certainty::Possible;
}

TEST_CASE("every pair of small bounds agrees with trying all their days") {
  using Relation = std::function<bool(int, int)>;
  const auto tryAll = [](const Relation& relation, int a1, int a2, int b1, int b2) {
    int yes = 0, no = 0;
    for (int a = a1; a <= a2; ++a) {
      for (int b = b1; b <= b2; ++b) ++(relation(a, b) ? yes : no);
    }
    return tried(yes, no);
  };
  for (int a1 = 0; a1 < 5; ++a1) {
    for (int a2 = a1; a2 < 5; ++a2) {
      for (int b1 = 0; b1 < 5; ++b1) {
        for (int b2 = b1; b2 < 5; ++b2) {
          const Bounds a = days(a1, a2), b = days(b1, b2);
          CHECK(before(a, b) == tryAll(std::less<>(), a1, a2, b1, b2));
          CHECK(notAfter(a, b) == tryAll(std::less_equal<>(), a1, a2, b1, b2));
          CHECK(sameDay(a, b) == tryAll(std::equal_to<>(), a1, a2, b1, b2));
          int yes = 0, no = 0;
          for (int day = a1; day <= a2; ++day) ++(day >= b1 && day <= b2 ? yes : no);
          CHECK(within(a, b) == tried(yes, no));
        }
      }
    }
  }
}

TEST_CASE("every small span agrees with trying all its days") {
  constexpr int kDays = 4;
  for (int b1 = 0; b1 < kDays; ++b1) {
    for (int b2 = b1; b2 < kDays; ++b2) {
      for (int e1 = 0; e1 < kDays; ++e1) {
        for (int e2 = std::max(e1, b1); e2 < kDays; ++e2) {
          SpanBounds span;
          span.begin = days(b1, b2);
          span.end = days(e1, e2);
          for (int r1 = 0; r1 < kDays; ++r1) {
            for (int r2 = r1; r2 < kDays; ++r2) {
              int overlapping = 0, apart = 0, inside = 0, outside = 0;
              for (int b = b1; b <= b2; ++b) {
                for (int e = std::max(b, e1); e <= e2; ++e) {
                  ++(b <= r2 && e >= r1 ? overlapping : apart);
                  for (int day = r1; day <= r2; ++day) ++(day >= b && day <= e ? inside : outside);
                }
              }
              CHECK(overlaps(span, days(r1, r2)) == tried(overlapping, apart));
              CHECK(within(days(r1, r2), span) == tried(inside, outside));
            }
          }
        }
      }
    }
  }
}

}  // namespace
}  // namespace saggar::dates::testing
