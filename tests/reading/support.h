#pragma once
#include <doctest/doctest.h>

#include <string>
#include <string_view>

#include "diagnostics/report.h"
#include "reading/guide_reader.h"

// Reads one text of records and tells what came of it.
namespace reading_test {

using namespace saggar;

struct Read {
  records::ReadGuide guide;
  diagnostics::Findings findings;

  const std::vector<diagnostics::Finding>& all() const { return findings.all(); }
  source::Place place(std::size_t i) const { return guide.sources.place(all()[i].span); }
  std::string_view text(const records::Record& record, records::Extent extent) const {
    return guide.sources.text(record.span(extent));
  }
  std::string_view text(const records::Record& record, const records::Value& value) const {
    return text(record, value.place);
  }
  const records::Record* find(records::Kind kind, std::string_view id) const {
    for (const records::Record& record : guide.records)
      if (record.kind == kind && record.id == id) return &record;
    return nullptr;
  }
  // "line:column rule" of each finding, in order, one a line.
  std::string places() const {
    std::string out;
    for (std::size_t i = 0; i < all().size(); ++i) {
      const source::Place at = place(i);
      out += std::to_string(at.line) + ':' + std::to_string(at.column) + ' ' +
             std::string(all()[i].rule.id()) + '\n';
    }
    return out;
  }
  std::string report() const {
    diagnostics::Findings copy;
    for (const diagnostics::Finding& finding : all()) copy.add(finding);
    return diagnostics::asText(diagnostics::makeReport(std::move(copy), {}, guide.sources), guide.sources);
  }
};

inline Read readText(std::string text, std::string path = "records.yaml") {
  Read read;
  reading::readRecords(read.guide, std::move(path), std::move(text), read.findings);
  return read;
}

// How every finding must be worded: what was seen, lower case, no full stop, and what to type.
inline void checkWording(const diagnostics::Finding& finding) {
  INFO(finding.message << " / " << finding.hint);
  REQUIRE(!finding.message.empty());
  CHECK(!finding.hint.empty());
  for (const std::string& words : {finding.message, finding.hint}) {
    if (words.empty()) continue;
    CHECK_FALSE((words[0] >= 'A' && words[0] <= 'Z'));
    CHECK_FALSE(words.ends_with('.'));
  }
}

}  // namespace reading_test
