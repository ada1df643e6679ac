#pragma once
#include <memory>
#include <string>
#include <string_view>
#include <unordered_set>
#include <vector>

#include "records/record.h"
#include "source/source_set.h"

namespace saggar::records {

struct ProseFile {
  source::FileId file = source::kNoFile;
  std::string path;  // "prose/shapes/jessamount.md"
};

// One of the guide's own page layouts, as text.
struct LayoutFile {
  std::string name;  // "mine" of layouts/mine.xml
  source::FileId file = source::kNoFile;
  bool unreadable = false;  // a finding has said so
};

// What reading hands to linking: every record as typed, in the order of file and place, and every text it came from.
struct ReadGuide {
  std::string folder;  // as given; findings name files relative to it
  source::SourceSet sources;
  std::vector<Record> records;
  Record guide;  // of guide.yaml; `file` unknown if there is none
  std::vector<ProseFile> prose;
  std::vector<LayoutFile> layouts;  // sorted by name
  // Ids of records that could not be read: a reference to one of them is not reported as missing.
  std::unordered_set<std::string_view> lostIds;
  // A whole file of records could not be read: then nothing at all is reported as missing.
  bool lostFiles = false;
  // Owns what the views of records point to.
  std::vector<std::shared_ptr<void>> keep;
};

}  // namespace saggar::records
