#pragma once
#include <cstdint>
#include <string>
#include <vector>

#include "compose/words.h"

// What a statement corrects: the old words, where they stood, what took their place. For corrections, entries and talks.
namespace saggar::compose {

// The Markdown of a field on one line: without the author's line ends.
Inlines lineOf(const Words& words, const PublishedRecord& owner, const records::Value& value);

// The claim corrects something: it says how (`change`), what (`was`, `replaces`), or it is withdrawn and nothing took its
// place.
bool corrects(const Published& records, const PublishedRecord& claim);

// The claims that this one replaces, as typed.
std::vector<RecordIndex> replacedClaims(const PublishedRecord& claim);
// The claim that holds in place of this one, through all that were replaced since; kNoRecord if none does. Claims that
// replace one another in a ring have none.
RecordIndex holdsNow(const Published& records, RecordIndex claim);
// The claims that replace this one directly, in the order of file and place.
std::vector<RecordIndex> replacedBy(const Published& records, RecordIndex claim);

// "corrigendum"; of a withdrawn claim that does not say it "withdrawal"; else "correction".
std::string changeInWords(const PublishedRecord& claim);

// The words that no longer hold, struck out, each with the claim they stood in (the claim itself for its own `was`).
struct OldWords {
  RecordIndex claim = records::kNoRecord;
  Inlines words;
};
std::vector<OldWords> oldWords(const Words& words, const PublishedRecord& claim);

// Where the old words stood (or, of an addendum, where the new ones belong), as "Tableware of Tollivane, first edition
// (2019), p. 41" and "the talk “Twelve shapes”, 9:40".
std::vector<std::string> oldPlaces(const Words& words, const PublishedRecord& claim);
// Where the words that hold now have been said: the claim's own `stated`, less what oldPlaces gives.
std::vector<std::string> newPlaces(const Words& words, const PublishedRecord& claim);

// "first edition", "edition 12"; and with its title and date as guide.yaml gives them.
std::string editionInWords(std::int64_t number);
std::string editionNamed(const Words& words, std::int64_t number);

// The citations of what a claim says, and its own; empty for none.
Inlines claimCitations(const Words& words, const PublishedRecord& claim, bool brief = false);
// On what it rests: those citations, and what came of its test.
Inlines claimEvidence(const Words& words, const PublishedRecord& claim, bool brief = false);
// What speaks against it; empty for nothing.
Inlines evidenceAgainst(const Words& words, const PublishedRecord& claim);

// The corrections about a record, in the order of file and place.
std::vector<RecordIndex> correctionsAbout(const Published& records, RecordIndex record);

}  // namespace saggar::compose
