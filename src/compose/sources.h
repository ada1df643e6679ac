#pragma once
#include "compose/page.h"

// The bibliography: every source with what it is, who holds it, what it is worth and where it is cited.
namespace saggar::compose {

// "An original record, with primary information": what a source is worth as evidence, by its type unless the author
// says otherwise. After the Board for Certification of Genealogists, Genealogy Standards, 2nd ed.
struct Grade {
  std::string record;       // "original", "derivative", "authored"
  std::string information;  // "primary", "secondary", "undetermined"
  bool own = false;         // the author's, not the type's
};
Grade gradeOf(const PublishedRecord& source);

// "price list", "decal supplier's sheet"
std::string typeInWords(std::string_view type);

// "By Hesper Dunnavick, 1974; a book. An authored record, with secondary information." For lists in prose.
Inlines sourceInBrief(const Page& page, RecordIndex source);

// The whole chapter's body.
Blocks sourcesChapter(Page& page);

}  // namespace saggar::compose
