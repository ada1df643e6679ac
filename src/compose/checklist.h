#pragma once
#include <functional>
#include <string>
#include <vector>

#include "compose/materials.h"

namespace saggar::compose {

// A checklist as it is set: the head (title, legend, "not a complete list", caution) and the table's columns first, then
// row by row, so that 60,000 pieces need not be held at once.
struct ChecklistHead {
  Document document;        // title, note and notices ("legend", "incomplete", "caution"); without the table
  document::Table columns;  // head and alignment; no widths, no rows
  bool hasRows = false;     // nothing on record belongs on it: then there is no table
};

struct ChecklistSink {
  std::function<void(const ChecklistHead&)> begin;
  std::function<void(document::Row)> row;
};

// What every sheet has: the guide's title and edition in its foot, its own title at its head.
void setUpSheet(Document& document, const Materials& materials, std::string file, std::string title);

// Composes one checklist. `madeFrom` receives the records (as indices, sorted, each once).
void composeChecklist(const Materials& materials, RecordIndex checklist, const ChecklistSink& sink,
                      std::vector<RecordIndex>& madeFrom);

// The layout it asks for: its own, the guide's, or the built-in one.
std::string layoutNameOf(const Materials& materials, RecordIndex checklist);

}  // namespace saggar::compose
