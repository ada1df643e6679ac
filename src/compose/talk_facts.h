#pragma once
#include <string>
#include <vector>

#include "compose/words.h"

// What a speaker needs of a record, to be read at a lectern: its name, and under it short lines, each with its evidence
// in brackets behind it.
namespace saggar::compose {

// An item of a list: "**JM-045-C/0 Copper Pantry**, on Jessamount", and below it what its number says, its look, its
// dates, how it is known. `lead` stands before the name, `after` behind it.
Blocks factCard(const Words& words, RecordIndex record, std::string_view lead = {},
                std::string_view after = {});

// What must stand behind the names of pieces so that each is meant and no other: nothing, or " (jm-203-platter-2)" where
// several have one name.
std::vector<std::string> tellApart(const Words& words, const std::vector<RecordIndex>& pieces);

// The name alone, as such an item.
Blocks nameCard(const Words& words, RecordIndex record, std::string_view lead, std::string_view after);

// How a piece was seen, and by whom: "seen in hand by Odile Marrenby, 14 May 2019".
std::string seenInWords(const Words& words, const PublishedRecord& specimen);

// Somebody has held it; else it can be shown in a picture only.
bool seenInHand(const PublishedRecord& specimen);

}  // namespace saggar::compose
