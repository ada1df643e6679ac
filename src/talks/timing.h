#pragma once
#include <cstdint>
#include <vector>

#include "linking/collection.h"

// How long a talk takes. Pure: from a talk's record to seconds.
namespace saggar::talks {

struct SegmentTime {
  const records::Value* segment = nullptr;  // the mapping
  std::int64_t start = 0;                   // seconds from the beginning
  std::int64_t length = 0;
  bool given = false;                       // the author said how long; else estimated
  std::size_t words = 0;                    // spoken
  std::size_t pieces = 0;                   // to hold up
};

struct TalkTimes {
  std::vector<SegmentTime> segments;
  std::int64_t total = 0;
  std::int64_t pace = 130;  // words a minute
  bool allGiven = true;
};

inline constexpr std::int64_t kSecondsAPiece = 8;  // to take up, turn and put down a piece (common practice)

// A segment without `time` is estimated: its spoken words at the talk's pace (its own, else the guide's), plus
// kSecondsAPiece for each piece shown, in whole seconds.
TalkTimes timesOf(const linking::Collection& collection, linking::RecordIndex talk);

// "6:00", "1:05:30".
std::string asClock(std::int64_t seconds);

// Words that are spoken: of the text without its links' targets, locators of citations and fences.
std::size_t spokenWords(const linking::Collection& collection, const records::Record& talk, const records::Value& say);

}  // namespace saggar::talks
