#pragma once
#include <vector>

#include "choosing/condition.h"

namespace saggar::choosing {

struct Chosen {
  RecordIndex record = records::kNoRecord;
  bool sure = true;  // false: printed lists mark it uncertain
};

// The one way to choose: contents, checklists, blocks, code rules and claim tests.
class Chooser {
 public:
  Chooser(const Collection& collection, const Bounds& bounds) : collection_(&collection), bounds_(&bounds) {}

  const Collection& collection() const { return *collection_; }
  const Bounds& bounds() const { return *bounds_; }

  Answer ask(const Condition& condition, RecordIndex record) const {
    return condition.of(record, *collection_, *bounds_);
  }

  // Records of a kind that are yes or maybe (`sureOnly`: yes), in the order of file and place.
  std::vector<Chosen> choose(Kind kind, const Condition& condition, bool sureOnly = false) const;

  // Sorts by what the paths reach: dates by earliest plain day, then latest; numbers and measures by size; codes
  // (treatment.code, code-seen) by prefix letters, then number by value, then the rest; references by the name of the
  // record they name, text by the guide's collation (ICU, numeric). Not recorded last; ties by id.
  void sort(std::vector<Chosen>& chosen, std::span<const Path> by) const;

  // Groups in the order of their first key as `sort` would order them; records that reach nothing form the last
  // groups: first those where it was looked for and is not known, then those where it is not recorded. A record that reaches several values stands in each of their groups.
  struct Group {
    Reached key;                  // state unknown or absent for the last groups
    std::vector<Chosen> members;  // in the order given
  };
  std::vector<Group> group(const std::vector<Chosen>& chosen, const Path& by) const;

 private:
  const Collection* collection_;
  const Bounds* bounds_;
};

// All conditions and paths of the guide compiled once for their findings: `where` and `has` of code rules, tests,
// checklists and contents; `columns`, `grouped`, `in-order-of`; `same`/`differ`.
void checkConditions(const Collection& collection, diagnostics::Findings& findings);

// The order of two codes as lists print them: letters, then numbers by value, then the rest.
bool codeBefore(std::string_view a, std::string_view b);

}  // namespace saggar::choosing
