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
  enum Set : std::uint8_t { documented, wide, likely };  // the edges of shape choices
  Selection select(std::uint8_t use, Set set, bool (*wanted)(const Fact&)) const;
  Suspects settled(Selection& selection, Set set);
  void prove();
  bool strikeOut();
  void strike(Choice& choice, Choice::Member& member, bool early);
  void clash();
  void guess();
  void tell(const Conflicts& conflicts, bool atFaceValue);
  // Of two facts, which stands first in the files: a record's dates, relations and citations are gathered one after the
  // other, and codes last.
  Earlier inFileOrder() const;
  void dispute(FactId fact) { out_.disputed_.push_back(fact); }

  Chronology& out_;
  Gathered& gathered_;
  Network& network_;
  Suspects proof_;
};

}  // namespace saggar::chronology
