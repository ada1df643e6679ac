#pragma once
#include "compose/entries.h"
#include "compose/query.h"

// What the blocks of prose, and the chapters of their names, print.
namespace saggar::compose {

// A block on a page. `chapter`: the block stands as a chapter of its own. A list that comes out empty says so.
// A title of the author's own stands above it as a heading, and the headings in it one level lower.
Blocks listOf(Page& page, const Query& query, bool chapter);

// --- the lists one by one; `chosen` is what the query gives
struct Listing {
  const Query& query;
  std::vector<choosing::Chosen> chosen;
  bool chapter = false;

  std::vector<RecordIndex> records() const;
};

// A short table, and under it the entries of those that have their home here (lists_ware.cpp).
Blocks treatmentsList(Page& page, const Listing& listing);
Blocks formsList(Page& page, const Listing& listing);
Blocks marksList(Page& page, const Listing& listing);
// One row a code, by prefix and number, with everything that carries it; as a chapter with the rules (lists_codes.cpp).
Blocks codesList(Page& page, const Listing& listing);

// lists_words.cpp
Blocks lookAlikesList(Page& page, const Listing& listing);
Blocks questionsList(Page& page, const Listing& listing);
Blocks claimsList(Page& page, const Listing& listing);
Blocks correctionsList(Page& page, const Listing& listing);
Blocks makersList(Page& page, const Listing& listing);
Blocks glossaryList(Page& page, const Listing& listing);
Blocks sourcesList(Page& page, const Listing& listing);
Blocks creditsList(Page& page, const Listing& listing);
// The usual caution (cautions_text.h) where no condition narrows the list; then those that go with features.
Blocks cautionsList(Page& page, const Listing& listing);

// lists_gaps.cpp: what is not known and what is not recorded; dates in order.
Blocks helpWantedList(Page& page, const Listing& listing);
Blocks timelineList(Page& page, const Listing& listing);
// What to look at to tell the records apart, kind by kind: as little as will do, and every recorded difference.
Blocks tellApartList(Page& page, const Listing& listing);

// The records in the order of their names (ICU collation of the guide's language, word by word).
void sortByName(const Page& page, std::vector<choosing::Chosen>& chosen);

// The name, linked, with ", perhaps" behind it where it is not sure that it belongs here.
Inlines listedName(const Page& page, const choosing::Chosen& chosen, Inlines words = {});

}  // namespace saggar::compose
