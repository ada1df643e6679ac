#pragma once
#include <span>
#include <string>
#include <vector>

#include "choosing/code_readings.h"

// Numbers that are missing from the series of ordered code rules: between those on record, from the first that the rule
// allows, and to the last that is known to have been given.
//
// A run of them has the days that its neighbours leave it: not before any lower number, not after any higher one, and
// what the rule's own tables and years say. Numbers of pages torn out are no gaps, and stand apart.
namespace saggar::study {

using linking::RecordIndex;

// How numbers of one series are written: what stands before the number, and figures at least.
struct NumberForm {
  std::string before;  // "JM-"
  std::size_t figures = 0;
  std::string of(std::int64_t number) const;  // "JM-045"
};

struct NumberRun {
  std::int64_t first = 0;
  std::int64_t last = 0;
  dates::Bounds when{dates::Day::minusInfinity(),
                     dates::Day::plusInfinity()};  // likely; open where nothing is known
  std::string because;                             // of pages torn out: the author's words
};

struct NumberGaps {
  const choosing::MakerRule* rule = nullptr;  // the first by which one of its numbers is read
  std::string series;                         // empty where the rule counts in one
  NumberForm form;
  std::vector<RecordIndex> holders;  // treatments that have a number of it, in the order of their numbers
  std::size_t known = 0;             // different numbers on record
  std::vector<NumberRun> missing;    // rising
  std::vector<NumberRun> tornOut;    // rising
};

// Of each series with a number missing or torn out, in the order of the makers and of the rules as they stand.
std::vector<NumberGaps> numberGaps(const choosing::Chooser& chooser, const choosing::CodeReadings& codes);

}  // namespace saggar::study
