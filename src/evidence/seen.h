#pragma once
#include <cstdint>

#include "records/value.h"

// How a piece was seen.
namespace saggar::evidence {

enum class Seen : std::uint8_t { inHand, pictured, reported, notSeen };

// One sighting, a member of `seen`: in hand unless it says otherwise.
Seen howSeen(const records::Value& sighting);

// The best of the sightings in `seen`; null for a piece without any.
Seen bestSeen(const records::Value* seen);

}  // namespace saggar::evidence
