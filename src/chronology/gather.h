#pragma once
#include <optional>

#include "chronology/code_days.h"
#include "chronology/fact.h"

namespace saggar::chronology {

// Which readings of the facts an edge belongs to: a date has other days when `~` is taken at its widest.
enum Use : std::uint8_t { kWide = 1, kPlain = 2, kBoth = 3 };

// A date of which one of several is true: a one-of set, a code that can be read in several ways.
struct Choice {
  Node node = kOrigin;
  FactId fact = kNoFact;
  struct Member {
    dates::Bounds wide, plain;
    std::uint32_t code = 0;  // of a code: as CodeReadingDays
    std::uint32_t reading = 0;
    bool struckOut = false;
    std::vector<FactId> against;  // the chain of reasons that struck it out
  };
  std::vector<Member> members;
  EdgeId edges[4] = {kNoEdge, kNoEdge, kNoEdge, kNoEdge};  // wide earliest, latest; plain earliest, latest
  bool ofCode = false;
};

inline constexpr Days kBindsNothing = static_cast<Days>(1) << 100;  // of an edge whose days are not known yet

// A treatment on several shapes: at least one of them must admit its first day, and one its last.
struct ShapeChoice {
  RecordIndex treatment = records::kNoRecord;
  FactId fact = kNoFact;
  std::vector<RecordIndex> shapes;
  // For each set of bounds (documented, all at wide bounds, likely) its own edges: not before, not after.
  EdgeId edges[3][2] = {{kNoEdge, kNoEdge}, {kNoEdge, kNoEdge}, {kNoEdge, kNoEdge}};
  struct Side {
    std::vector<bool> ruledOut;   // of each shape: documented facts say that it is not the one
    std::vector<EdgeId> against;  // the chains of reasons for that
    std::vector<EdgeId> alone;    // of each shape: binds when it is the only one left
    std::optional<std::size_t> onlyOne() const;
  };
  Side sides[2];  // of the first day, of the last

  bool restsOnAll(
      EdgeId edge) const;  // one of `edges`: its day is worked out from those of the shapes that are left
  const Side& sideOf(EdgeId edge) const;
};

struct Gathered {
  Network network;
  std::vector<Fact> facts;  // by FactId
  // The years of a rule, a works or a feature that a fact brings in, for those that do; by FactId.
  std::vector<std::pair<FactId, const Value*>> years;
  std::vector<std::uint8_t> uses;  // of each edge
  std::vector<Choice> choices;     // rising by their facts
  std::vector<ShapeChoice> shapes;

  // Of the fact that a treatment is on several; null for any other.
  const ShapeChoice* choiceOfShapes(FactId fact) const;
};

// All events and relations of a guide (SEMANTICS, "The relations records imply"); the network is finished.
Gathered gather(const linking::Collection& collection, const evidence::Weights& weights, const Events& events,
                const CodeDates& codes);

}  // namespace saggar::chronology
