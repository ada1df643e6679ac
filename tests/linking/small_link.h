#pragma once
#include <doctest/doctest.h>

#include <map>
#include <string>

#include "../found_in_words.h"
#include "linking/link.h"
#include "reading/guide_reader.h"

// A guide of a few lines in memory, read and linked. All data is invented.
namespace saggar::linking::testing {

using FilesOfGuide =
    std::map<std::string, std::string>;  // names inside the guide; guide.yaml is added where missing

struct Linked {
  explicit Linked(FilesOfGuide files) {
    source::MemoryFiles world;
    files.emplace("guide.yaml", "guide: An example\n");
    for (const auto& [name, bytes] : files) world.put("guide/" + name, bytes);
    diagnostics::Findings findings;
    collection = link(reading::readGuide(world, "guide", findings), findings, rules);
    report = diagnostics::makeReport(std::move(findings), rules, collection.sources());
    found = diagnostics::testing::foundInWords(report, collection.sources());
  }
  explicit Linked(const std::string& records, const std::string& guide = "guide: An example\n")
      : Linked(FilesOfGuide{{"records.yaml", records}, {"guide.yaml", guide}}) {}

  const diagnostics::Finding& one() const {
    INFO(found);
    REQUIRE(report.findings.size() == 1);
    return report.findings[0];
  }

  Collection collection;
  diagnostics::Settings rules;
  diagnostics::Report report;
  std::string found;
};

}  // namespace saggar::linking::testing
