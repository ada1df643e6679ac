#pragma once
#include <array>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "diagnostics/finding.h"
#include "source/source_set.h"

// From findings to what a person or a program reads: severities as the guide sets them, waivers, order, counts.
namespace saggar::diagnostics {

// A waiver fits a finding of its rule about exactly these records, or one that stands in this file at no record.
struct Waiver {
  Rule rule;
  std::vector<std::string> records;  // "kind:id", or one waivedFile
  std::string because;
  source::Span span;
};

// How a waiver names a file.
std::string waivedFile(std::string_view path);

struct Settings {
  std::array<Severity, kRules.size()> severity = [] {
    std::array<Severity, kRules.size()> own{};
    for (std::size_t i = 0; i < own.size(); ++i) own[i] = kRules[i].severity;
    return own;
  }();
  std::array<bool, kRules.size()> changed{};  // set by the guide
  std::vector<Waiver> waivers;
  std::vector<Rule> only;  // empty: all
};

struct Report {
  std::vector<Finding> findings;  // sorted by file, place, rule; without those a guide turned off
  std::size_t errors = 0;
  std::size_t warnings = 0;
  std::size_t notes = 0;
  std::size_t waived = 0;
  // Sets of facts that would clear every contradiction of dates if they were doubted, likeliest first.
  std::vector<std::vector<FactNote>> doubts;

  // As SEMANTICS: the first 100 of a rule and 1,000 in all are printed, of those that are waived as many again; counts
  // are those of all.
  std::vector<const Finding*> shown() const;
};

// Applies severities and waivers (an unused waiver becomes a finding, unless `only` leaves its rule out), merges
// what is the same finding at the same place, sorts and counts.
Report makeReport(Findings findings, const Settings& settings, const source::SourceSet& sources);

struct TextStyle {
  bool colour = false;
};

// GNU form with the source line, a caret and the hint; ends with a line of counts.
std::string asText(const Report& report, const source::SourceSet& sources, TextStyle style = {});

// One finding in that form (for other commands and tests).
std::string asText(const Finding& finding, const source::SourceSet& sources, TextStyle style = {});

// The `check` object of COMMANDS, one line and a line end.
std::string asJson(const Report& report, const source::SourceSet& sources);

// "2 errors, 1 warning and 3 notes; 1 more waived": what is waived is in none of the other counts. "nothing found" when
// all are zero, then "; 1 finding waived".
std::string countsInWords(const Report& report);

}  // namespace saggar::diagnostics
