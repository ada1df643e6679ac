// The object that `check --format json` prints: which keys there are, in which order, and when they are left out.
#include <doctest/doctest.h>

#include <nlohmann/json.hpp>

#include "diagnostics/report.h"

using namespace saggar;
using diagnostics::Finding;

namespace {

struct World {
  source::SourceSet sources;
  source::FileId file =
      sources.add("shapes/ivory.yaml", "- shape: linnavere\n  name: Linnavere é\n  introduced: 1936\n");

  std::string json(std::vector<Finding> list, const diagnostics::Settings& settings = {}) const {
    diagnostics::Findings findings;
    for (Finding& one : list) findings.add(std::move(one));
    return diagnostics::asJson(diagnostics::makeReport(std::move(findings), settings, sources), sources);
  }
};

}  // namespace

TEST_CASE("every key in its order") {
  const World world;
  Finding finding{.rule = "date-before-shape"_rule,
                  .span = {world.file, 54, 58},
                  .message = "dated \"too\" early",
                  .hint = "look again",
                  .record = "treatment:lv-03",
                  .field = "introduced",
                  .related = {{{world.file, 9, 18}, "the shape stands here"}},
                  .facts = {{"shape:linnavere", "introduced", "1936", "documented", {world.file, 54, 58}},
                            {"treatment:lv-03", "introduced", "1930", {}, {world.file, 0, 1}}},
                  .shortByDays = 2192};
  diagnostics::Settings settings;
  CHECK(
      world.json({finding}) ==
      R"({"findings":[{"rule":"date-before-shape","severity":"error","record":"treatment:lv-03","field":"introduced",)"
      R"("file":"shapes/ivory.yaml","line":3,"column":15,"end_line":3,"end_column":19,)"
      R"("message":"dated \"too\" early","hint":"look again",)"
      R"("related":[{"file":"shapes/ivory.yaml","line":1,"column":10,"message":"the shape stands here"}],)"
      R"("facts":[{"record":"shape:linnavere","field":"introduced","value":"1936","standing":"documented",)"
      R"("file":"shapes/ivory.yaml","line":3,"column":15},)"
      R"({"record":"treatment:lv-03","field":"introduced","value":"1930","file":"shapes/ivory.yaml","line":1,"column":1}],)"
      R"("short_by_days":2192,"waived":null}],"doubts":[],"counts":{"error":1,"warning":0,"note":0,"waived":0},"not_shown":0})"
      "\n");

  finding.records = {"treatment:lv-03", "shape:linnavere"};
  settings.waivers = {
      {"date-before-shape"_rule, {"shape:linnavere", "treatment:lv-03"}, "a trial", {world.file, 19, 20}}};
  const auto parsed = nlohmann::json::parse(world.json({finding}, settings));
  CHECK(parsed["findings"][0]["waived"] ==
        nlohmann::json{{"because", "a trial"}, {"file", "shapes/ivory.yaml"}, {"line", 2}});
  CHECK(parsed["counts"] == nlohmann::json{{"error", 0}, {"warning", 0}, {"note", 0}, {"waived", 1}});
}

TEST_CASE("what does not apply is left out") {
  const World world;
  const Finding finding{.rule = "prose-unused"_rule, .span = {world.file, 0, 0}, .message = "seen"};
  CHECK(
      world.json({finding}) ==
      R"({"findings":[{"rule":"prose-unused","severity":"note","file":"shapes/ivory.yaml","line":1,"column":1,)"
      R"("end_line":1,"end_column":1,"message":"seen","related":[],"facts":[],"waived":null}],)"
      R"("doubts":[],"counts":{"error":0,"warning":0,"note":1,"waived":0},"not_shown":0})"
      "\n");
  const Finding nowhere{.rule = "prose-unused"_rule, .span = {}, .message = "seen"};
  CHECK(world.json({nowhere}).find("\"file\"") == std::string::npos);
  CHECK(world.json({}) ==
        R"({"findings":[],"doubts":[],"counts":{"error":0,"warning":0,"note":0,"waived":0},"not_shown":0})"
        "\n");
}

TEST_CASE("columns are counted in characters, not in bytes") {
  const World world;
  const Finding finding{.rule = "uncited"_rule, .span = {world.file, 27, 39}, .message = "seen"};
  const auto parsed = nlohmann::json::parse(world.json({finding}));
  CHECK(parsed["findings"][0]["column"] == 9);
  CHECK(parsed["findings"][0]["end_line"] == 2);
  CHECK(parsed["findings"][0]["end_column"] == 20);
}

TEST_CASE("a hundred of a rule are listed, and how many are not") {
  const World world;
  std::vector<Finding> list;
  for (std::uint32_t i = 0; i < 120; ++i)
    list.push_back(
        {.rule = "uncited"_rule, .span = {world.file, 0, 1}, .message = "seen " + std::to_string(1000 + i)});
  const auto parsed = nlohmann::json::parse(world.json(list));
  CHECK(parsed["findings"].size() == 100);
  CHECK(parsed["counts"]["warning"] == 120);
  CHECK(parsed["not_shown"] == 20);
}

TEST_CASE("whatever bytes a message holds, the output is JSON in UTF-8") {
  const World world;
  const Finding finding{.rule = "uncited"_rule, .span = {world.file, 0, 1}, .message = "a\xFF\x1b\n\"b"};
  const std::string json = world.json({finding});
  CHECK(json.find('\x1b') == std::string::npos);
  CHECK(json.find('\n') == json.size() - 1);
  CHECK(nlohmann::json::parse(json)["findings"][0]["message"] == "a\uFFFD\x1b\n\"b");
}
