// From findings to what is printed: order, what is one finding told twice, severities, waivers, counts, what is left out.
#include "diagnostics/report.h"

#include <doctest/doctest.h>

#include <algorithm>

using namespace saggar;
using diagnostics::Finding;
using diagnostics::Findings;
using diagnostics::Report;
using diagnostics::Settings;
using diagnostics::Severity;

namespace {

struct World {
  source::SourceSet sources;
  source::FileId later =
      sources.add("shapes.yaml", "- shape: linnavere\n  name: Linnavere\n- shape: jessamount\n");
  source::FileId earlier = sources.add("marks.yaml", "- mark: k1\n- mark: k2\n");

  Finding at(diagnostics::Rule rule, source::FileId file, std::uint32_t begin, std::string message = "seen",
             std::string record = {}) const {
    return {.rule = rule,
            .span = {file, begin, begin + 1},
            .message = std::move(message),
            .hint = "do so",
            .record = std::move(record)};
  }
  // "path:line rule message" of each, and " waived" behind those that are.
  std::string listed(const Report& report) const {
    std::string out;
    for (const Finding& one : report.findings) {
      const source::Place place = sources.place(one.span);
      out += (out.empty() ? "" : "\n") + std::string(place.path) + ':' + std::to_string(place.line) + ' ' +
             std::string(one.rule.id()) + ' ' + one.message + (one.waived ? " waived" : "");
    }
    return out;
  }
};

Report reportOf(std::vector<Finding> list, const World& world, const Settings& settings = {}) {
  Findings findings;
  for (Finding& one : list) findings.add(std::move(one));
  return diagnostics::makeReport(std::move(findings), settings, world.sources);
}

}  // namespace

TEST_CASE("findings are in the order of file, place, rule and words, whatever order they come in") {
  const World world;
  std::vector<Finding> list = {world.at("uncited"_rule, world.later, 38, "a"),
                               world.at("uncited"_rule, world.later, 2, "b"),
                               world.at("code-shared"_rule, world.later, 2, "a"),
                               world.at("uncited"_rule, world.later, 2, "a"),
                               world.at("source-unused"_rule, world.earlier, 11, "a"),
                               world.at("yaml-broken"_rule, world.earlier, 0, "a")};
  const char* expected =
      "marks.yaml:1 yaml-broken a\n"
      "marks.yaml:2 source-unused a\n"
      "shapes.yaml:1 code-shared a\n"
      "shapes.yaml:1 uncited a\n"
      "shapes.yaml:1 uncited b\n"
      "shapes.yaml:3 uncited a";
  CHECK(world.listed(reportOf(list, world)) == expected);
  std::reverse(list.begin(), list.end());
  CHECK(world.listed(reportOf(list, world)) == expected);
  std::rotate(list.begin(), list.begin() + 2, list.end());
  CHECK(world.listed(reportOf(list, world)) == expected);
}

TEST_CASE("a finding that stands nowhere comes first") {
  const World world;
  Finding nowhere{.rule = "yaml-broken"_rule, .span = {}, .message = "seen"};
  const Report report = reportOf({world.at("uncited"_rule, world.earlier, 0), nowhere}, world);
  REQUIRE(report.findings.size() == 2);
  CHECK_FALSE(report.findings[0].span.known());
  CHECK(diagnostics::asText(report.findings[0], world.sources)
            .starts_with("saggar: error: seen [yaml-broken]\n"));
}

TEST_CASE("the same words of one rule at one place are one finding, and any difference makes two") {
  const World world;
  const Finding one = world.at("uncited"_rule, world.later, 2);
  CHECK(reportOf({one, one, one}, world).findings.size() == 1);
  CHECK(reportOf({one, one, one}, world).warnings == 1);
  CHECK(reportOf({one, world.at("uncited"_rule, world.later, 3)}, world).findings.size() == 2);
  CHECK(reportOf({one, world.at("uncited"_rule, world.earlier, 2)}, world).findings.size() == 2);
  CHECK(reportOf({one, world.at("uncited"_rule, world.later, 2, "seen otherwise")}, world).findings.size() ==
        2);
  CHECK(reportOf({one, world.at("source-unused"_rule, world.later, 2)}, world).findings.size() == 2);
}

TEST_CASE("severities: a rule's own, a finding's own, and what the guide sets goes before both") {
  const World world;
  Finding own = world.at("code-unread"_rule, world.later, 2);
  own.severity = Severity::note;
  const std::vector<Finding> list = {own, world.at("code-unread"_rule, world.later, 9),
                                     world.at("uncited"_rule, world.later, 2),
                                     world.at("source-unused"_rule, world.later, 2)};
  Report report = reportOf(list, world);
  CHECK(report.errors == 1);
  CHECK(report.warnings == 1);
  CHECK(report.notes == 2);
  CHECK(diagnostics::countsInWords(report) == "1 error, 1 warning and 2 notes");

  Settings settings;
  auto set = [&](diagnostics::Rule rule, Severity severity) {
    settings.severity[rule.index] = severity;
    settings.changed[rule.index] = true;
  };
  set("code-unread"_rule, Severity::warning);
  set("source-unused"_rule, Severity::off);
  report = reportOf(list, world, settings);
  CHECK(report.errors == 0);
  CHECK(report.warnings == 3);
  CHECK(report.notes == 0);
  CHECK(report.findings.size() == 3);
  CHECK(diagnostics::countsInWords(report) == "3 warnings");
}

TEST_CASE("only the rules that are wanted") {
  const World world;
  Settings settings;
  settings.only = {"uncited"_rule};
  const Report report =
      reportOf({world.at("uncited"_rule, world.later, 2), world.at("yaml-broken"_rule, world.later, 0),
                world.at("source-unused"_rule, world.later, 2)},
               world, settings);
  CHECK(world.listed(report) == "shapes.yaml:1 uncited seen");
  CHECK(report.errors == 0);
}

TEST_CASE("a waiver fits a finding of its rule about exactly its records, in any order") {
  const World world;
  Finding pair = world.at("code-shared"_rule, world.later, 2, "shared", "treatment:b");
  pair.records = {"treatment:b", "treatment:a"};
  Settings settings;
  auto waived = [&](std::vector<std::string> records, diagnostics::Rule rule = "code-shared"_rule) {
    settings.waivers = {{rule, std::move(records), "an open question", {world.earlier, 0, 1}}};
    return world.listed(reportOf({pair}, world, settings));
  };
  CHECK(waived({"treatment:a", "treatment:b"}) == "shapes.yaml:1 code-shared shared waived");
  CHECK(waived({"treatment:b", "treatment:a"}) == "shapes.yaml:1 code-shared shared waived");
  CHECK(waived({"treatment:a", "treatment:b", "treatment:a"}) == "shapes.yaml:1 code-shared shared waived");
  const std::string unused =
      "marks.yaml:1 waiver-unused no `code-shared` finding is about exactly `treatment:b`\n"
      "shapes.yaml:1 code-shared shared";
  CHECK(waived({"treatment:b"}) == unused);
  CHECK(
      waived({"treatment:a", "treatment:b", "treatment:c"}) ==
      "marks.yaml:1 waiver-unused no `code-shared` finding is about exactly `treatment:a`, `treatment:b` and "
      "`treatment:c`\nshapes.yaml:1 code-shared shared");
  CHECK(waived({"treatment:a", "treatment:b"}, "variant-twice"_rule).find("waiver-unused") !=
        std::string::npos);

  pair.records.push_back("treatment:c");  // a third turns up
  CHECK(waived({"treatment:a", "treatment:b"}).ends_with("shapes.yaml:1 code-shared shared"));

  settings.waivers = {
      {"code-shared"_rule, {"treatment:a", "treatment:b", "treatment:c"}, "why", {world.earlier, 0, 1}}};
  const Report report = reportOf({pair, world.at("uncited"_rule, world.later, 2)}, world, settings);
  CHECK(report.errors == 0);
  CHECK(report.waived == 1);
  CHECK(report.warnings == 1);
  CHECK(diagnostics::countsInWords(report) == "1 warning; 1 more waived");
  REQUIRE(report.findings[0].waived);
  CHECK(report.findings[0].waived->because == "why");
}

TEST_CASE("where a finding names no other records, it is the one it stands at; at none, the file") {
  const World world;
  Settings settings;
  settings.waivers = {{"uncited"_rule, {"shape:linnavere"}, "why", {world.earlier, 0, 1}}};
  CHECK(world.listed(reportOf({world.at("uncited"_rule, world.later, 2, "seen", "shape:linnavere")}, world,
                              settings)) == "shapes.yaml:1 uncited seen waived");
  settings.waivers = {
      {"html-in-prose"_rule, {diagnostics::waivedFile("shapes.yaml")}, "why", {world.earlier, 0, 1}}};
  const std::string both = world.listed(reportOf(
      {world.at("html-in-prose"_rule, world.later, 2), world.at("html-in-prose"_rule, world.later, 5)}, world,
      settings));
  CHECK(both == "shapes.yaml:1 html-in-prose seen waived\nshapes.yaml:1 html-in-prose seen waived");
  CHECK(world.listed(reportOf({world.at("html-in-prose"_rule, world.earlier, 2)}, world, settings)) ==
        "marks.yaml:1 waiver-unused no `html-in-prose` finding is about exactly `file shapes.yaml`\n"
        "marks.yaml:1 html-in-prose seen");
}

TEST_CASE("what cannot be waived is not, and an unused waiver waits for its rule to be looked at") {
  const World world;
  Settings settings;
  settings.waivers = {{"reference-missing"_rule, {"shape:linnavere"}, "why", {world.earlier, 0, 1}}};
  const Report report = reportOf(
      {world.at("reference-missing"_rule, world.later, 2, "seen", "shape:linnavere")}, world, settings);
  CHECK(report.errors == 1);
  CHECK(report.waived == 0);

  settings.waivers = {{"uncited"_rule, {"shape:linnavere"}, "why", {world.earlier, 0, 1}}};
  CHECK(world.listed(reportOf({}, world, settings)) ==
        "marks.yaml:1 waiver-unused no `uncited` finding is about exactly `shape:linnavere`");
  settings.only = {"code-shared"_rule, "waiver-unused"_rule};
  CHECK(reportOf({}, world, settings).findings.empty());
  settings.only = {"uncited"_rule, "waiver-unused"_rule};
  CHECK(reportOf({}, world, settings).warnings == 1);
  // What is found only when pages are set is not missed where none were.
  settings.only.clear();
  settings.waivers = {{"sign-missing"_rule, {"checklist:all"}, "why", {world.earlier, 0, 1}}};
  CHECK(reportOf({}, world, settings).findings.empty());
}

TEST_CASE("a waiver twice: the second fits nothing") {
  const World world;
  Settings settings;
  const diagnostics::Waiver waiver{"uncited"_rule, {"shape:linnavere"}, "why", {world.earlier, 0, 1}};
  settings.waivers = {waiver, waiver};
  settings.waivers[1].span.begin = 11;
  CHECK(world.listed(reportOf({world.at("uncited"_rule, world.later, 2, "seen", "shape:linnavere")}, world,
                              settings)) ==
        "marks.yaml:2 waiver-unused no `uncited` finding is about exactly `shape:linnavere`\n"
        "shapes.yaml:1 uncited seen waived");
}

TEST_CASE("the first hundred of a rule and a thousand in all are shown, and all are counted") {
  source::SourceSet sources;
  const source::FileId file = sources.add("many.yaml", std::string(5000, 'x'));
  Findings findings;
  for (std::uint32_t i = 0; i < 250; ++i)
    findings.add({.rule = "uncited"_rule, .span = {file, i, i + 1}, .message = "seen", .record = "shape:a"});
  Report report = diagnostics::makeReport(std::move(findings), {}, sources);
  CHECK(report.warnings == 250);
  CHECK(report.shown().size() == 100);
  CHECK(report.shown().back()->span.begin == 99);
  CHECK(diagnostics::asText(report, sources)
            .ends_with(
                "\n150 further findings not shown (100 of a rule and 1,000 in all are)\n250 warnings\n"));

  Findings many;
  for (std::uint8_t rule = 0; rule < 20; ++rule)
    for (std::uint32_t i = 0; i < 120; ++i)
      many.add({.rule = diagnostics::Rule{rule}, .span = {file, i, i + 1}, .message = "seen"});
  report = diagnostics::makeReport(std::move(many), {}, sources);
  CHECK(report.findings.size() == 2400);
  CHECK(report.errors + report.warnings + report.notes == 2400);
  CHECK(report.shown().size() == 1000);
  CHECK(diagnostics::asText(report, sources)
            .find("\n1400 further findings not shown (100 of a rule and 1,000 in all are)\n") !=
        std::string::npos);
}

TEST_CASE("what is waived takes no room from what is not") {
  source::SourceSet sources;
  const source::FileId file = sources.add("many.yaml", std::string(500, 'x'));
  Findings findings;
  for (std::uint32_t i = 0; i < 300; ++i)
    findings.add({.rule = "uncited"_rule,
                  .span = {file, i, i + 1},
                  .message = "seen",
                  .record = i < 200 ? "shape:a" : "shape:b"});
  Settings settings;
  settings.waivers = {{"uncited"_rule, {"shape:a"}, "why", {file, 0, 1}}};
  const Report report = diagnostics::makeReport(std::move(findings), settings, sources);
  CHECK(report.waived == 200);
  CHECK(report.warnings == 100);
  CHECK(report.shown().size() == 200);
  const std::string text = diagnostics::asText(report, sources);
  CHECK(text.find("not shown") == std::string::npos);
  CHECK(text.ends_with("\n100 warnings; 200 more waived\n"));
}

TEST_CASE("nothing found") {
  const World world;
  CHECK(diagnostics::asText(reportOf({}, world), world.sources) == "nothing found\n");
}
