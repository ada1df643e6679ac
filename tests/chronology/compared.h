#pragma once
#include <map>

#include "invented_guide.h"
#include "reasoned.h"

// The program's days and facts beside those of the invented guide.
namespace saggar::chronology {

using testing::Reasoned;

inline spelled::Days daysOf(const dates::Bounds& bounds) {
  spelled::Days days;
  if (bounds.earliest.isFinite()) days.first = static_cast<long>(bounds.earliest.number());
  if (bounds.latest.isFinite()) days.last = static_cast<long>(bounds.latest.number());
  return days;
}

// None for a point that is no event.
inline std::optional<Node> nodeOf(const Reasoned& program, const std::string& event) {
  for (Node node = 1; node < program.chronology.events().count(); ++node)
    if (program.chronology.events().text(*program.chronology.events().eventOf(node)) == event) return node;
  return std::nullopt;
}

inline long placeOf(const Reasoned& program, FactId fact) {
  const source::Place place = program.collection.sources().place(program.reasons.of(fact).span);
  return invented::placeOf(static_cast<int>(place.line),
                           static_cast<int>(program.chronology.fact(fact).says));
}

}  // namespace saggar::chronology
