#include "evidence/seen.h"

#include <algorithm>

namespace saggar::evidence {

Seen howSeen(const records::Value& sighting) {
  const records::Value* how = sighting.find("how"_f);
  if (how == nullptr || how->text == "in-hand") return Seen::inHand;
  return how->text == "photograph" ? Seen::pictured : Seen::reported;
}

Seen bestSeen(const records::Value* seen) {
  Seen best = Seen::notSeen;
  if (seen == nullptr || !seen->said()) return best;
  for (const records::Value& sighting : seen->each())
    if (sighting.said()) best = std::min(best, howSeen(sighting));
  return best;
}

}  // namespace saggar::evidence
