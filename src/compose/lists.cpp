#include "compose/lists.h"

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
    Blocks out = one.make(page, {query, chosenBy(query, page.words().materials()), chapter});
    if (out.empty()) out.push_back(noneRecorded(one.what));
    return out;
  }
  return {};
}

}  // namespace saggar::compose
