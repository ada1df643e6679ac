#pragma once
#include "compose/words.h"

// What the reasoning about dates adds to a date as its author typed it: nothing, unless it says more. The problem: every
// date has four bounds beside it, and a page that printed them would hide the dates. The choice: a bound is printed only
// where it is narrower than the date typed, or where no date is typed that a reader can rely on; in rows of tables only
// where it moves the year. The cost: a reader cannot see that a date was also proven as it stands; `saggar date` tells.
namespace saggar::compose {

enum class Room : std::uint8_t { entry, row, lectern };

// "by the end of March 1936, proven"; in an entry with what proves it, unless that is the record's own source, which
// stands beside it: "1936 to 1951, proven by Linnavere and Boat and date code"; "likely 1938" where that says more. Of a
// span "begun by 6 April 1952, proven". At a lectern always with the evidence: "proven by the end of June 1933: Decoration
// Books, vol. 3". Empty where it adds nothing.
Inlines daysBeside(const Words& words, const PublishedRecord& record, records::Field field, Room room);

// Of a piece of which neither a day nor a date code is recorded, the days in which it was made, where they are narrower
// than those of its decoration or shape; likewise.
Inlines daysOfMaking(const Words& words, const PublishedRecord& specimen);

// The fact with which a chain of reasons begins: the citation of a source whose date gives the bound, or the fact that is
// dated itself; kNoFact for an empty chain.
chronology::FactId witnessIn(const chronology::Chronology& chronology,
                             const std::vector<chronology::FactId>& chain);
// It in few words: the source cited, or the record that has the date, linked; of the record `own` what of it: "its glaze".
Inlines witnessOf(const Words& words, chronology::FactId fact, RecordIndex own);

}  // namespace saggar::compose
