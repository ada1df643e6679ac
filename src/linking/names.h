#pragma once
#include <string>

#include "linking/published.h"

namespace saggar::linking {

// What a record is called, wherever it is spoken of: its `name` or `title`; a treatment without one its code and motif
// ("JM-045-C/0 Copper Pantry"), a specimen its treatment or shape and its form, a claim or question what it says; else
// the id with blanks for hyphens, capitalised but for words and features.
std::string plainName(const Published& records, RecordIndex record);
inline std::string plainName(const Collection& collection, RecordIndex record) {
  return plainName(Published(collection), record);
}

// The same in an answer to the author, on one line: a piece without a name by its id, since many pieces are called
// alike; a sentence in quotation marks.
std::string nameForAuthor(const Collection& collection, RecordIndex record);

}  // namespace saggar::linking
