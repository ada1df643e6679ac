#pragma once
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "choosing/query.h"
#include "compose/words.h"

namespace saggar::compose {

// How the facts on a checklist stand, in words. The problem: a sheet prints no sources, and a word in every cell would
// drown what is ticked. The choice: what most rows have in common is said once, in the head; what most of a row has in
// common, where that is something else, behind its first column; a cell that differs from its row says so itself.
class ChecklistStanding {
 public:
  ChecklistStanding(const Words& words, const choosing::Query& query,
                    const std::vector<choosing::Chosen>& rows);

  // What the head says of what has no word beside it, and what the words mean that are used; empty where nothing on the
  // sheet has a standing.
  std::string legend() const;

  // One row: by column "supported", "disputed; the author's judgement"; empty where there is nothing to say.
  std::vector<std::string> behind(RecordIndex record) const;

 private:
  std::vector<std::string> standings(RecordIndex record) const;

  const Words& words_;
  Kind kind_;
  // By column: the field of the row's own record, if it needs evidence.
  std::vector<std::optional<records::Field>> shown_;
  bool any_ = false;
  std::string usual_;           // of most rows
  std::set<std::string> said_;  // of any cell
  bool wholeRows_ = false;      // some row has another than most
};

}  // namespace saggar::compose
