#pragma once
#include <string>

#include "diagnostics/report.h"

namespace saggar::diagnostics::testing {

// "4:12 uncited" of each finding, a line each, with the file in front where it is not records.yaml.
inline std::string foundInWords(const Report& report, const source::SourceSet& sources) {
  std::string found;
  for (const Finding& one : report.findings) {
    const source::Place place = sources.place(one.span);
    found += (found.empty() ? "" : "\n") +
             (place.path == "records.yaml" ? std::string() : std::string(place.path) + ':') +
             std::to_string(place.line) + ':' + std::to_string(place.column) + ' ' +
             std::string(one.rule.id()) + (one.waived ? " waived" : "");
  }
  return found;
}

}  // namespace saggar::diagnostics::testing
