#include "tollivane.h"

using namespace saggar::codes;

namespace {

std::string first(const RuleSpec& spec) {
  const std::vector<Problem> problems = problemsOf(spec);
  return problems.empty() ? std::string("fine") : problems[0].field + ": " + problems[0].message;
}

std::string hint(const RuleSpec& spec) {
  return problemsOf(spec).at(0).hint;
}

}  // namespace

TEST_CASE("a rule takes from the one it is like what it does not set itself, part by part") {
  const RuleSpec three = onJessamount();
  CHECK(three.name == "decoration code on Jessamount");
  CHECK(three.written == decorationCode().written);
  CHECK(three.parts.size() == 4);
  CHECK(wanted(three.part("SERIAL")->spec) == "three digits");
  CHECK(std::get<TablePart>(three.part("GROUP")->spec).rows.size() == 5);
  CHECK(three.alone == "PREFIX-SERIAL");
  CHECK(three.order->number == "SERIAL");
  CHECK(three.orderFrom == "decoration code");
  CHECK(copiedSerial().order->none());
  CHECK(copiedSerial().orderFrom == "copied serial");

  RuleSpec shorter;
  shorter.name = "without group";
  shorter.written = "PREFIX-SERIAL";
  const RuleSpec whole = inherit(decorationCode(), shorter);
  CHECK(whole.parts.size() == 2);
  CHECK(whole.alone == "PREFIX-SERIAL");
  CHECK(compiled(whole).read("JM-203").all.size() == 1);
  shorter.written = "No. SERIAL";
  const RuleSpec bare = inherit(decorationCode(), shorter);
  CHECK(bare.parts.size() == 1);
  CHECK_FALSE(bare.alone);
  CHECK_FALSE(bare.order);
  CHECK(compiled(bare).read("no. 203").all.size() == 1);
}

TEST_CASE("likes are resolved in any order, and rings and misspelt names are told") {
  RuleSpec a = rule("a", "N", {part("N", "2 digits")});
  RuleSpec b;
  b.name = "b";
  b.like = "a";
  b.parts = {part("N", "3 digits")};
  RuleSpec c;
  c.name = "c";
  c.like = "b";
  c.order = order("N");
  const Resolved resolved = resolveLikes({c, b, a});
  CHECK(resolved.problems.empty());
  REQUIRE(resolved.rules.size() == 3);
  CHECK(compiled(resolved.rules[0]).read("123").all.size() == 1);
  CHECK(compiled(resolved.rules[2]).read("12").all.size() == 1);

  a.like = "c";
  const Resolved ring = resolveLikes({a, b, c});
  REQUIRE(ring.problems.size() == 1);
  CHECK(ring.problems[0].problem.message.find("in the end is like itself") != std::string::npos);
  CHECK(ring.usable == std::vector<bool>{false, false, false});

  RuleSpec self = b;
  self.like = "b";
  CHECK(resolveLikes({self}).problems.size() == 1);

  b.like = "date cod";
  const Resolved lost = resolveLikes({dateCode(), b});
  REQUIRE(lost.problems.size() == 1);
  CHECK(lost.problems[0].rule == 1);
  CHECK(lost.usable == std::vector<bool>{true, false});
  CHECK(lost.problems[0].problem.hint == "did you mean `date code`?");

  std::vector<RuleSpec> chain;
  for (int i = 0; i < 5000; ++i) {
    RuleSpec link;
    link.name = std::to_string(i);
    if (i < 4999) {
      link.like = std::to_string(i + 1);
    } else {
      link.written = "N";
      link.parts = {part("N", "1 digit")};
    }
    chain.push_back(std::move(link));
  }
  const Resolved longChain = resolveLikes(std::move(chain));
  CHECK(longChain.problems.empty());
  CHECK(compiled(longChain.rules[0]).read("7").all.size() == 1);
}

TEST_CASE("what is wrong with a rule is said, with the field") {
  CHECK(first(rule("r", "N", {part("N", "2 digits")})) == "fine");
  RuleSpec spec;
  CHECK(first(spec) == "written: the rule does not say how the code is written");
  CHECK(first(rule("r", "N", {part("N", "2 digits"), part("M", "2 digits")})) ==
        "parts: the part `M` is not in `written`");
  CHECK(first(rule("r", "N", {part("N", "2 digits"), part("N", "3 digits")})) == "parts: `N` is said twice");
  CHECK(first(rule("r", "N SERIAL", {part("N", "2 digits")})) ==
        "written: `SERIAL` in `written` is no part of this rule");
  CHECK(first(rule("r", "N", {table("N", {})})) == "parts: the table of `N` has no row");
  CHECK(first(rule("r", "N", {table("N", {{"", "nothing", {}, {}}})})) ==
        "parts: `N` has a text without a sign in it");
  DateFacts thirteenth;
  thirteenth.months = {13};
  CHECK(first(rule("r", "N", {table("N", {{"A", "", {}, thirteenth}})})) ==
        "parts: `A` in the table of `N` names a date that there is not");
  CHECK(first(rule("r", "N", {{"N", DigitsPart{}}})) == "parts: `N` does not say how many signs it has");
  CHECK(first(rule("r", "N", {{"N", RangePart{5, 1, 0}}})) == "parts: the range of `N` is unfit");
  CHECK(first(rule("r", "N", {{"N", PathPart{}}})) == "parts: `N` does not say where its text is found");
  CHECK(first(rule("r", "N", {{"N", YearPart{{"20Y0"}}}})) ==
        "parts: `N` does not say which year its signs stand for");
  CHECK(first(rule("r", "N", {{"N", UnitPart{Unit::month, 0, 12, true, true}}})) ==
        "parts: there is no month from 0 to 12");
  CHECK(first(rule("r", "N", {{"", DigitsPart{Counts(1, 1)}}})) == "parts: a part without a name");

  spec = rule("r", "N", {part("N", "2 digits")});
  spec.pattern = "(?P<N>..)";
  CHECK(first(spec) == "pattern: the rule has both `written` and `pattern`");
  spec = decorationCode();
  spec.alone = "PREFIX-SERIEL";
  CHECK(first(spec) == "alone: `SERIEL` in `written` is no part of this rule");
  spec.alone = "x-";
  CHECK(first(spec) == "alone: `alone` names no part of the code");
  spec = decorationCode();
  spec.order = order("SERIAL within PREFFIX");
  CHECK(first(spec) == "order: `order` names `PREFFIX`, which is no part of the code");
  CHECK(hint(spec) == "did you mean `PREFIX`?");
  spec.order = order("GROUP");
  CHECK(first(spec) == "order: `GROUP` does not count: it is no number");
  spec = decorationCode();
  spec.alike = std::vector<std::vector<std::string>>{{"4"}};
  CHECK(first(spec) == "alike: one sign alone is like nothing");
  spec = oldNumber();
  spec.onDate = {{"2881", yearBounds(1909)}};
  CHECK(first(spec) == "on-date: the number 2881 is not from 1 to 2880");
  spec.onDate = {{"JM-045", yearBounds(1909)}};
  CHECK(first(spec) == "on-date: `JM-045` is no number of this rule");
  spec = dateCode();
  spec.firstOf = {{"1", yearBounds(1909)}};
  CHECK(first(spec) == "order: the rule has a table of numbers, but does not say which part is the number");
}
