#pragma once
#include <vector>

#include "study/looks.h"

// Shapes of one maker, and treatments of one shape and motif, that nothing recorded of how they look tells apart.
//
// A treatment that is the same variant as an earlier one, or continues it under another number, is that one and no twin
// of it. Where nothing is recorded of both, nothing is said: that is a gap, and no likeness.
namespace saggar::study {

struct Twins {
  enum class Ties : std::uint8_t {
    all,   // none of them can be told from any other
    one,   // `hub` cannot be told from any of the others, which (of few) can be told from one another
    some,  // each cannot be told from some other
  };
  std::vector<RecordIndex> records;  // in the order of file and place; two at least
  Ties ties = Ties::all;
  RecordIndex hub = records::kNoRecord;
  std::vector<RecordIndex> shared;  // features recorded of each of them, by effort: they agree or overlap
  // Features recorded of some of them and not of others, by effort: they may be what tells them apart.
  std::vector<RecordIndex> wanting;
};

// Groups in the order of their last member; no record stands in two of them.
std::vector<Twins> twins(const Collection& collection);

}  // namespace saggar::study
