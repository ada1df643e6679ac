#pragma once
#include <doctest/doctest.h>

#include <algorithm>
#include <map>
#include <string>
#include <vector>

#include "../found_in_words.h"
#include "checks/check.h"
#include "checks/sets_to_doubt.h"
#include "choosing/choose.h"
#include "choosing/code_readings.h"
#include "linking/link.h"
#include "reading/guide_reader.h"

// A guide of a few lines in memory, read, linked and gone over by every check there is, or by one alone. All data is
// invented.
namespace saggar::checks::testing {

using FilesOfGuide =
    std::map<std::string, std::string>;  // names inside the guide; guide.yaml is added where missing

class Small {
 public:
  explicit Small(FilesOfGuide files, std::vector<diagnostics::Rule> only = {}) {
    source::MemoryFiles world;
    files.emplace("guide.yaml", "guide: An example\n");
    for (auto& [name, bytes] : files) world.put("guide/" + name, bytes);
    diagnostics::Findings findings;
    diagnostics::Settings settings;
    settings.only = only;
    const linking::Collection collection =
        linking::link(reading::readGuide(world, "guide", findings), findings, settings);
    const evidence::Weights weights(collection);
    const choosing::OwnBounds bounds(collection, dates::Reading::Plain);
    const choosing::Chooser chooser(collection, bounds);
    const choosing::CodeReadings codes = choosing::CodeReadings::read(chooser, findings);
    const auto chronology = chronology::Chronology::reason(collection, weights, *codes.days());
    choosing::checkConditions(collection, findings);
    const auto claims = choosing::ClaimResults::of(collection, weights, chronology);
    const Context context{collection, chooser, codes, world, weights, chronology, claims};
    runChecks(context, only, findings);
    report = diagnostics::makeReport(std::move(findings), settings, collection.sources());
    report.doubts = setsToDoubt(context);
    for (const auto& set : report.doubts) {
      for (std::size_t i = 0; i < set.size(); ++i)
        doubts += (i == 0 ? "" : ", ") + set[i].record + ' ' + set[i].field;
      doubts += '\n';
    }
    text = diagnostics::asText(report, collection.sources());
    found = diagnostics::testing::foundInWords(report, collection.sources());
    for (const diagnostics::Finding& one : report.findings) messages += one.message + '\n';
  }
  // The records alone, in records.yaml.
  explicit Small(std::string records, std::vector<diagnostics::Rule> only = {})
      : Small(FilesOfGuide{{"records.yaml", std::move(records)}}, std::move(only)) {}

  const diagnostics::Finding& one() const {
    INFO(found);
    REQUIRE(report.findings.size() == 1);
    return report.findings[0];
  }

  diagnostics::Report report;
  std::string found;  // "4:12 uncited" of each finding, with the file in front where it is not records.yaml
  std::string messages;  // one a line
  std::string doubts;    // "shape:s introduced, treatment:a shape" of each set, one a line
  std::string text;      // as `saggar check` prints it
};

// Caught among all checks, with no other finding; caught alone; and by no other check alone.
inline void caught(const FilesOfGuide& bad, const std::string& place, const std::string& rule) {
  INFO(place << ' ' << rule);
  CHECK(Small(bad).found == place + ' ' + rule);
  const diagnostics::Rule wanted = *diagnostics::ruleNamed(rule);
  CHECK(Small(bad, {wanted}).found == place + ' ' + rule);
  std::vector<diagnostics::Rule> others;
  for (std::size_t i = 0; i < diagnostics::kRules.size(); ++i)
    if (i != wanted.index) others.push_back(diagnostics::Rule{static_cast<std::uint8_t>(i)});
  CHECK(Small(bad, others).found == "");
}
inline void caught(const std::string& bad, const std::string& place, const std::string& rule) {
  caught(FilesOfGuide{{"records.yaml", bad}}, place, rule);
}

// No check has anything to say.
inline void silent(const FilesOfGuide& sound) {
  CHECK(Small(sound).found == "");
}
inline void silent(const std::string& sound) {
  CHECK(Small(sound).found == "");
}

// A source that wants no locator, for records that need one. It stands behind them.
inline const std::string kBooks =
    "- {source: books, title: Order books, type: trade-notice, date: 1889/1968}\n";

}  // namespace saggar::checks::testing
