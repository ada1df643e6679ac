// Who may print a picture, as its record says it: words that stand for a published statement or licence.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace saggar::records {

struct Rights {
  std::string words;    // as they are printed
  std::string address;  // of the statement or licence; empty for `own`
};

// `own`, `in copyright`, `public domain`; a Creative Commons licence with its version (`CC BY 4.0`); a statement of
// RightsStatements.org by its name or its short sign (`No Copyright - United States`, `NoC-US`); or a web address. Small
// letters and capitals are alike. Nothing for any other text: a licence that is nearly named is none.
std::optional<Rights> readRights(std::string_view typed);

// A regular expression (JavaScript's, as JSON Schema has it) that fits what readRights reads.
std::string rightsPattern();

// The words meant by a slip (`CC-BY 4.0`, `public-domain`), or empty.
std::string rightsNear(std::string_view typed);

}  // namespace saggar::records
