#pragma once
#include "compose/page.h"

namespace saggar::compose {

// The index: numbers by prefix and value, then every heading by letter, with links. Composed after all other chapters.
Blocks indexChapter(Page& page);

// Its first section, which goes on in files of its own where the numbers are many (index_numbers.cpp).
void indexNumbers(Page& page, Blocks& out);

}  // namespace saggar::compose
