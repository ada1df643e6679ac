#pragma once
#include "compose/page.h"

// The index: numbers by prefix and value; then names, other names, motifs, words and what authors marked, under their
// letters.
namespace saggar::compose {

Blocks indexChapter(Page& page);

}  // namespace saggar::compose
