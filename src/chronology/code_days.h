#pragma once
#include <cstdint>
#include <vector>

#include "dates/bounds.h"
#include "linking/collection.h"

// What the codes of a guide say of days, as plain data: codes are read in a later room, which fills this in.
namespace saggar::chronology {

inline constexpr std::uint32_t kNoSeries = 0xFFFFFFFF;

// One way to read a code.
struct CodeReadingDays {
  dates::Bounds when{dates::Day::minusInfinity(),
                     dates::Day::plusInfinity()};  // the date that the code itself holds
  const records::Value* used = nullptr;            // the years of the rule
  const records::Value* worksUsed = nullptr;       // the years of the works that it names
  std::uint32_t code = 0;  // which code and which of its readings it is, as the filler counts
  std::uint32_t reading = 0;
};

// What a rule's table says of one number.
struct NumberDays {
  dates::Bounds when{dates::Day::minusInfinity(), dates::Day::plusInfinity()};
  const records::Value* early = nullptr;  // the entry, or the table, that gives each bound
  const records::Value* late = nullptr;
  bool earlyByOrder = false;  // holds only because numbers were given out in order
  bool lateByOrder = false;
};

// One code on one record; a list of readings that the eye allows is one code.
struct CodeDays {
  linking::RecordIndex record = records::kNoRecord;
  records::Field field{};  // code, date-code, registered
  const records::Value* value = nullptr;
  linking::RecordIndex maker = records::kNoRecord;  // whose rule it is
  bool first = true;                                // a treatment's only or first code
  std::vector<CodeReadingDays> readings;            // the possible ones; none is empty
  bool more = false;                                // there are more than were kept: nothing is concluded
  std::uint32_t series = kNoSeries;  // in which its number was given out, if there is one reading only
  std::int64_t number = 0;
  NumberDays table;
};

// Numbers that were given out in order, or at least have a table of dates.
struct CodeSeries {
  linking::RecordIndex maker = records::kNoRecord;
  const records::Value* order = nullptr;  // of the rule that states it; null where there is none
};

struct AllCodeDays {
  std::vector<CodeDays> codes;  // in the order of the records
  std::vector<CodeSeries> series;
};

}  // namespace saggar::chronology
