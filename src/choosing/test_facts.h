#pragma once
#include <vector>

#include "choosing/claim_test.h"
#include "choosing/grounds.h"
#include "chronology/reasons.h"

// The grounds of an answer as facts with their standing. Not for other rooms.
namespace saggar::choosing {

// As typed, on one line; what has parts as its parts, of sightings the days.
std::string typedOf(const records::Value& value);

class TestFacts final : public Firmness {
 public:
  TestFacts(const Collection& collection, const evidence::Weights& weights,
            const chronology::Chronology& chronology)
      : all_(collection),
        weights_(weights),
        chronology_(chronology),
        reasons_(collection, weights, chronology, chronology::Reasons::Naming::ids) {}

  // Documented or supported, neither doubted nor disputed; so is what an author need not prove: ids, names, a status. Of
  // a date every fact that it follows from.
  bool isFirm(const Ground& ground) const override;
  bool isFirm(chronology::FactId fact) const;

  std::vector<TestFact> of(const Told& told) const;
  TestFact of(chronology::FactId fact) const;

 private:
  struct Standing {
    std::string_view word;  // empty: what never needs evidence
    bool firm = true;
  };
  Standing standingOf(const Ground& ground) const;
  // From the date that it starts with to the event itself; empty where the ground is no date.
  std::vector<chronology::FactId> chainOf(const Ground& ground) const;

  const Collection& all_;
  const evidence::Weights& weights_;
  const chronology::Chronology& chronology_;
  chronology::Reasons reasons_;
};

}  // namespace saggar::choosing
