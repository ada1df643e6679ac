#include "compose/lists.h"

namespace saggar::compose {

namespace {

struct Composer {
  std::string_view block;
  Blocks (*make)(Page&, const Listing&);
};

constexpr Composer kComposers[] = {
    {"treatments", treatmentsList},
    {"forms", formsList},
    {"marks", marksList},
    {"codes", codesList},
    {"timeline", timelineList},
    {"tell-apart", tellApartList},
    {"look-alikes", lookAlikesList},
    {"questions", questionsList},
    {"help-wanted", helpWantedList},
    {"corrections", correctionsList},
    {"claims", claimsList},
    {"makers", makersList},
    {"glossary", glossaryList},
    {"sources", sourcesList},
    {"measures", formsList},
    {"cautions", cautionsList},
    {"credits", creditsList},
};

}  // namespace

Blocks listOf(Page& page, const Query& query, bool chapter) {
  for (const Composer& one : kComposers) {
    if (one.block != query.block) continue;
    Blocks out = one.make(page, {query, chosenBy(query, page.words().materials()), chapter});
    if (out.empty()) out.push_back(noneRecorded());
    return out;
  }
  return {};
}

}  // namespace saggar::compose
