#pragma once
#include "checks/check.h"
#include "chronology/reasons.h"

// How what cannot all be true becomes findings. Not for other rooms.
namespace saggar::checks {

// Contradictions that one fact is in, or a single one.
struct ClashGroup {
  chronology::FactId at = chronology::kNoFact;  // the place: the fact that all have in common, or the weakest
  std::vector<const chronology::Clash*> clashes;
};

// A fact that is in three or more contradictions is the place of one finding for all of them; each other contradiction
// stands at its weakest fact, and those at one record that have a day in common are one finding.
std::vector<ClashGroup> groupsOf(const Context& context, bool atFaceValue);

// The plainest rule that fits a contradiction.
diagnostics::Rule ruleFor(const Context& context, const chronology::Clash& clash);

// The order of a rule has part in every contradiction among its numbers and is the cause of none.
bool canBeCause(const chronology::Fact& fact);

// The fact as findings show it.
diagnostics::FactNote noteOf(const chronology::Reasons& reasons, chronology::FactId fact);

// The less, the weaker: by standing, independent witnesses, kind of record, place.
bool isWeaker(const Context& context, chronology::FactId a, chronology::FactId b);

}  // namespace saggar::checks
