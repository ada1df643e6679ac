#pragma once
#include <unordered_map>

#include "choosing/code_judge.h"

// What CodeReadings holds. Not for other rooms.
namespace saggar::choosing {

struct CodeState {
  explicit CodeState(const Chooser& chooser)
      : collection(chooser.collection()), bounds(chooser.bounds()), judge(collection, bounds) {}

  const Collection& collection;
  const Bounds& bounds;
  Judge judge;
  RuleBook rules;
  std::vector<CodeOnRecord> all;
  std::vector<CodeReading> readings;  // of all codes, one after the other
  std::vector<KeptReading> kept;      // of every text once
  std::vector<CodeReadings::StruckOut> struckOut;

  RecordIndex makerOf(RecordIndex record) const;
  RecordIndex treatmentOf(RecordIndex record) const;
  Standing standingOf(const CodeOnRecord& code) const;
  std::vector<codes::Reading> inFull(const CodeOnRecord& code) const;
  const RuleGroup& groupOf(RecordIndex record, CodeField field) const;
  std::vector<std::uint32_t> rulesFor(RecordIndex record, CodeField field) const;
};

// Gathers the codes of all records and reads them. The rules are compiled.
void readCodes(CodeState& state);

inline constexpr std::size_t kMostKept = 200;  // readings of one text under one rule

inline constexpr records::Field kCodeFieldNames[kCodeFields] = {"code"_f, "code-seen"_f, "date-code"_f,
                                                                "registered"_f};
// Which of the fields that hold codes it is; nullopt for any other.
std::optional<CodeField> codeFieldOf(records::Field field);

}  // namespace saggar::choosing
