#pragma once
#include <set>
#include <string>
#include <vector>

#include "choosing/choose.h"
#include "choosing/claim_test.h"
#include "choosing/code_readings.h"
#include "chronology/chronology.h"
#include "document/document.h"
#include "evidence/evidence.h"
#include "linking/published.h"

namespace saggar::compose {

using document::Block;
using document::Blocks;
using document::Document;
using document::Inline;
using document::Inlines;
using document::Target;
using linking::Published;
using linking::PublishedRecord;
using linking::RecordIndex;
using records::Kind;

// What every composer works from. It never sees a private field: facts of the chronology and what is weighed are of
// fields with dates and evidence, none of which is private.
struct Materials {
  const Published& records;
  const choosing::Chooser& chooser;
  const choosing::CodeReadings& codes;
  const evidence::Weights& weights;
  const chronology::Chronology& chronology;
  const choosing::ClaimResults& claims;
  bool draft = false;
};

// A document as it is made, with the records it was made from (for the manifest).
struct Composed {
  Document document;
  std::set<std::string> madeFrom;   // "kind:id"
  std::vector<std::string> images;  // picture files it shows, relative to the guide
};

}  // namespace saggar::compose
