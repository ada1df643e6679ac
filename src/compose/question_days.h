#pragma once
#include "compose/page.h"

// What the reasoning about dates and codes has to say to a question, beside what its author says.
namespace saggar::compose {

// Of a question that names two events in `first`: which of them was first, as far as that is proven, and the days of
// both with what they rest on, as an item of a list. Empty for others.
Blocks whichWasFirst(Page& page, const PublishedRecord& question);
// Evidence that would decide it, as items behind what the author says would settle it.
std::vector<Blocks> whatWouldDecide(Page& page, const PublishedRecord& question);

// Facts of what the question is about that cannot all be true, each smallest set as a list, with what stays proven and
// what else the eye could take a date code for.
Blocks whatCannotAllBeTrue(const Page& page, const PublishedRecord& question);

// A number that several of the decorations share that the question is about: each with its booking and its reading.
Blocks sharedNumbers(Page& page, const PublishedRecord& question);

}  // namespace saggar::compose
