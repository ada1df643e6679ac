#pragma once
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "commands/pipeline.h"

// What `saggar show` says of days, beside a record's dated facts.
namespace saggar::commands {

// "proven by the end of March 1936"; "proven as it stands"; "nothing is proven of it"; of a span one line for each end
// of which something is proven. Empty for a field without days, or one of which nobody asks for a proof.
std::vector<std::string> provenLines(const Guide& guide, linking::RecordIndex record, records::Field field);

// Of events that are not filled in, and of which something is known: their fields, and the same lines with likely days.
struct DaysNotRecorded {
  std::string field;
  std::vector<std::string> lines;
};
std::vector<DaysNotRecorded> daysNotRecorded(const Guide& guide, linking::RecordIndex record);

// BOUNDS of a dated field with their reasons; of a span from its beginning to its end. Null for a field without days.
nlohmann::ordered_json provenAsJson(const Guide& guide, linking::RecordIndex record, records::Field field);

}  // namespace saggar::commands
