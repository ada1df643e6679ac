#pragma once
#include <functional>

#include "compose/words.h"

// Prose with its links resolved: references become names and links, citations bracketed notes.
namespace saggar::compose {

// The Markdown of a record's field, resolved. Queries (blocks) in it are left out: they belong into prose files.
Blocks resolvedProse(const Words& words, const Places* places, const PublishedRecord& owner, const records::Value& value);

// Resolves references, citations and index entries in place. A run of citations becomes one bracketed note:
// " (Decoration Books 2-6, vol. 3; Price List No. 9, p. 2)". An index entry keeps its words and hands its heading and
// a fresh anchor to `indexed`, if that is set.
using Indexed = std::function<std::string(const std::string& heading)>;  // gives the anchor to put there
void resolveInlines(Inlines& inlines, const Words& words, const Places* places, const Indexed& indexed = {});
void resolveBlocks(Blocks& blocks, const Words& words, const Places* places, const Indexed& indexed = {});

}  // namespace saggar::compose
