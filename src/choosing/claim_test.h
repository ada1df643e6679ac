#pragma once
#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

#include "choosing/condition.h"
#include "choosing/range.h"
#include "chronology/chronology.h"

// Claims that test themselves (SEMANTICS, "`where`, `has`, three values"): what a guide states, asked of its records.
namespace saggar::choosing {

// One item of a claim's `test`, ready to be run.
struct ClaimTest {
  enum class Way : std::uint8_t { every, no, some, count, before, same, differ };
  Way way = Way::every;
  const records::Value* at =
      nullptr;              // the value that stands under its first word: where findings about it stand
  Kind kind = Kind::guide;  // every, no, some, count
  Condition where, has;
  Range makes;                                                        // count
  const records::Value* events[2] = {};                               // before
  RecordIndex records[2] = {records::kNoRecord, records::kNoRecord};  // same, differ
  Path paths[2];                                                      // … the field, from each of them
};

std::string_view word(ClaimTest::Way way);

// Findings at what cannot be read: field-unknown, value-unfit, date-unreadable, reference-missing. Nothing comes of a
// test of which any part could not be read, here or before.
std::optional<ClaimTest> compileTest(const records::Value& test, const Collection& collection,
                                     source::FileId file, diagnostics::Findings& findings);

enum class Outcome : std::uint8_t { untested, holds, open, broken };

// One fact that an outcome rests on, as findings and people are told it.
struct TestFact {
  RecordIndex record = records::kNoRecord;
  std::string field;                      // "look.finial"
  std::string value;                      // as typed; empty where nothing is
  const records::Value* typed = nullptr;  // that value; null where nothing is
  std::string standing;                   // "documented"; empty for what never needs evidence
  bool missing = false;                   // it would have to be known
  bool leavesOut = false;                 // a list that may leave something out: that keeps it open
  source::Span span;
};

// A record with what speaks there.
struct TestedRecord {
  RecordIndex record = records::kNoRecord;
  std::vector<TestFact> facts;
};

struct TestResult {
  ClaimTest::Way way = ClaimTest::Way::every;
  Kind kind = Kind::guide;
  source::Span span;  // where the test stands
  Outcome outcome = Outcome::untested;
  bool firm = false;      // broken by documented and supported facts alone
  bool unlikely = false;  // of an order that is open: by all that is recorded it was the other way round
  // Records of the kind that are surely `where`; of them those that are surely `has`; those that may be both.
  std::size_t looked = 0, fitting = 0, most = 0;
  Range makes;
  // What breaks it or leaves it open, the best known first; of one that holds, what bears it out (some, before, same,
  // differ).
  std::vector<TestedRecord> records;
  std::size_t more = 0;  // further ones
};

struct ClaimResult {
  Outcome outcome = Outcome::untested;  // broken if one test is, else open if one is, else untested if one is
  std::vector<TestResult> tests;
};

// The claim that replaces this one, the first of several; kNoRecord if none does.
RecordIndex replacementOf(const Collection& collection, RecordIndex claim);
// Replaced, or withdrawn: it is no longer put forward.
bool isRetired(const Collection& collection, RecordIndex claim);

// Every claim of a guide that has a test and is not retired, tested.
class ClaimResults {
 public:
  ClaimResults() = default;
  static ClaimResults of(const Collection& collection, const evidence::Weights& weights,
                         const chronology::Chronology& chronology);

  // Null for a claim that was not tested.
  const ClaimResult* of(RecordIndex claim) const {
    const auto found = results_.find(claim);
    return found == results_.end() ? nullptr : &found->second;
  }

 private:
  std::unordered_map<RecordIndex, ClaimResult> results_;
};

}  // namespace saggar::choosing
