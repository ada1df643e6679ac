#pragma once
#include <optional>
#include <span>
#include <vector>

#include "evidence/evidence.h"

// How many decorations of a shape there were at least, reckoned from how often those that were seen were seen. SEMANTICS,
// "Estimates of what is not on record".
namespace saggar::study {

using linking::Collection;
using linking::RecordIndex;

// A. Chao, "Nonparametric estimation of the number of classes in a population", Scandinavian Journal of Statistics 11,
// 1984; I. J. Good, "The population frequencies of species and the estimation of population parameters", Biometrika 40,
// 1953. Pure.
struct Frequencies {
  std::size_t kinds = 0;   // S: of which one was seen at least
  std::size_t pieces = 0;  // n
  std::size_t once = 0;    // f1: kinds of which exactly one was seen
  std::size_t twice = 0;   // f2
};
Frequencies frequenciesOf(
    std::span<const std::size_t> pieces);    // of each kind; those with none count for nothing
double leastKinds(const Frequencies& seen);  // Chao's lower bound
double coverage(const Frequencies& seen);    // Good's; 0 where nothing was seen

// The production treatments of one shape. Two pieces of a treatment that are known to be with one owner or holder are
// one; of a private collection nobody is known.
struct Estimate {
  RecordIndex shape = records::kNoRecord;
  Frequencies seen;
  double least = 0;
  double covered = 0;
  std::size_t documentsOnly = 0;  // its production treatments known only from documents
};

inline constexpr std::size_t kFewestPieces = 20;  // below, nothing can be said

// Of each shape given of which enough pieces were seen.
std::vector<Estimate> estimatesOf(const Collection& collection, const evidence::Weights& weights,
                                  std::span<const RecordIndex> shapes);

}  // namespace saggar::study
