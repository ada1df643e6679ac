#pragma once
#include "compose/page.h"

// The bibliography: every source with what it is, who holds it, what it is worth and where it is cited.
namespace saggar::compose {

// "By Hesper Dunnavick, 1974; a book. An authored record, with secondary information." For lists in prose.
Inlines sourceInBrief(const Page& page, RecordIndex source);

// The whole chapter's body.
Blocks sourcesChapter(Page& page);

}  // namespace saggar::compose
