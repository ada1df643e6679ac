#pragma once
#include "choosing/claim_test.h"
#include "choosing/code_readings.h"
#include "guide.h"

// Claims of small guides typed in a test, tested.
namespace saggar::choosing::testing {

class Tested {
 public:
  explicit Tested(const std::string& records, std::string guideYaml = {})
      : guide(records, std::move(guideYaml)), weights(guide.collection) {
    const CodeReadings codes = CodeReadings::read(*guide.chooser, guide.findings);
    chronology = chronology::Chronology::reason(guide.collection, weights, *codes.days());
    results = ClaimResults::of(guide.collection, weights, chronology);
  }

  static std::string word(Outcome outcome) {
    constexpr const char* kWords[] = {"untested", "holds", "open", "broken"};
    return kWords[static_cast<std::size_t>(outcome)];
  }

  const ClaimResult& result(std::string_view claim) const {
    const ClaimResult* found = results.of(guide.at("claim:" + std::string(claim)));
    REQUIRE_MESSAGE(found != nullptr, std::string(claim));
    return *found;
  }
  const TestResult& test(std::string_view claim = "c") const { return result(claim).tests.at(0); }

  // "broken firmly: shape:b look.finial=knob documented, look.handle=ring documented": the outcome, and what speaks.
  std::string told(std::string_view claim = "c") const {
    const TestResult& one = test(claim);
    std::string out = word(one.outcome) + (one.firm ? " firmly" : "");
    for (const TestedRecord& record : one.records) {
      out += "; " + guide.collection[record.record].reference();
      for (const TestFact& fact : record.facts)
        out += (&fact == record.facts.data() ? " " : ", ") +
               (fact.record == record.record ? "" : guide.collection[fact.record].reference() + ' ') +
               fact.field + (fact.value.empty() ? "" : "=" + fact.value) +
               (fact.standing.empty() ? "" : " " + fact.standing) + (fact.missing ? "?" : "");
    }
    if (one.more > 0) out += "; +" + std::to_string(one.more);
    return out;
  }

  Guide guide;
  evidence::Weights weights;
  chronology::Chronology chronology;
  ClaimResults results;
};

// The outcome of one test, typed in braces or as lines, of these records.
inline std::string outcome(const std::string& records, const std::string& test) {
  const Tested tested(records + "- claim: c\n  says: Something.\n  test:\n    - " + test + '\n');
  return tested.told();
}

}  // namespace saggar::choosing::testing
