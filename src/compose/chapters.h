#pragma once
#include "compose/lists.h"

// The chapters of a guide, each from what it is made of.
namespace saggar::compose {

// A file of prose with its blocks filled in. `intro` is put behind the first heading.
Blocks proseBlocks(Page& page, const std::string& path, Blocks intro, diagnostics::Findings& findings);

// A chapter made from a record: its facts, its prose, and whatever the prose does not list itself.
Blocks recordChapter(Page& page, diagnostics::Findings& findings);

// A block as a chapter.
Blocks generatedChapter(Page& page);

// One of the lists of what has no home elsewhere.
Blocks listsChapter(Page& page);

// What has its home on this page and was not described: so that every reference leads somewhere.
Blocks leftOver(Page& page);

// The first page: title, authors, edition, and the chapters in their divisions.
Composed contentsPage(const Book& book);

}  // namespace saggar::compose
