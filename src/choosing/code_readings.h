#pragma once
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "choosing/choose.h"
#include "codes/rule.h"
#include "diagnostics/finding.h"

// Every code of every record, read by every rule that applies to it. SEMANTICS, "Codes".
namespace saggar::choosing {

// A maker's rule, compiled.
struct MakerRule {
  RecordIndex maker = records::kNoRecord;
  std::string name;
  std::string on;                 // "treatment.code", "specimen.code-seen", "specimen.date-code", "registered"
  const codes::Rule* rule = nullptr;
  Condition where;
  const dates::Expression* used = nullptr;
  bool usual = false;             // a disagreement is a note
  const records::Value* source = nullptr;  // the rule's mapping: its places and evidence
};

// Why a reading cannot be meant.
struct Against {
  enum class Reason : std::uint8_t { path, look, used, where } reason = Reason::path;
  std::string says;       // in words an author would write: "the prefix JM is not that of Linnavere (LV)"
  source::Span span;      // of the value that disagrees
  RecordIndex record = records::kNoRecord;
};

struct CodeReading {
  const MakerRule* rule = nullptr;
  codes::Reading reading;
  bool possible = true;
  std::vector<Against> against;
};

// One code as it stands on one record.
struct CodeOnRecord {
  RecordIndex record = records::kNoRecord;
  records::Field field{};            // code, code-seen, date-code, registered
  const records::Value* value = nullptr;
  std::vector<CodeReading> readings; // in the order of the rules; impossible ones too
  bool applies = false;              // some rule reads this field here (else there is nothing to say)
  bool more = false;                 // there are more readings than were kept

  std::size_t possibleCount() const;
  const CodeReading* only() const;   // the one possible reading, or null
};

class CodeReadings {
 public:
  // Compiles every rule (findings: value-unfit, field-unknown … at the place in `codes`) and reads every code. In
  // parallel.
  static CodeReadings read(const Chooser& chooser, diagnostics::Findings& findings);

  std::span<const MakerRule> rules() const;
  std::span<const CodeOnRecord> all() const;                    // by record, then field, then as typed
  std::span<const CodeOnRecord> of(RecordIndex record) const;

  // `saggar code`: a text on no record, by the rules of one maker or of all; with what matches among the records.
  struct Loose {
    std::vector<CodeReading> readings;
    std::vector<RecordIndex> matches;  // treatments or specimens that carry this code
    std::string whyNot;                // if nothing reads it
  };
  Loose readLoose(std::string_view text, std::optional<RecordIndex> maker) const;

  // The maker whose rules apply to a record: of its shape; kNoRecord if not known.
  RecordIndex makerOf(RecordIndex record) const;

 private:
  struct State;
  std::shared_ptr<const State> state_;
};

}  // namespace saggar::choosing
