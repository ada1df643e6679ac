#pragma once
#include <cstdint>
#include <memory>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "source/files.h"

// Where a word may be broken at the end of a line: an exception list of trade words first, then the patterns
// of libhyphen for the language.
namespace saggar::render {

class Hyphenator {
 public:
  // `language` as in a document ("en-GB", "en"); the dictionary hyph_en_GB.dic is looked for in `folder`.
  // `exceptions` are words with their breaks ("cream-ware"), lines of a word list with `#` comments; a later
  // one wins.
  Hyphenator(const source::Files& files, std::string_view language, std::string_view wordList,
             const std::vector<std::string>& exceptions, int left, int right,
             const std::string& folder = "/usr/share/hyphen");
  ~Hyphenator();
  Hyphenator(const Hyphenator&) = delete;
  Hyphenator& operator=(const Hyphenator&) = delete;

  // False if the language has no dictionary here: then only the exceptions break.
  bool hasPatterns() const { return patterns_ != nullptr; }

  // Byte offsets inside `word` at which it may be broken, rising. Letters only: a word with a figure, a slash
  // or an apostrophe inside gives none; punctuation around it is passed over.
  const std::vector<std::uint16_t>& points(std::string_view word);

 private:
  void addException(std::string_view written);
  std::vector<std::uint16_t> found(std::string_view word);

  struct Patterns;
  std::unique_ptr<Patterns> patterns_;
  int left_, right_;
  std::unordered_map<std::string, std::vector<std::uint16_t>>
      exceptions_;  // lower case; offsets in characters
  std::unordered_map<std::string, std::vector<std::uint16_t>> known_;
};

}  // namespace saggar::render
