#pragma once
#include <vector>

#include "checks/check.h"

// What an author could doubt so that no contradiction is left: every smallest set of facts that has one in each of the
// contradictions (study/hitting_sets.h), of up to four facts, twenty sets at most. The set whose best-known fact is known
// worst comes first; of two alike the smaller. Contradictions of dates taken at face value are left out, since a wider
// reading settles them; the order of a rule's numbers is the cause of nothing. Waived ones count: a waiver settles nothing.
namespace saggar::checks {

inline constexpr std::size_t kMostDoubted = 4;
inline constexpr std::size_t kMostSetsToDoubt = 20;

std::vector<std::vector<diagnostics::FactNote>> setsToDoubt(const Context& context);

}  // namespace saggar::checks
