#pragma once
#include "linking/collection.h"
#include "reading/markdown.h"

namespace saggar::linking {

// Prose with the record language's kinds and blocks.
reading::MarkdownResult parseProse(std::string_view text, const reading::TextMap& places);

// The Markdown of a record's field (`value` of type prose, or a note of evidence), with the places of its links.
reading::MarkdownResult parseProse(const Collection& collection, const Record& record,
                                   const records::Value& value);

// A picture's path as prose gives it ("../images/blue%20rim.png"), from the guide's folder; empty if it is no picture of
// the guide. Pictures stand in images/ there, from wherever an author points to them.
std::string picturePath(std::string_view proseFile, std::string_view address);

}  // namespace saggar::linking
