// How words are compared for `saggar find`.
#include "commands/find_words.h"

#include <doctest/doctest.h>

using namespace saggar::commands;

namespace {

std::vector<std::string> words(std::string_view text, bool parts) {
  std::vector<std::string> out;
  eachWord(text, [&](const FoundWord& word) {
    if (word.partOfOne == parts) out.emplace_back(word.folded);
  });
  return out;
}

}  // namespace

TEST_CASE("words are folded, without the signs in them") {
  CHECK(wordsToFind("Quince  JM-203") == std::vector<std::string>{"quince", "jm203"});
  CHECK(wordsToFind("Café-Tasse") == std::vector<std::string>{"cafetasse"});
  CHECK(wordsToFind("?! …").empty());
  CHECK(words("A cup, and (its) Saucer.\n", false) ==
        std::vector<std::string>{"a", "cup", "and", "its", "saucer"});
}

TEST_CASE("a word with signs in it is found whole and by its parts") {
  CHECK(words("JM-203-C/1", false) == std::vector<std::string>{"jm203c1"});
  CHECK(words("JM-203-C/1", true) ==
        std::vector<std::string>{"jm", "jm203", "203", "jm203c", "203c", "c", "203c1", "c1", "1"});
  CHECK(words("blue-rim, -x-", true) == std::vector<std::string>{"blue", "rim"});
  const std::string far(4000, '-');
  CHECK(words(far + "a" + far + "b", false).size() == 1);
}

TEST_CASE("the place of a word is where it stands") {
  std::string_view text = "see (JM-203) there";
  eachWord(text, [&](const FoundWord& word) {
    if (word.folded == "203") CHECK(text.substr(word.from, word.until - word.from) == "203");
  });
}

TEST_CASE("whole words before beginnings before one letter wrong") {
  CHECK(fit("jessamount", "jessamount") == 3);
  CHECK(fit("jessa", "jessamount") == 2);
  CHECK(fit("jessamont", "jessamount") == 1);
  CHECK(fit("jesamont", "jessamount") == 0);
  CHECK(fit("cup", "cap") == 0);  // of three letters, one is too much to be wrong
}

TEST_CASE("an excerpt has the word in it and no half letters") {
  CHECK(excerpt("short", 0, 5) == "short");
  std::string text;
  for (int i = 0; i < 60; ++i) text += "größe ";
  text += "hier ";
  for (int i = 0; i < 60; ++i) text += "größe ";
  const std::size_t at = text.find("hier");
  const std::string shown = excerpt(text, at, at + 4);
  CHECK(shown.find("hier") != std::string::npos);
  CHECK(shown.starts_with("… größe"));
  CHECK(shown.ends_with(" …"));
  CHECK(shown.size() < 140);
  const std::string long_word(500, 'x');
  CHECK(excerpt(long_word, 0, 500).find(long_word) != std::string::npos);
}
