#pragma once
#include <string_view>

#include "compose/places.h"

// The names of blocks that can stand as a chapter of their own in the contents.
namespace saggar::compose {

// The title of a generated chapter ("codes": "Numbers and codes"), empty if the block is no chapter.
std::string_view chapterTitle(std::string_view block);

// The kind of record whose home a generated chapter is ("glossary": terms), if it is one.
std::optional<Kind> homeOf(std::string_view block);

}  // namespace saggar::compose
