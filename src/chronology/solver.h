#pragma once
#include "chronology/chronology.h"
#include "chronology/strongest.h"

// The order of reasoning, step by step. Not for other rooms.
namespace saggar::chronology {

class Solver {
 public:
  explicit Solver(Chronology& out) : out_(out), gathered_(*out.gathered_), network_(gathered_.network) {}
  void run();

 private:
  static constexpr int kMostRounds = 30;
  enum Set : std::uint8_t { documented, wide, likely };  // the edges of shape choices
  static dates::Day earliestOf(const Ways& to, Node node);
  static dates::Day latestOf(const Ways& from, Node node);
  Selection select(std::uint8_t use, Set set, bool (*wanted)(const Fact&)) const;
  struct Settled {
    Selection selection;
    Suspects suspects;
  };
  Settled settled(const Selection& wanted, Set set);
  Selection binding(Selection selection, Set set) const;
  Conflicts conflicts(const Settled& settled) const;
  Strongest strongest(const Selection& wanted, const Settled& all, Set set);
  Selection without(Selection selection, const std::vector<FactId>& facts) const;
  bool leaveOutWeakest(const Conflicts& conflicts, std::vector<FactId>& out) const;
  void prove();
  bool strikeOut();
  bool ruleOutShapes();
  std::vector<EdgeId> surelyBefore(Node earlier, Node later) const;
  bool areApart(Node earlier, Node later) const;  // by their proven days alone
  struct Life {
    Node introduced, withdrawn;
  };
  Life lifeOf(RecordIndex ware) const {
    return {out_.events_->nodeOf(ware, "introduced"_f), out_.events_->nodeOf(ware, "withdrawn"_f)};
  }
  void strike(Choice& choice, Choice::Member& member, bool early);
  void clash();
  void guess();
  std::vector<FactId> best(const Selection& wanted, Settled all, Set set, Chronology::Bounds& days,
                           Selection& stands);
  void tell(const Conflicts& conflicts, bool atFaceValue);
  // Of two facts, which stands first in the files: a record's dates, relations and citations are gathered one after the
  // other, and codes last.
  Earlier inFileOrder() const;
  void dispute(FactId fact) { out_.disputed_.push_back(fact); }

  Chronology& out_;
  Gathered& gathered_;
  Network& network_;
  Settled proof_;
};

}  // namespace saggar::chronology
