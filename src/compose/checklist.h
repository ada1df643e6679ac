#pragma once
#include <functional>

#include "compose/materials.h"
#include "layout/layout.h"

namespace saggar::compose {

// A checklist as it is set: the head (title, how to use it, legend, caution, "not a complete list") and the table's
// columns first, then row by row, so that 60,000 pieces need not be held at once.
struct ChecklistHead {
  Document document;       // title, notices; without the rows
  document::Table columns; // head, alignment, widths; no rows
};

struct ChecklistSink {
  std::function<void(const ChecklistHead&)> begin;
  std::function<void(document::Row)> row;
};

// Composes one checklist. `madeFrom` receives the records (as indices, sorted, each once).
void composeChecklist(const Materials& materials, RecordIndex checklist, const ChecklistSink& sink,
                      std::vector<RecordIndex>& madeFrom);

// The layout it asks for: its own, the guide's, or the built-in one.
std::string layoutNameOf(const Materials& materials, RecordIndex checklist);

}  // namespace saggar::compose
