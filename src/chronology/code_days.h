#pragma once
#include <cstdint>
#include <functional>
#include <vector>

#include "dates/bounds.h"
#include "linking/collection.h"

// What the codes of a guide say of days. Codes are read in a later room, which tells them one after the other: all at
// once they would take a tenth of the memory of a large guide.
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
  std::vector<CodeReadingDays> ruledOut;  // of a date code: those that are not, as far as they have days
  bool more = false;                      // there are more than were kept: nothing is concluded
  // Numbers that were given out in order, or at least have a table of dates, are a series; they count from 0. Set if
  // there is one reading only.
  std::uint32_t series = kNoSeries;
  std::int64_t number = 0;
  const records::Value* order =
      nullptr;  // of the rule that states the order of the series; null where there is none
  NumberDays table;
};

class CodeDates {
 public:
  virtual ~CodeDates() = default;
  // All of them in the order of the records, each time the same.
  virtual void each(const std::function<void(const CodeDays&)>& take) const = 0;
};

// Of a guide without codes.
class NoCodeDates final : public CodeDates {
 public:
  void each(const std::function<void(const CodeDays&)>&) const override {}
};

}  // namespace saggar::chronology
