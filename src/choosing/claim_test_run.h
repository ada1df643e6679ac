#pragma once
#include <optional>

#include "choosing/network_bounds.h"
#include "choosing/shown.h"
#include "choosing/test_facts.h"
#include "chronology/precedence.h"

// Runs tests of claims. Not for other rooms.
namespace saggar::choosing {

class TestRunner {
 public:
  TestRunner(const Collection& collection, const evidence::Weights& weights,
             const chronology::Chronology& chronology)
      : all_(collection),
        chronology_(chronology),
        bounds_(chronology, chronology::BoundsOf::tests),
        facts_(collection, weights, chronology),
        shown_(collection) {}

  TestResult run(const ClaimTest& test);

 private:
  void overKind(const ClaimTest& test, TestResult& result);
  void before(const ClaimTest& test, TestResult& result);
  void compare(const ClaimTest& test, TestResult& result);  // claim_test_compare.cpp

  // A record, or one of its pieces by itself.
  struct Speaker {
    RecordIndex record = records::kNoRecord;
    RecordIndex piece = records::kNoRecord;
    RecordIndex named() const { return piece != records::kNoRecord ? piece : record; }
  };
  struct Both {  // where, and has
    Told where, has;
    bool firmlyNo() const {
      return (where.answer == Answer::no && where.firm) || (has.answer == Answer::no && has.firm);
    }
    bool firm() const { return where.firm && has.firm; }
  };
  Both tell(const ClaimTest& test, const Speaker& speaker) const;
  void piecesAgainst(const ClaimTest& test, RecordIndex record, std::vector<Speaker>& against) const;
  bool brokenFirmly(const ClaimTest& test, const TestResult& result,
                    const std::vector<Speaker>& speaking) const;
  TestedRecord eventOf(const chronology::Event& event) const;
  void keep(const ClaimTest& test, const std::vector<Speaker>& speaking, TestResult& result) const;

  const Collection& all_;
  const chronology::Chronology& chronology_;
  NetworkBounds bounds_;
  TestFacts facts_;
  Shown shown_;
  std::optional<chronology::Precedences> precedences_;  // made when the first test asks
};

}  // namespace saggar::choosing
