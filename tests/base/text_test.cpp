#include "base/text.h"

#include <doctest/doctest.h>

#include "base/edit_distance.h"
#include "base/utf8.h"

using namespace saggar::base;

TEST_CASE("malformed UTF-8 is found at its first byte (Unicode 15, table 3-7)") {
  CHECK(firstInvalidUtf8("plain text that is longer than eight bytes") == std::string_view::npos);
  CHECK(firstInvalidUtf8("café – ☐ 🁱") == std::string_view::npos);
  CHECK(firstInvalidUtf8("caf\xE9 noir") == 3);
  CHECK(firstInvalidUtf8("\xED\xA0\x80") == 0);        // a surrogate
  CHECK(firstInvalidUtf8("ab\xC0\xAF") == 2);          // overlong
  CHECK(firstInvalidUtf8("ab\xF4\x90\x80\x80") == 2);  // beyond U+10FFFF
  CHECK(firstInvalidUtf8("ab\xE2\x98") == 2);          // cut off
}

TEST_CASE("runs of blanks and line ends become one blank") {
  CHECK(onOneLine("  not:\r\n      {shape: jessamount}\t ") == "not: {shape: jessamount}");
  CHECK(onOneLine(" \n") == "");
}

TEST_CASE("folding compares case and composition away, and nothing else") {
  CHECK(folded("Café") == folded("CAFE\u0301"));
  CHECK(folded("STRASSE") == folded("straße"));
  CHECK(folded("0203") == "0203");
  CHECK(foldedForFinding("JM-203/1") == "jm2031");
  CHECK(foldedForFinding("  Café  au lait! ") == "cafe au lait");
}

TEST_CASE("edit distance counts an exchange of neighbours as one edit") {
  CHECK(editDistance("shape", "shpae", 3) == 1);
  CHECK(editDistance("kitten", "sitting", 5) ==
        3);  // the usual textbook pair (Wagner and Fischer 1974, from memory)
  CHECK(editDistance("abc", "xyz", 1) == 2);
  const std::string_view fields[] = {"introduced", "withdrawn", "designed", "maker"};
  CHECK(nearest("introdcued", fields) == "introduced");
  CHECK(nearest("makr", fields) == "maker");
  CHECK(nearest("MAKER", fields) == "maker");
  CHECK_FALSE(nearest("quench", fields).has_value());
}

TEST_CASE("words for lists and counts") {
  CHECK(listedInWords({"a", "b", "c"}) == "a, b and c");
  CHECK(listedInWords({"a"}) == "a");
  CHECK(counted(1, "piece") == "1 piece");
  CHECK(counted(0, "entry", "entries") == "0 entries");
  CHECK(shortened("a\nbcdef", 4) == "a bc…");
}
