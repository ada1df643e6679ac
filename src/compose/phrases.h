#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "compose/materials.h"

// Words put together: the few moves that every composer makes.
namespace saggar::compose {

// Adds to the end; words that follow words become one piece.
void put(Inlines& out, std::string_view words);
void put(Inlines& out, Inlines more);
// " (note)" behind it; nothing of an empty one.
void putInBrackets(Inlines& out, Inlines note);

// "a, b and c"; or with another sign between ("; ") and none before the last.
Inlines listed(std::vector<Inlines> parts, std::string_view last = "and");
Inlines separated(std::vector<Inlines> parts, std::string_view between);

// What readers call records of a kind: "decoration", "decorations"; "piece" for a form, "piece seen" for a specimen.
std::string kindInWords(Kind kind, bool several = false);

// "a price list", "an old number".
std::string withArticle(const std::string& words);

// Who has a thing, as authors name it: "a private collection", "Tollivane Ferry Museum".
std::string holderInWords(std::string_view typed);

// How a piece was seen: "seen in hand", "seen in a photograph", "reported".
std::string_view howSeenInWords(const records::Value& sighting);

// Where a piece is, for somebody who would have to borrow it: "in a private collection", "held by Tollivane Ferry Museum".
std::string whereHeld(std::string_view holder);

// What a treatment's status means: "sample" is "a sample; it is not known that any was sold". Empty for production ware.
std::string statusInWords(std::string_view status);

// An author's sentence within another: without its full stop, and without the capital of a word that has it only
// because it comes first: "The page is torn." is "the page is torn".
std::string asClause(std::string_view sentence);

// The first letter as a capital.
std::string capitalised(std::string words);
Inlines capitalised(Inlines words);

// "three pieces", "1,204 pieces": small numbers in words.
std::string countedInWords(std::size_t number, std::string_view one, std::string_view many);

// Ends a sentence: a full stop, unless one of . ! ? stands there already.
Inlines sentence(Inlines words);

// A sentence and its note in brackets, before the full stop: "The page is torn (Price List, p. 3)."
Inlines sentenceWithNote(Inlines words, Inlines note);

// The author's line ends become blanks, at every depth.
void joinLines(Inlines& inlines);

// "**Label:** words", as the one paragraph of an item.
Blocks labelled(std::string_view label, Inlines words);

// An item that is one paragraph.
Blocks item(Inlines words);

// A table with this head.
document::Table tableOf(std::vector<std::string> head);
void addRow(document::Table& table, std::vector<Inlines> cells);
void addGroupHead(document::Table& table, Inlines words);

}  // namespace saggar::compose
