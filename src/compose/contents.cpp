#include "compose/contents.h"

namespace saggar::compose {
namespace {

struct Generated {
  std::string_view block;
  std::string_view title;
  std::optional<Kind> home;
};

constexpr Generated kGenerated[] = {
    {"treatments", "Decorations", Kind::treatment},
    {"forms", "Pieces and their sizes", Kind::form},
    {"marks", "Marks", Kind::mark},
    {"codes", "Numbers and codes", std::nullopt},
    {"look-alikes", "Look-alikes", std::nullopt},
    {"timeline", "Dates in order", std::nullopt},
    {"tell-apart", "What tells them apart", std::nullopt},
    {"questions", "Open questions", Kind::question},
    {"help-wanted", "Help wanted", std::nullopt},
    {"corrections", "Corrections", Kind::claim},
    {"claims", "Statements", Kind::claim},
    {"makers", "Makers", Kind::maker},
    {"glossary", "Glossary", Kind::term},
    {"sources", "Sources", Kind::source},
    {"measures", "Measures", std::nullopt},
    {"cautions", "Cautions", std::nullopt},
    {"credits", "Credits", Kind::photo},
};

}  // namespace

std::string_view chapterTitle(std::string_view block) {
  for (const Generated& one : kGenerated)
    if (one.block == block) return one.title;
  return {};
}

std::optional<Kind> homeOf(std::string_view block) {
  for (const Generated& one : kGenerated)
    if (one.block == block) return one.home;
  return std::nullopt;
}

}  // namespace saggar::compose
