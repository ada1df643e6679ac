// Words for who may print a picture, and the addresses that they stand for.
#include <doctest/doctest.h>

#include "records/rights.h"

namespace saggar::records::testing {
namespace {

std::string addressOf(std::string_view typed) {
  const auto rights = readRights(typed);
  return rights ? rights->address : "refused";
}

TEST_CASE("what is typed stands for a published address") {
  CHECK(addressOf("own").empty());
  CHECK(readRights("own"));
  // Published addresses: rightsstatements.org (data model) and creativecommons.org.
  CHECK(addressOf("in copyright") == "http://rightsstatements.org/vocab/InC/1.0/");
  CHECK(addressOf("In copyright") == "http://rightsstatements.org/vocab/InC/1.0/");
  CHECK(addressOf("NoC-US") == "http://rightsstatements.org/vocab/NoC-US/1.0/");
  CHECK(addressOf("no copyright - united states") == "http://rightsstatements.org/vocab/NoC-US/1.0/");
  CHECK(addressOf("public domain") == "https://creativecommons.org/publicdomain/mark/1.0/");
  CHECK(addressOf("CC0") == "https://creativecommons.org/publicdomain/zero/1.0/");
  CHECK(addressOf("CC BY 4.0") == "https://creativecommons.org/licenses/by/4.0/");
  CHECK(addressOf("cc by-nc-sa 3.0") == "https://creativecommons.org/licenses/by-nc-sa/3.0/");
  CHECK(addressOf("https://example.org/terms") == "https://example.org/terms");
}

TEST_CASE("what is nearly one is none, and says which") {
  for (const auto& [typed, meant] : {std::pair<std::string_view, std::string_view>{"CC-BY-4.0", "CC BY 4.0"},
                                     {"CC BY", "CC BY 4.0"},
                                     {"CC BY 4", "CC BY 4.0"},
                                     {"CC BY-SA v4.0", "CC BY-SA 4.0"},
                                     {"public-domain", "public domain"},
                                     {"public domian", "public domain"},
                                     {"in-copyright", "in copyright"},
                                     {"my own", "own"},
                                     {"owm", "own"}}) {
    CAPTURE(typed);
    CHECK_FALSE(readRights(typed));
    CHECK(rightsNear(typed) == meant);
    CHECK(readRights(meant));
  }
  for (const std::string_view typed :
       {"Odile Marrenby", "by kind permission of the museum", "", "https://", "http:// a", "CC"}) {
    CAPTURE(typed);
    CHECK_FALSE(readRights(typed));
  }
  CHECK(rightsNear("by kind permission of the museum").empty());
}

}  // namespace
}  // namespace saggar::records::testing
