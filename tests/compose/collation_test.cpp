#include "compose/collation.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <vector>

// The order of the index.
namespace saggar::compose {
namespace {

std::vector<std::string> sorted(std::vector<std::string> names, std::string_view language = "en-GB") {
  const Collation collation(language);
  std::stable_sort(names.begin(), names.end(), [&](const std::string& a, const std::string& b) {
    return collation.key(a) < collation.key(b);
  });
  return names;
}

// The example that the publisher of the Chicago Manual of Style gives for 15.69 (18th ed.), word by word.
TEST_CASE("a comma interrupts: New, Arthur before New Deal before newborn") {
  CHECK(sorted({"newborn", "New Deal", "New, Zoe", "newlywed", "New, Arthur", "New England", "newel",
                "new math", "new (adj.)"}) ==
        std::vector<std::string>{"new (adj.)", "New, Arthur", "New, Zoe", "New Deal", "New England",
                                 "new math", "newborn", "newel", "newlywed"});
}

// NISO TR03-1999, section 3: nothing before something; hyphens and strokes are blanks; other signs are passed over; numbers by
// value.
TEST_CASE("words, signs and numbers") {
  CHECK(sorted({"pick-up piece", "pickle dish", "pick axe", "pick"}) ==
        std::vector<std::string>{"pick", "pick axe", "pick-up piece", "pickle dish"});
  CHECK(sorted({"10-inch dish", "9-inch dish", "9 1/8", "100"}) ==
        std::vector<std::string>{"9 1/8", "9-inch dish", "10-inch dish", "100"});
  CHECK(sorted({"St. Ives", "Stable", "St Ann"}) == std::vector<std::string>{"St Ann", "St. Ives", "Stable"});
  CHECK(sorted({"“quoted” ware", "quoin", "rim"}) ==
        std::vector<std::string>{"quoin", "“quoted” ware", "rim"});
  CHECK(sorted({"The Plate Rack", "plate", "plates"}) ==
        std::vector<std::string>{"plate", "The Plate Rack", "plates"});
}

TEST_CASE("letters with marks stand with their base letter, whatever the environment") {
  CHECK(sorted({"éclair", "edge", "Ebb", "Ängström", "zinc", "apple"}) ==
        std::vector<std::string>{"Ängström", "apple", "Ebb", "éclair", "edge", "zinc"});
  const Collation collation("en-GB");
  CHECK(collation.letter("éclair") == "E");
  CHECK(collation.letter("Øre") == "O");
  CHECK(collation.letter("the rim") == "R");
  CHECK(collation.letter("7-inch plate") == "0–9");
  CHECK(collation.letter("“Acorn”") == "A");
  CHECK(collation.letter("§ 4") == "#");
  CHECK(collation.letter("") == "#");
  CHECK(collation.letter("ж") == "Ж");
}

TEST_CASE("a language that nobody knows sorts like the root") {
  CHECK(sorted({"b", "a"}, "xx-nonsense-and-more-nonsense") == std::vector<std::string>{"a", "b"});
  CHECK(sorted({"b", "a"}, "") == std::vector<std::string>{"a", "b"});
}

}  // namespace
}  // namespace saggar::compose
