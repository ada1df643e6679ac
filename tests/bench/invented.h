#pragma once
#include <cstdint>
#include <string>
#include <vector>

// An invented guide of any size, the same for the same numbers: makers, shapes, motifs, treatments and pieces
// whose dates, codes, looks and evidence fit together, so that `saggar check` finds no error in it. Nothing
// in it is real.
namespace bench {

struct Size {
  unsigned treatments = 40'000;
  unsigned specimens = 60'000;
  unsigned sources = 2'000;  // at least 568: a maker has its books and a price list a year
  unsigned files = 400;
  unsigned firsts = 0;   // questions of which decoration was introduced first
  bool oneFile = false;  // all records in `records.yaml`, in the same order
};

struct TextFile {
  std::string path;
  std::string text;
};

std::vector<TextFile> inventGuide(const Size& size);

// A name of two to four invented syllables, another one for each number.
std::string inventedName(std::uint32_t number);

// A word that stands nowhere else in the guide, for private values: they must never reach anything published.
std::string markerWord(std::uint32_t number);

}  // namespace bench
