// Every explanation's example is run and must give its rule and no other finding of weight; put right, it must give
// none; waived, it must be silent.
//
// Fences of an explanation: ```yaml is records.yaml, ```yaml guide is guide.yaml, ```markdown is prose/page.md, ```bytes
// NAME a file with \xNN escapes; with `fixed` behind them they replace the file of the example; the last ```yaml fence
// that begins with `waivers:` goes into guide.yaml.
#include <doctest/doctest.h>

#include <map>

#include "base/text.h"
#include "commands/pipeline.h"
#include "diagnostics/rules.h"

using namespace saggar;

namespace {

constexpr std::size_t kExplained = 9;  // explanations written so far: raise it with each

struct Explained {
  std::map<std::string, std::string> example;
  std::map<std::string, std::string> fixed;
  std::string waiver;
};

std::string unescaped(std::string_view text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '\\' && i + 3 < text.size() && text[i + 1] == 'x') {
      out += static_cast<char>(std::stoi(std::string(text.substr(i + 2, 2)), nullptr, 16));
      i += 3;
    } else {
      out += text[i];
    }
  }
  return out;
}

Explained readExplanation(std::string_view text) {
  Explained out;
  std::string body;
  std::vector<std::string> info;
  bool inside = false;
  std::string fence;
  for (std::string_view line : base::split(text, '\n')) {
    if (!inside && line.starts_with("```")) {
      inside = true;
      fence = std::string(line.substr(0, line.find_first_not_of('`')));
      info.clear();
      for (std::string_view word : base::split(line.substr(fence.size()), ' '))
        if (!word.empty()) info.emplace_back(word);
      body.clear();
    } else if (inside && line == fence) {
      inside = false;
      if (info.empty()) continue;
      const bool fixed = std::find(info.begin(), info.end(), "fixed") != info.end();
      const bool guide = std::find(info.begin(), info.end(), "guide") != info.end();
      if (info[0] == "yaml" && body.starts_with("waivers:")) {
        out.waiver = body;
        continue;
      }
      std::string name;
      if (info[0] == "yaml") name = guide ? "guide.yaml" : "records.yaml";
      if (info[0] == "markdown") name = "prose/page.md";
      if (info[0] == "bytes" && info.size() > 1) {
        name = info[1];
        body = unescaped(body);
      }
      if (!name.empty()) (fixed ? out.fixed : out.example)[name] += body;
    } else if (inside) {
      body.append(line) += '\n';
    }
  }
  return out;
}

diagnostics::Report check(std::map<std::string, std::string> files, const std::string& waiver) {
  source::MemoryFiles world;
  if (!files.contains("guide.yaml")) {
    files["guide.yaml"] = "guide: An example\n";
    if (files.contains("prose/page.md")) files["guide.yaml"] += "contents: [prose/page.md]\n";
  }
  files["guide.yaml"] += waiver;
  for (const auto& [name, bytes] : files) world.put("guide/" + name, bytes);
  const commands::Environment environment{
      .files = world, .currentFolder = "", .out = [](std::string_view) {}, .err = [](std::string_view) {}, .readLine = [](std::string&) { return false; }};
  return std::move(commands::runPipeline(environment, "guide")->report);
}

std::string listed(const diagnostics::Report& report) {
  std::string out;
  for (const diagnostics::Finding& finding : report.findings) out += std::string(finding.rule.id()) + ": " + finding.message + '\n';
  return out;
}

}  // namespace

TEST_CASE("an explanation's example gives its rule and no other, mended nothing, waived nothing that counts") {
  std::size_t explainedRules = 0;
  for (const diagnostics::RuleInfo& info : diagnostics::kRules) {
    CAPTURE(info.id);
    const auto rule = diagnostics::ruleNamed(info.id);
    REQUIRE(rule);
    const std::string_view text = diagnostics::explanation(*rule);
    if (text.empty()) continue;  // `saggar why` says what the rule finds, and no more
    ++explainedRules;
    CHECK(text.find("## Why it matters") != std::string_view::npos);
    CHECK(text.find("## How to put it right") != std::string_view::npos);
    const Explained explained = readExplanation(text);
    REQUIRE_FALSE(explained.example.empty());
    const diagnostics::Report found = check(explained.example, {});
    CHECK_MESSAGE(found.findings.size() >= 1, "the example gives no finding");
    for (const diagnostics::Finding& finding : found.findings)
      CHECK_MESSAGE(finding.rule.id() == info.id, "the example gives also:\n" << listed(found));
    REQUIRE_FALSE(explained.fixed.empty());
    auto mended = explained.example;
    for (const auto& [name, bytes] : explained.fixed) mended[name] = bytes;
    const diagnostics::Report after = check(mended, {});
    CHECK_MESSAGE(after.findings.empty(), "put right, it still gives:\n" << listed(after));
    if (!info.waivable) continue;
    REQUIRE_MESSAGE(!explained.waiver.empty(), "no waiver is shown");
    const diagnostics::Report waived = check(explained.example, explained.waiver);
    CHECK_MESSAGE(waived.errors + waived.warnings + waived.notes == 0, "waived, it still gives:\n" << listed(waived));
  }
  CHECK(explainedRules >= kExplained);
}
