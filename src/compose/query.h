#pragma once
#include <string>
#include <vector>

#include "choosing/query.h"
#include "compose/materials.h"

// A fence in prose that the program fills in: the block's name, and YAML that chooses what it lists.
namespace saggar::compose {

struct Query {
  std::string block;
  std::string title = {};  // what the author would have above it; empty: nothing
  std::vector<choosing::Query>
      parts;  // one for each kind that it can list and its conditions can be asked of

  const choosing::Query* of(Kind kind) const;
};

// The kinds of record a block lists.
records::KindSet kindsOf(std::string_view block);

// The keys of a choice with which a block can do nothing: an author who types one is told.
std::span<const std::string_view> passedOverBy(std::string_view block);

// Reads the YAML of a block of prose; what cannot be read is left out, with findings at its place. A block that lists
// several kinds lists those of which its conditions can be asked.
Query readQuery(const Block& block, const Materials& materials, diagnostics::Findings& findings);

// A block without YAML: everything of its kinds.
Query wholeQuery(std::string_view block);

// A list of ware takes what is perhaps meant too, and marks it. Not so a list of what the author wrote (questions,
// statements, words, sources, pictures, features) or of look-alikes: there a field left out leaves nothing open.
bool takesPerhaps(std::string_view block, Kind kind);

// What it lists, in the order it asks for, else that of file and place.
std::vector<choosing::Chosen> chosenBy(const Query& query, const Materials& materials);

}  // namespace saggar::compose
