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
  std::vector<std::string> layouts;  // layouts/*.xml
  bool hasGuideFile = false;
  bool lost = false;  // some file or folder that may hold records could not be looked into
};

// Walks the guide's folder. Folders that begin with a dot or hold a manifest of ours are not read; a link that leads
// nowhere, round in a ring or out of the guide, and a folder that cannot be listed, are findings. What can be reached
// by several names is read once, by its own.
FoundFiles findFiles(const source::Files& files, const std::string& folder, source::SourceSet& sources,
                     diagnostics::Findings& findings);

}  // namespace saggar::reading
