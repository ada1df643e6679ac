#pragma once
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "linking/collection.h"

// How long a talk takes. Pure: from a talk's record to seconds.
namespace saggar::talks {

struct SegmentTime {
  const records::Value* segment = nullptr;  // the mapping
  std::int64_t start = 0;                   // seconds from the beginning
  std::int64_t length = 0;
  bool given = false;         // the author said how long; else `length` is the estimate
  bool startGiven = true;     // so is the length of every segment before it
  std::int64_t estimate = 0;  // what its words and pieces take, whether or not a time is given
  std::size_t words = 0;      // spoken
  std::size_t pieces = 0;     // to hold up
};

struct TalkTimes {
  std::vector<SegmentTime> segments;
  std::int64_t total = 0;
  std::int64_t pace = 130;  // words a minute
  bool allGiven = true;
};

// To take up a piece, turn it over and put it down: no source, the figure the project has settled on until it measures
// recorded talks.
inline constexpr std::int64_t kSecondsAPiece = 8;

// A segment without `time` is estimated: its spoken words at the talk's pace (its own, else the guide's), rounded to
// whole seconds, plus kSecondsAPiece for each piece shown. Times and paces that nobody can mean (beyond a year) count
// as a year.
TalkTimes timesOf(const linking::Collection& collection, linking::RecordIndex talk);

// "6:00", "1:05:30".
std::string asClock(std::int64_t seconds);

// Words that are spoken: of the text without the targets of links, pictures, code and the notes that citations become.
// A link that only names a record is spoken as its name, a citation that is a word of its sentence as it stands.
std::size_t spokenWords(const linking::Collection& collection, const records::Record& talk,
                        const records::Value& say);

// Pieces between blanks that have a letter or figure in them, or a sign that is read out ("&", "½", "+").
std::size_t countWords(std::string_view text);

}  // namespace saggar::talks
