#pragma once
#include <cstddef>

#include "document/document.h"
#include "layout/layout.h"

// Invented ware for the tests of the PDF writer: a checklist as compose would make it. No maker, pattern or
// person of the real world is meant.
namespace saggar::sample {

// A4, the book face with its substitutes, the sizes of the built-in checklist nearly; made here because rendering
// comes before reading.
layout::PageLayout plainLayout();

// 63 rows in 5 groups, long and short cells, a legend, two notices, links inside and outside.
document::Document checklist(bool draft = false);

// One row of a list of any length, different for every number.
document::Row longListRow(std::size_t number);
document::Table longListHead();

}  // namespace saggar::sample
