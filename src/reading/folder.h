#pragma once
#include <string>
#include <vector>

#include "diagnostics/finding.h"
#include "source/files.h"
#include "source/source_set.h"

namespace saggar::reading {

struct FoundFiles {
  std::vector<std::string> records;  // *.yaml, *.yml but guide.yaml; relative to the guide, sorted
  std::vector<std::string> prose;    // prose/**/*.md
  bool hasGuideFile = false;
};

// Walks the guide's folder. Folders that begin with a dot or hold a manifest of ours are not read; a link that leads
// nowhere, round in a ring or out of the guide, and a folder that cannot be listed, are findings.
FoundFiles findFiles(const source::Files& files, const std::string& folder, source::SourceSet& sources,
                     diagnostics::Findings& findings);

}  // namespace saggar::reading
