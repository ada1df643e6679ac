#pragma once
#include <string>
#include <string_view>

#include "linking/collection.h"

namespace saggar::talks {

// What is said aloud of a segment's Markdown: its words in order, a blank between blocks. What stands for the eye alone
// (pictures, code, notes of citations, footnotes) is left out.
std::string spokenText(const linking::Collection& collection, const records::Record& talk,
                       const records::Value& say);

// A citation is a word of its sentence, not a note to it, if it has words of its own and stands at the very beginning
// or after a word that leans on it: "it is in [the ledger](source:ledger)". The "in" of "9 1/8 in" is inches, and leans
// on nothing. `before` are the words of its paragraph that stand before it.
bool citationIsWord(std::string_view before, bool hasWords);

// What a speaker calls a record: its name, else of a treatment its code and motif, else its id with blanks.
std::string spokenName(const linking::Collection& collection, linking::RecordIndex record);

}  // namespace saggar::talks
