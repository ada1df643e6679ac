// The table of rules.
#include "diagnostics/rules.h"

#include <doctest/doctest.h>

#include <set>
#include <string>

using namespace saggar;

TEST_CASE("a rule is found by its id, and by nothing else") {
  for (std::size_t i = 0; i < diagnostics::kRules.size(); ++i) {
    const auto rule = diagnostics::ruleNamed(diagnostics::kRules[i].id);
    REQUIRE(rule);
    CHECK(rule->index == i);
    CHECK(rule->id() == diagnostics::ruleIds()[i]);
  }
  for (const char* word : {"", "uncite", "uncitedd", "Uncited", "zzz", "aaa"})
    CHECK_FALSE(diagnostics::ruleNamed(word));
  static_assert("uncited"_rule.id() == "uncited");
}

TEST_CASE("ids are words with hyphens, and every rule says what it finds in words of its own") {
  std::set<std::string_view> said;
  for (const diagnostics::RuleInfo& rule : diagnostics::kRules) {
    CAPTURE(rule.id);
    CHECK(rule.id.find_first_not_of("abcdefghijklmnopqrstuvwxyz-") == std::string_view::npos);
    CHECK_FALSE(rule.says.empty());
    CHECK_FALSE(rule.says.ends_with('.'));
    CHECK(said.insert(rule.says).second);
    CHECK((rule.severity != diagnostics::Severity::off));
  }
}

TEST_CASE("findings of reading cannot be waived, and every rule has its explanation") {
  for (std::size_t i = 0; i < diagnostics::kRules.size(); ++i) {
    const diagnostics::Rule rule{static_cast<std::uint8_t>(i)};
    CAPTURE(rule.id());
    if (rule.info().stage == diagnostics::Stage::reading) CHECK_FALSE(rule.info().waivable);
    CHECK(diagnostics::explanation(rule).starts_with("# " + std::string(rule.id()) + '\n'));
  }
}

TEST_CASE("names of severities") {
  using diagnostics::Severity;
  CHECK(toString(Severity::off) == "off");
  CHECK(toString(Severity::note) == "note");
  CHECK(toString(Severity::warning) == "warning");
  CHECK(toString(Severity::error) == "error");
}
