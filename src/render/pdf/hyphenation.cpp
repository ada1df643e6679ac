#include "render/pdf/hyphenation.h"

#include <hyphen.h>

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <utility>

#include "base/text.h"
#include "base/utf8.h"

namespace saggar::render {
namespace {

constexpr std::size_t kLongest = 100;      // bytes; longer "words" are no words
constexpr std::size_t kMostKnown = 20000;  // the memory of words starts anew beyond that

// The few letters of Latin scripts whose lower case has the same length in UTF-8; enough for the languages of
// a guide.
char32_t lowered(char32_t c) {
  if (c >= 'A' && c <= 'Z') return c + 32;
  if ((c >= 0xC0 && c <= 0xDE && c != 0xD7)) return c + 32;
  if (c >= 0x100 && c <= 0x17F && c != 0x130 && c != 0x131 && c != 0x138 && c != 0x149 && c != 0x178 &&
      c != 0x17F) {
    const bool oddIsUpper = (c >= 0x139 && c <= 0x148) || (c >= 0x179 && c <= 0x17E);
    return oddIsUpper == (c % 2 == 1) ? c + 1 : c;
  }
  return c;
}

bool isLetter(char32_t c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
         (c >= 0xC0 && c <= 0x24F && c != 0xD7 && c != 0xF7) || (c >= 0x370 && c <= 0x52F) ||
         (c >= 0x1E00 && c <= 0x1FFF);
}

}  // namespace

struct Hyphenator::Patterns {
  HyphenDict* dictionary = nullptr;
  ~Patterns() {
    if (dictionary) hnj_hyphen_free(dictionary);
  }
};

Hyphenator::Hyphenator(const source::Files& files, std::string_view language, std::string_view wordList,
                       const std::vector<std::string>& exceptions, int left, int right,
                       const std::string& folder)
    : left_(left), right_(right) {
  for (std::string_view line : base::split(wordList, '\n')) {
    line = base::trimmed(line.substr(0, line.find('#')));
    if (!line.empty()) addException(line);
  }
  for (const std::string& one : exceptions) addException(one);
  std::string name(language);
  std::replace(name.begin(), name.end(), '-', '_');
  if (name.find_first_of("/.") != std::string::npos) return;
  const auto plain = name.substr(0, name.find('_'));
  for (const std::string& wanted : {name, plain, plain == "en" ? std::string("en_GB") : std::string()}) {
    if (wanted.empty()) continue;
    const auto read = files.read(source::pathJoined(folder, "hyph_" + wanted + ".dic"));
    if (!read.ok() || read.bytes.empty()) continue;
    std::string bytes = read.bytes;
    FILE* stream = fmemopen(bytes.data(), bytes.size(), "r");
    if (!stream) continue;
    HyphenDict* dictionary = hnj_hyphen_load_file(stream);
    std::fclose(stream);
    if (!dictionary) continue;
    patterns_ = std::make_unique<Patterns>();
    patterns_->dictionary = dictionary;
    break;
  }
}

Hyphenator::~Hyphenator() = default;

void Hyphenator::addException(std::string_view written) {
  std::string word;
  std::vector<std::uint16_t> at;
  std::uint16_t letters = 0;
  for (std::size_t i = 0; i < written.size();) {
    const char32_t c = base::nextCodePoint(written, i);
    if (c == '-') {
      if (letters > 0) at.push_back(letters);
    } else {
      base::appendUtf8(word, lowered(c));
      ++letters;
    }
  }
  exceptions_[word] = std::move(at);
}

const std::vector<std::uint16_t>& Hyphenator::points(std::string_view word) {
  static const std::vector<std::uint16_t> none;
  if (word.size() < static_cast<std::size_t>(left_ + right_) || word.size() > kLongest) return none;
  if (known_.size() > kMostKnown) known_.clear();
  auto [place, fresh] = known_.try_emplace(std::string(word));
  if (fresh) place->second = found(word);
  return place->second;
}

std::vector<std::uint16_t> Hyphenator::found(std::string_view word) {
  // The run of letters in the middle, in lower case, and where each of its letters stands in the word.
  std::string letters;
  std::vector<std::uint16_t> offsets;
  bool ended = false;
  for (std::size_t at = 0; at < word.size();) {
    const std::size_t start = at;
    const char32_t c = base::nextCodePoint(word, at);
    if (isLetter(c)) {
      if (ended) return {};
      base::appendUtf8(letters, lowered(c));
      offsets.push_back(static_cast<std::uint16_t>(start));
    } else if (c >= '0' && c <= '9') {
      return {};
    } else if (!offsets.empty()) {
      ended = true;
    }
  }
  const int count = static_cast<int>(offsets.size());
  if (count < left_ + right_) return {};
  std::vector<std::uint16_t> out;
  auto allow = [&](int letter) {
    if (letter >= left_ && count - letter >= right_) out.push_back(offsets[static_cast<std::size_t>(letter)]);
  };
  if (const auto exception = exceptions_.find(letters); exception != exceptions_.end()) {
    for (const std::uint16_t letter : exception->second) allow(letter);
    return out;
  }
  if (!patterns_) return {};
  std::vector<char> marks(letters.size() + 5);
  char** replaced = nullptr;
  int* positions = nullptr;
  int* cuts = nullptr;
  const int failed =
      hnj_hyphen_hyphenate3(patterns_->dictionary, letters.data(), static_cast<int>(letters.size()),
                            marks.data(), nullptr, &replaced, &positions, &cuts, left_, right_, 0, 0);
  // Breaks that change the spelling are left out: the text must come out of the page as it went in.
  for (int i = 0; !failed && i + 1 < count; ++i)
    if ((marks[static_cast<std::size_t>(i)] & 1) && !(replaced && replaced[i])) allow(i + 1);
  if (replaced) {
    for (std::size_t i = 0; i < letters.size(); ++i) std::free(replaced[i]);
    std::free(replaced);
  }
  std::free(positions);
  std::free(cuts);
  return out;
}

}  // namespace saggar::render
