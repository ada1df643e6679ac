#pragma once
#include <unordered_map>

#include "compose/page.h"

namespace saggar::compose {

// How the decorations in the rows of a table stand and are known, in words. What would be repeated in every row is said
// once, below the table.
class RowStandings {
 public:
  RowStandings(const Page& page, const std::vector<choosing::Chosen>& rows);

  // Behind the dates: "last year supported"; behind the sources: "supported; known from documents only". Empty where
  // there is nothing to say.
  Inlines ofDates(RecordIndex record) const;
  Inlines ofSources(RecordIndex record) const;
  // "Of every decoration in this table: known from documents only."
  Blocks below() const;

 private:
  enum Part : std::size_t { dates, sources, known, kParts };
  struct Said {
    std::string parts[kParts];
  };
  std::unordered_map<RecordIndex, Said> said_;
  bool common_[kParts] = {};
};

}  // namespace saggar::compose
