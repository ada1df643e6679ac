#pragma once
#include <cstdint>
#include <span>
#include <vector>

#include "study/looks.h"

// Which of many rows no feature tells from a given one.
//
// The problem: what is recorded differs from row to row, so that being alike is no equivalence and rows cannot simply be
// sorted; comparing each with each of ten thousand takes too long. The choice: for each value of each feature the rows
// that have it are kept, as bits where they are many and as a list where they are few; the rows alike to one are then
// found 64 at a time. The cost: time still grows with the square of the rows, if sixty times more slowly.
namespace saggar::study {

class Bits {
 public:
  explicit Bits(std::size_t count = 0, bool on = false);
  void set(std::size_t at) { words_[at / 64] |= std::uint64_t{1} << at % 64; }
  void clear(std::size_t at) { words_[at / 64] &= ~(std::uint64_t{1} << at % 64); }
  bool has(std::size_t at) const { return (words_[at / 64] >> at % 64 & 1) != 0; }
  Bits& operator|=(const Bits& other);
  Bits& operator&=(const Bits& other);
  std::size_t size() const { return words_.size(); }  // in words
  template <class Tell>
  void each(Tell&& tell) const {
    for (std::size_t word = 0; word < words_.size(); ++word)
      for (std::uint64_t left = words_[word]; left != 0; left &= left - 1)
        tell(word * 64 + static_cast<std::size_t>(__builtin_ctzll(left)));
  }

 private:
  std::vector<std::uint64_t> words_;
};

class Likeness {
 public:
  explicit Likeness(std::span<const Row* const> rows);

  // Takes out of `rows` those that are not alike to row i; i itself is taken out as well.
  void keepAlike(std::size_t i, Bits& rows) const;

 private:
  struct Having {  // the rows that have a value
    Bits bits;
    std::vector<std::uint32_t> list;
    void addTo(Bits& out) const;
  };
  struct Feature {
    RecordIndex feature;
    Bits recorded;
    Bits open;                    // of which it is not recorded
    std::vector<ValueId> values;  // rising
    std::vector<Having> having;   // of each value
  };
  const Feature& of(RecordIndex feature) const;

  std::span<const Row* const> rows_;
  std::vector<Feature> features_;  // rising
};

}  // namespace saggar::study
