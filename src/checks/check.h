#pragma once
#include <span>
#include <string_view>

#include "choosing/choose.h"
#include "choosing/claim_test.h"
#include "choosing/code_readings.h"
#include "chronology/chronology.h"
#include "diagnostics/finding.h"
#include "evidence/evidence.h"
#include "source/files.h"

// Rules look, nothing is changed. One rule (or two that share their look), one file, one public function, named in the
// explicit list of checks.cpp.
namespace saggar::checks {

struct Context {
  const linking::Collection& collection;
  const choosing::Chooser& chooser;
  const choosing::CodeReadings& codes;
  const source::Files& files;  // for the files of photos
  const evidence::Weights& weights;
  const chronology::Chronology& chronology;
  const choosing::ClaimResults& claims;
};

struct Check {
  std::span<const diagnostics::Rule> rules;  // what it may find
  void (*run)(const Context&, diagnostics::Findings&);
};

std::span<const Check> allChecks();

// Runs all checks (or those that may find one of `only`); in parallel where there is enough to do, with findings in
// the order of the list.
void runChecks(const Context& context, std::span<const diagnostics::Rule> only,
               diagnostics::Findings& findings);

}  // namespace saggar::checks
