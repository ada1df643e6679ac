#pragma once
#include <algorithm>
#include <memory>
#include <optional>
#include <unordered_set>

#include "chronology/conflicts.h"
#include "chronology/gather.h"

// When things happened, as far as the records say: the days of every event, proven and likely, each with its reasons,
// and what cannot all be true. SEMANTICS, "Facts, conflicts, proofs".
namespace saggar::chronology {

enum class BoundsOf : std::uint8_t {
  proven,  // documented facts at wide bounds, without doubted and open ones
  likely,  // all facts at plain bounds, the best known first
  tests,   // all facts at wide bounds, clashes settled likewise: what claims are tested by
};

// Facts that cannot all be true.
struct Clash {
  std::vector<FactId> facts;  // rising
  std::vector<EdgeId> edges;
  Days shortBy = 0;
  bool atFaceValue = false;  // only because dates are taken at plain bounds, doubted ones too
};

struct SharedIndex;  // precedence.cpp
std::shared_ptr<SharedIndex> sharedIndex();

class Chronology {
 public:
  // The collection and weights must outlive it.
  static Chronology reason(const linking::Collection& collection, const evidence::Weights& weights,
                           const CodeDates& codes);
  Chronology() = default;

  const Events& events() const { return *events_; }
  std::size_t facts() const { return gathered_ == nullptr ? 0 : gathered_->facts.size(); }
  const Fact& fact(FactId id) const { return gathered_->facts[id]; }
  // The record that it relates to its own; as otherOf in fact.h.
  RecordIndex otherOf(FactId id) const;
  const Edge& edge(EdgeId id) const { return gathered_->network.edge(id); }
  // The years of a rule, a works or a feature that the fact brings in; null for others.
  const Value* yearsOf(FactId id) const;

  dates::Bounds bounds(Node event, BoundsOf which) const;
  // The facts that give the bound, from the date that it starts with to the event itself; fewest facts first. Empty for
  // an open one.
  std::vector<FactId> because(Node event, BoundsOf which, dates::End end) const;
  // Documented facts of the event that prove nothing, since they clash.
  std::vector<FactId> open(Node event) const;
  // Where the event is one of several dates: null if not.
  const Choice* choiceOf(Node event) const;
  // Readings of codes that documented facts rule out: the code and the reading as CodeReadingDays names them, and why.
  struct StruckOut {
    std::uint32_t code = 0;
    std::uint32_t reading = 0;
    std::vector<FactId> because;
  };
  std::vector<StruckOut> struckOut() const;

  const std::vector<Clash>& clashes() const { return clashes_; }
  // Facts that still clash when the most smallest sets are made.
  const std::vector<FactId>& alsoClashing() const { return alsoClashing_; }
  // Facts in a conflict of documented ones, and those that gave way to others; rising.
  const std::vector<FactId>& disputed() const { return disputed_; }
  // … or another source says otherwise, and it is not set aside.
  bool isDisputed(FactId id) const {
    return fact(id).disputed || std::binary_search(disputed_.begin(), disputed_.end(), id);
  }

 private:
  // The latest day of a point is the length of the way from the origin, the earliest that of the way back, negated.
  struct Bounds {
    Ways from, to;
  };
  const Bounds& of(BoundsOf which) const;
  struct Chain {
    std::vector<FactId> facts;
    std::unordered_set<FactId> known;  // a chain can be as long as a series of numbers
    std::unordered_set<FactId> asked;  // treatments on several shapes of which the shapes' chains are told
  };
  void tell(Node event, BoundsOf which, dates::End end, Chain& chain) const;
  friend class Solver;
  friend class Precedences;
  friend struct PrecedenceIndex;

  std::shared_ptr<Events> events_;
  std::shared_ptr<Gathered> gathered_;
  Bounds proven_, likely_, tests_;
  Selection provenFacts_, likelyFacts_, testFacts_;
  std::vector<EdgeId> open_;  // rising
  std::vector<Clash> clashes_;
  std::vector<FactId> alsoClashing_;
  std::vector<FactId> disputed_;
  // What Precedences look in, made when the first are asked for, by whichever thread does, and shared by all.
  std::shared_ptr<SharedIndex> precedence_;
};

}  // namespace saggar::chronology
