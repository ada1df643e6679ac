#pragma once
#include <doctest/doctest.h>

#include <memory>
#include <string>
#include <vector>

#include "../choosing/tollivane.h"
#include "checks/check.h"
#include "choosing/choose.h"
#include "choosing/code_readings.h"
#include "linking/link.h"
#include "reading/guide_reader.h"

// A small guide with something planted in a file of its own, gone over by every check there is. All data is invented.
namespace saggar::checks::testing {

class Planted {
 public:
  explicit Planted(std::string planted, std::string guideYaml = {},
                   std::string base = choosing::testing::kTollivane) {
    records::ReadGuide read;
    diagnostics::Findings findings;
    diagnostics::Settings settings;
    if (!guideYaml.empty()) reading::readRecords(read, "guide.yaml", std::move(guideYaml), findings);
    reading::readRecords(read, "base.yaml", std::move(base), findings);
    reading::readRecords(read, "planted.yaml", std::move(planted), findings);
    const linking::Collection collection = linking::link(std::move(read), findings, settings);
    const evidence::Weights weights(collection);
    const choosing::OwnBounds bounds(collection, dates::Reading::Plain);
    const choosing::Chooser chooser(collection, bounds);
    const choosing::CodeReadings codes = choosing::CodeReadings::read(chooser, findings);
    choosing::checkConditions(collection, findings);
    const source::MemoryFiles files;
    const auto chronology = chronology::Chronology::reason(collection, weights, *codes.days());
    const auto claims = choosing::ClaimResults::of(collection, weights, chronology);
    runChecks({collection, chooser, codes, files, weights, chronology, claims}, {}, findings);
    report = diagnostics::makeReport(std::move(findings), settings, collection.sources());
    for (const diagnostics::Finding& one : report.findings) {
      const source::Place place = collection.sources().place(one.span);
      if (!found.empty()) found += '\n';
      found += std::string(place.path) + ':' + std::to_string(place.line) + ' ' +
               std::string(toString(one.weight())) + ' ' + std::string(one.rule.id()) +
               (one.waived ? " waived" : "");
      messages += one.message + '\n';
    }
  }

  const diagnostics::Finding& only() const {
    REQUIRE(report.findings.size() == 1);
    return report.findings[0];
  }

  diagnostics::Report report;
  std::string found;     // "planted.yaml:4 error code-disagrees", one a line
  std::string messages;  // one a line
};

// A treatment as sound as those of the small guide, but for what it is given. Its code stands on line 4.
inline std::string decoration(const std::string& id, const std::string& shape, const std::string& motif,
                              const std::string& code, const std::string& look,
                              const std::string& introduced) {
  return "- treatment: " + id + "\n  shape: " + shape + "\n  motif: " + motif + "\n  code: " + code +
         "\n  look: " + look + "\n  introduced: " + introduced + "\n  cite:\n    - books: leaf of " + id +
         "\n";
}

}  // namespace saggar::checks::testing
