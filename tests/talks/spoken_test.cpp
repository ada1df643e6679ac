// What is said aloud of a segment, and how many words that is.
#include "small_talk.h"

namespace saggar::talks::testing {
namespace {

const std::string kRecords = R"(
- source: ledger
  type: ledger
  title: The Ledger
  date: 1920/1930
- shape: bryn
  name: Bryn
- motif: fern
  name: Fern
- treatment: br-01
  shape: bryn
  motif: fern
  code: BR-01-1
- treatment: br-02
  shape: bryn
  motif: none
- treatment: br-03
  name: The green one
  shape: bryn
)";

std::string spoken(const std::string& markdown) {
  return drawnTogether(Small(say(markdown) + kRecords).spoken());
}

TEST_CASE("a citation is a note, and is not read out") {
  CHECK(spoken("It was booked in 1920 [p. 4](source:ledger).") == "It was booked in 1920 .");
  CHECK(spoken("It was booked <source:ledger>, and sold.") == "It was booked , and sold.");
  CHECK(spoken("Sold [p. 4](source:ledger) [p. 9](source:ledger) in 1920.") == "Sold in 1920.");
}

TEST_CASE("a citation that a word leans on is read out as it stands") {
  CHECK(spoken("It stands in [the ledger](source:ledger).") == "It stands in the ledger.");
  CHECK(spoken("[The ledger](source:ledger) has it.") == "The ledger has it.");
  CHECK(spoken("Sold. This we know from\n[the ledger](source:ledger).") ==
        "Sold. This we know from the ledger.");
  CHECK(spoken("It stands in <source:ledger>.") == "It stands in .");
  CHECK(spoken("First.\n\n[The ledger](source:ledger) has it.") == "First. The ledger has it.");
}

TEST_CASE("inches are no preposition") {
  CHECK(citationIsWord("it stands in", true));
  CHECK_FALSE(citationIsWord("it stands in", false));
  CHECK_FALSE(citationIsWord("it measures 9 1/8 in", true));
  CHECK_FALSE(citationIsWord("it measures 13 1/2 x 10 1/4 in ", true));
  CHECK_FALSE(citationIsWord("9½ in", true));
  CHECK_FALSE(citationIsWord("½ in", true));
  CHECK_FALSE(citationIsWord("a plate of 7 in", true));
  CHECK_FALSE(citationIsWord("a plate of 8.5\nin", true));
  CHECK(citationIsWord("booked in 1909 in", true));
  CHECK(citationIsWord("we read it on leaf 12 in", true));
  CHECK(citationIsWord("No. 7 in", true));
  CHECK(citationIsWord("either/or in", true));
  CHECK(citationIsWord("In", true));
  CHECK(citationIsWord("", true));
  CHECK_FALSE(citationIsWord("booked", true));
  CHECK_FALSE(citationIsWord("it came in.", true));
  CHECK(spoken("It measures 9 1/8 in [p. 3](source:ledger).") == "It measures 9 1/8 in .");
}

TEST_CASE("a reference is its words, or what the record is called") {
  CHECK(spoken("[the plain edge](treatment:br-01) came later") == "the plain edge came later");
  CHECK(spoken("<shape:bryn> and <treatment:br-01>") == "Bryn and BR-01-1 Fern");
  CHECK(spoken("<treatment:br-02>; <treatment:br-03>") == "br 02; The green one");
  CHECK(spoken("<source:ledger> has <shape:bryn>") == "has Bryn");
}

TEST_CASE("what stands for the eye alone is left out, words in any dress stay") {
  CHECK(spoken("Look: ![a plate](images/plate.png) here") == "Look: here");
  CHECK(spoken("A *long* **line**, ~~struck~~ and `typed`.") == "A long line, struck and typed.");
  CHECK(spoken("Before.\n\n```\ncode block\n```\n\nAfter.") == "Before. After.");
  CHECK(spoken("# Head\n\n- one\n- two\n\n> quoted") == "Head one two quoted");
  CHECK(spoken("| a | b |\n| --- | --- |\n| c | d |") == "a b c d");
  CHECK(spoken("[lustre](<index:>) and [words](https://example.org/long/address)") == "lustre and words");
}

TEST_CASE("words are counted as they are spoken") {
  CHECK(countWords("") == 0);
  CHECK(countWords("one") == 1);
  CHECK(countWords("  one\n two\t three ") == 3);
  CHECK(countWords("here - and — there … then") == 4);
  CHECK(countWords("salt & pepper, 9 ½ + 1") == 7);
  CHECK(countWords("Wren\u00A0and\u2003Medlar") == 3);
  CHECK(countWords("“quoted”, (set) in.") == 3);
  CHECK(countWords("été 花瓶") == 2);
  CHECK(countWords("\xFF\xC3 word") == 1);
  CHECK(Small(say("Booked in 1920 [vol. 3, May 1920](source:ledger), on <shape:bryn>.") + kRecords)
            .times.segments[0]
            .words == 5);
}

}  // namespace
}  // namespace saggar::talks::testing
