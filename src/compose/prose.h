#pragma once
#include <functional>

#include "compose/words.h"
#include "linking/prose.h"

// Prose with its links resolved: references become names and links, citations bracketed notes, links between files of
// prose links between chapters.
namespace saggar::compose {

// Where prose stands, for what in it depends on that.
struct ProseSetting {
  std::string_view path;  // the file it stands in; empty for a record's field
  std::function<std::string(const std::string& heading)>
      indexed;                                           // gives the anchor to put at an index entry
  std::function<void(const std::string& path)> picture;  // told of each picture file that is shown
  bool brief = false;                                    // sources by their short names
};

// The Markdown of a record's field, resolved. Queries (blocks) in it are left out: they belong into prose files.
Blocks resolvedProse(const Words& words, const PublishedRecord& owner, const records::Value& value,
                     const ProseSetting& setting = {});

// Resolves in place.
// - A reference is the record's name or the author's words, linked where the record is described.
// - A citation after a preposition or the like, or at the very beginning, is a word of its sentence: the words, linked.
// - A run of other citations becomes one bracketed note: " (Decoration Books 2-6, vol. 3; Price List No. 9, p. 2)". A comma
//   before it moves behind it, or goes if a stop follows.
// - An index entry keeps its words.
// - A relative link leads to a chapter; one that leads nowhere leaves its words.
void resolveInlines(Inlines& inlines, const Words& words, const ProseSetting& setting = {});
void resolveBlocks(Blocks& blocks, const Words& words, const ProseSetting& setting = {});

using linking::picturePath;

}  // namespace saggar::compose
