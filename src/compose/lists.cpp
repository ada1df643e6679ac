#include "compose/lists.h"

#include <algorithm>
#include <iterator>

namespace saggar::compose {

namespace {

struct Composer {
  std::string_view block;
  Blocks (*make)(Page&, const Listing&);
  std::string_view what = {};  // it lists, in words for an empty list
};

constexpr Composer kComposers[] = {
    {"treatments", treatmentsList, "decoration"},
    {"forms", formsList, "piece"},
    {"marks", marksList, "mark"},
    {"codes", codesList, "number"},
    {"timeline", timelineList},
    {"tell-apart", tellApartList},
    {"look-alikes", lookAlikesList, "look-alike"},
    {"questions", questionsList},
    {"help-wanted", helpWantedList},
    {"corrections", correctionsList},
    {"claims", claimsList},
    {"makers", makersList, "maker"},
    {"glossary", glossaryList},
    {"sources", sourcesList},
    {"measures", formsList, "piece"},
    {"cautions", cautionsList},
    {"credits", creditsList},
};

}  // namespace

Blocks listOf(Page& page, const Query& query, bool chapter) {
  for (const Composer& one : kComposers) {
    if (one.block != query.block) continue;
    Blocks out;
    const int level = page.level;
    if (!query.title.empty()) {
      out.push_back(ownHeading(page, level, query.title));
      page.level = std::min(level + 1, 6);
    }
    Blocks made = one.make(page, {query, chosenBy(query, page.words().materials()), chapter});
    page.level = level;
    if (made.empty()) made.push_back(noneRecorded(one.what));
    out.insert(out.end(), std::make_move_iterator(made.begin()), std::make_move_iterator(made.end()));
    return out;
  }
  return {};
}

}  // namespace saggar::compose
