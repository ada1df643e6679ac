#pragma once
#include <string>

#include "document/document.h"

// Markdown (CommonMark with GFM's tables, strike-through and footnotes) of one file of a publication: text
// that reads well as it stands, looks right in any viewer, and parses back to the tree it came from.
//
// - A paragraph keeps the author's own line ends and gets no others, so that a changed word changes one line.
// - What can be linked to has `<a id="name"></a>` in front of it, the only HTML that is written: viewers
//   disagree on the names they give headings. Links between files are relative,
//   "jessamount.md#treatment-jm-045".
// - A link to an address that may not be passed on (document/address.h) is written as its words.
// - A table without a head has an empty one, a group's head is a row with bold words in its first cell, a
//   forced line end inside a cell a semicolon. Numbers and names of columns are not padded.
// - A figure is its picture with the caption on the next line; a notice a quotation that begins with its `info`
//   in bold; a definition its word in bold, a colon and the meaning; a tick box the sign ☐; footnotes stand at
//   the end.
// - Index entries are their words. References, citations and queries that nobody resolved are written as their
//   author typed them.
// - `title` becomes the first heading unless the blocks have one of level 1; a draft says so in its first line.
//   `language`, `authors` and `edition` are not written.
namespace saggar::render {

// Never fails; malformed UTF-8 becomes U+FFFD. Ends with a line end unless the document is empty.
std::string renderMarkdown(const document::Document& document);

}  // namespace saggar::render
