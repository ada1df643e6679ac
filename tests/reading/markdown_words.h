#pragma once
#include <array>
#include <string_view>

#include "reading/markdown.h"

// The names of the record language, for tests.
inline constexpr auto kTestKinds = std::to_array<std::string_view>(
    {"maker", "person", "shape", "form", "motif", "treatment", "set", "mark", "specimen", "source", "feature",
     "claim", "question", "term", "photo", "talk", "checklist"});
inline constexpr auto kTestBlocks =
    std::to_array<std::string_view>({"treatments", "forms", "marks", "codes", "timeline", "tell-apart",
                                     "look-alikes", "questions", "help-wanted", "corrections", "claims",
                                     "makers", "glossary", "sources", "measures", "cautions", "credits"});
inline constexpr saggar::reading::MarkdownWords kTestWords{kTestKinds, kTestBlocks, false};
inline constexpr saggar::reading::MarkdownWords kOwnWords{kTestKinds, kTestBlocks, true};
