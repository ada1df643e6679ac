#pragma once
#include <cstdint>
#include <vector>

#include "chronology/network.h"

// Invented networks of any size, the same for the same numbers. Nothing in them is real.
namespace bench {

using saggar::chronology::Days;
using saggar::chronology::FactId;
using saggar::chronology::Network;
using saggar::chronology::Node;

// Things that began and ended, each of them two events: dated, part of an older thing, in a series of numbers, after
// another event, cited by dated sources; four facts an event. Every fact is true of days that were drawn before, so that
// none clashes. As in a guide, one thing of fifty is what others are part of, and most of what is said to be after
// something stands near it; or tangled: anything is part of anything, after anything, and each eighth event within so
// many days of another.
enum class Ties : std::uint8_t { asInAGuide, tangled };
Network sound(std::uint32_t events, Ties ties = Ties::asInAGuide, std::uint32_t seed = 0);

// One series of numbers given out in order, whose latest days fall as the numbers rise: the last number binds them all.
Network fallingSeries(std::uint32_t numbers);

// Events of which each is after the one before; the first and the last are dated.
Network chainOfAfter(std::uint32_t events);

// A sound network in which facts clash: in sets of two to seven, no two with a fact in common, some of them rings that
// touch no date.
struct Clashing {
  Network network;
  std::vector<std::vector<FactId>> planted;  // each rising, in rising order
};
Clashing clashing(std::uint32_t events, std::uint32_t sets);

}  // namespace bench
