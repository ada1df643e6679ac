#pragma once
#include "compose/facts.h"

// The entry of a record where it is described: heading with its anchor, facts, note, pictures. One for each kind.
namespace saggar::compose {

// Gives nothing if the record was described on this page before, or has its home elsewhere.
Blocks entryOf(Page& page, RecordIndex record);

// --- parts of entries that other lists share

// Everything of a kind that refers to the record in that field, in the order of file and place.
std::vector<RecordIndex> referring(const Page& page, RecordIndex record, Kind kind, records::Field field);

// In the order of their first year; those without one last.
void sortByDate(const Published& all, std::vector<RecordIndex>& records);
inline void sortByDate(const Page& page, std::vector<RecordIndex>& records) {
  sortByDate(page.records(), records);
}

// Names with links: "a, b and c"; beyond `most` the rest is counted.
Inlines namesOf(const Words& words, const std::vector<RecordIndex>& records, std::size_t most = 60);
inline Inlines namesOf(const Page& page, const std::vector<RecordIndex>& records, std::size_t most = 60) {
  return namesOf(page.words(), records, most);
}

// "**Offered:** 1933 (Decoration Books 2-6, vol. 3) to 1950 (…)"; for motifs "Used".
Blocks datesFact(const Page& page, const PublishedRecord& record);

// "**Known from:** three pieces in hand and one in a photograph"; by how each of the specimens was seen.
Inlines howKnown(const Page& page, const PublishedRecord& record, const std::vector<RecordIndex>& specimens);

// "printed in brown or black under the glaze"; empty if nothing of it is recorded.
std::string howMarkWasMade(const Page& page, const PublishedRecord& mark);

// One piece that was seen, as a line of a list, with its anchor.
Inlines specimenLine(Page& page, RecordIndex specimen);
// That the author of the guide saw them need not be said of every piece: before a list of them, the sentence that says it
// for all that follow on the page; nothing if the author saw none of these.
Blocks whoSaw(Page& page, const std::vector<RecordIndex>& specimens);

// Pictures of a record (its `photo`, and photos that say they show it) that have their home here and were not shown.
Blocks picturesOf(Page& page, RecordIndex record);
Block pictureBlock(Page& page, RecordIndex photo);

// Both sides of what is taken for one another, as lines: "**Corrisand**, taken for **Brathermoor No. 14.** The verge is
// stepped." What tells them apart is said of the record in which it stands, and a line that begins with the other says
// so. Of the pairs that a record of `chosen` takes part in, each once.
struct Pair {
  RecordIndex one = records::kNoRecord;
  RecordIndex other = records::kNoRecord;
  const records::Value* said = nullptr;    // the member of `resembles`
  RecordIndex sayer = records::kNoRecord;  // in the record of the two in which it stands
};
std::vector<Pair> pairsOf(const Page& page, const std::vector<RecordIndex>& records);
Inlines pairLine(const Page& page, const Pair& pair);
// What tells them apart, with its evidence, to stand behind the name of the record of which it is said, or (`other`) of
// the other.
Inlines toldOf(const Page& page, const Pair& pair, bool other);
// What tells the two apart in the author's words; null if nothing is said.
const records::Value* tellOf(const Pair& pair);
// The record that a member of `resembles` names; kNoRecord if it names none that is there.
RecordIndex resembledIn(const records::Value& member);

// A question as a reader meets it: asked in full with what speaks for and against it in its home, else in one line.
Blocks questionBlocks(Page& page, RecordIndex question);
// A statement with its status and its evidence, as a line of a list.
Inlines claimLine(Page& page, RecordIndex claim);
// A glossary entry.
Block termBlock(Page& page, RecordIndex term);

// "who may print it", in words: rights as an author writes them.
Inlines rightsInWords(std::string_view rights);

}  // namespace saggar::compose
