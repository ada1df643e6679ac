#pragma once
#include "linking/collection.h"
#include "reading/markdown.h"

namespace saggar::linking {

// Prose with the record language's kinds and blocks.
reading::MarkdownResult parseProse(std::string_view text, const reading::TextMap& places);

// The Markdown of a record's field (`value` of type prose, or a note of evidence), with the places of its links.
reading::MarkdownResult parseProse(const Collection& collection, const Record& record,
                                   const records::Value& value);

}  // namespace saggar::linking
