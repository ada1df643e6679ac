#pragma once
#include <functional>
#include <string>

#include "diagnostics/finding.h"
#include "records/read_guide.h"
#include "source/files.h"

namespace saggar::reading {

struct ReadOptions {
  unsigned threads = 0;  // 0: as many as the machine has cores
  // Called now and then from the calling thread with how much has been read; may be empty.
  std::function<void(std::size_t done, std::size_t all)> progress;
};

// Reads the whole guide in `folder`: guide.yaml, every other YAML file, every prose file, the guide's own layouts (as text).
// Never fails: whatever
// cannot be read is a finding at its place and costs nothing else. The result does not depend on the order of folder
// entries or on threads.
records::ReadGuide readGuide(const source::Files& files, const std::string& folder,
                             diagnostics::Findings& findings, const ReadOptions& options = {});

// One text of records, for tests and for `saggar why`'s examples.
void readRecords(records::ReadGuide& guide, std::string path, std::string text,
                 diagnostics::Findings& findings);

}  // namespace saggar::reading
