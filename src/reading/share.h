#pragma once
#include <string_view>
#include <vector>

#include "base/arena.h"
#include "diagnostics/finding.h"
#include "reading/date_pool.h"
#include "reading/pieces.h"
#include "records/record.h"
#include "source/source_set.h"

namespace saggar::reading {

// What one thread needs and what its records' views point to.
struct Workshop {
  base::Arena kept;
  base::Arena scratch;
  DatePool dates;
};

// A run of pieces of one file, read by one thread; its results are put together in order.
struct Share {
  source::FileId file = source::kNoFile;
  bool guideFile = false;
  std::vector<CutPiece> pieces;
  std::vector<std::uint32_t> unfit;  // where pieces begin that are not plain UTF-8: their findings are made
  std::vector<records::Record> records;
  std::vector<std::string_view> lostIds;
  diagnostics::Findings findings;
};

// Reads one share with one thread's tools. Nothing that the author typed stops it.
void readShare(Share& share, const source::SourceSet& sources, Workshop& shop);

}  // namespace saggar::reading
