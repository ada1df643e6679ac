#include "evidence/evidence.h"

namespace saggar::evidence {

std::string_view word(KnownBy known) {
  constexpr std::string_view kWords[] = {"in hand", "pictured", "documented only", "reported only",
                                         "not seen"};
  return kWords[static_cast<std::size_t>(known)];
}

std::string_view inWords(KnownBy known) {
  constexpr std::string_view kWords[] = {"seen in hand", "seen in pictures only", "known from documents only",
                                         "reported only", "not seen"};
  return kWords[static_cast<std::size_t>(known)];
}

std::string_view inWords(Standing standing) {
  constexpr std::string_view kWords[] = {"documented", "supported", "suggested", "the author's judgement",
                                         "no source recorded"};
  return kWords[static_cast<std::size_t>(standing)];
}

Standing standingOf(Seen seen) {
  return seen == Seen::inHand     ? Standing::documented
         : seen == Seen::pictured ? Standing::supported
                                  : Standing::suggested;
}

namespace {

std::string supportedBy(const Weights& weights, const Weighed& weighed) {
  if (weighed.second != nullptr) return "two independent witnesses";
  const Worth worth = weights.worthOf(*weighed.best);
  if (weighed.best->says == records::Says::notFound) return "a search that found none";
  if (weighed.best->says == records::Says::indirect) return "inference";
  if (!worth.direct) return "a photograph of a piece";
  if (worth.form == Form::derivative) return "a copy of a source of the time";
  if (worth.information != Information::primary) return "a source of the time at second hand";
  return "later words of somebody who was there";
}

}  // namespace

std::string Weights::inWords(const Weighed& weighed) const {
  std::string out = weighed.disputed ? "disputed; " : "";
  switch (weighed.standing) {
    case Standing::documented: break;
    case Standing::supported: return out + "supported by " + supportedBy(*this, weighed);
    case Standing::suggested:
      return out + (weighed.countedTwice    ? "suggested by accounts that go back to one"
                    : weighed.counting == 1 ? "suggested by one account"
                                            : "suggested");
    case Standing::judged: break;
    case Standing::uncited:
      if (weighed.tooEarly != nullptr) return out + "its source is too early to show it";
      if (weighed.notFound != nullptr) return out + "looked for in vain";
  }
  return out + std::string(evidence::inWords(weighed.standing));
}

}  // namespace saggar::evidence
