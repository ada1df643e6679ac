#pragma once
#include <span>

#include "study/looks.h"

// What to look at to tell things apart: the shortest lists of what is recorded of them, the quickest to see first of two
// as short.
namespace saggar::study {

// What can be looked at: a feature, or that a treatment is on one shape or another and has one motif or another.
enum class SeenAt : std::uint8_t { shape, motif, feature };

struct Trait {
  SeenAt at = SeenAt::feature;
  RecordIndex feature = records::kNoRecord;
  friend bool operator==(const Trait&, const Trait&) = default;
};

struct TellApart {
  std::vector<RecordIndex> records;  // those compared, in the order given
  std::vector<Trait> traits;         // in which some of them differ, by effort
  // The shortest list that tells any two apart that anything tells apart; by effort.
  std::vector<Trait> shortest;
  bool sure = true;  // there is no shorter one
  // Of each record the shortest list that tells it from all others (from which anything tells it).
  std::vector<std::vector<Trait>> ofEach;
  // Of each record those from which nothing recorded tells it, as places in `records`.
  std::vector<std::vector<std::size_t>> notTold;
  bool tooMany = false;  // more than kMostCompared: only `records` and `traits` are filled in
};

inline constexpr std::size_t kMostCompared = 120;

// Records of one kind. Those of which nothing can be seen are compared all the same, and told from nobody.
TellApart tellApart(const Collection& collection, std::span<const RecordIndex> records);

}  // namespace saggar::study
