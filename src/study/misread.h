#pragma once
#include <optional>
#include <string>
#include <vector>

#include "choosing/code_readings.h"
#include "chronology/chronology.h"

// What a date code says where facts cannot all be true, and what the eye could have taken it for.
namespace saggar::study {

// The days of the one possible reading of a date code; nothing where there are several, and of other facts.
std::optional<dates::Bounds> daysOfCode(const choosing::CodeReadings& codes, const chronology::Fact& fact);

// A code as it would be with signs of its rule's `alike` exchanged.
struct Misreading {
  chronology::FactId fact = chronology::kNoFact;  // the date code as it is recorded
  std::string text;                               // what it would be
  dates::Bounds days;                             // of which days it would then be
};

// The date codes in a contradiction that, read otherwise, would resolve it: the rest could then all be true. In the
// order of the contradiction, each with the fewest exchanges first; at most four texts a code are tried.
std::vector<Misreading> misreadings(const choosing::CodeReadings& codes,
                                    const chronology::Chronology& chronology, const chronology::Clash& clash);

// "`U344` for `U394`, of October to December 1939": what the eye can take for what.
std::string inWords(const Misreading& misreading, const chronology::Chronology& chronology);

}  // namespace saggar::study
