#include "commands/find_words.h"

#include <algorithm>

#include "base/edit_distance.h"
#include "base/text.h"
#include "base/utf8.h"

namespace saggar::commands {
namespace detail {

bool isSign(char c) {
  return static_cast<unsigned char>(c) < 0x80 && !base::isLower(c) && !base::isUpper(c) &&
         !base::isDigit(c) && !base::isBlank(c);
}

bool isAscii(std::string_view word) {
  return std::all_of(word.begin(), word.end(), [](char c) { return static_cast<unsigned char>(c) < 0x80; });
}

std::string folded(std::string_view word) {
  if (!isAscii(word)) return base::foldedForFinding(word);
  std::string out;
  out.reserve(word.size());
  for (const char c : word)
    if (!isSign(c)) out += base::isUpper(c) ? static_cast<char>(c - 'A' + 'a') : c;
  return out;
}

}  // namespace detail

std::vector<std::string> wordsToFind(std::string_view typed) {
  std::vector<std::string> out;
  const std::string folded = base::foldedForFinding(typed);
  for (std::string_view word : base::split(folded, ' '))
    if (!word.empty()) out.emplace_back(word);
  return out;
}

int fit(std::string_view wanted, std::string_view word) {
  if (word.starts_with(wanted)) return word.size() == wanted.size() ? 3 : 2;
  return wanted.size() >= 4 && base::editDistance(wanted, word, 1) <= 1 ? 1 : 0;
}

std::string excerpt(std::string_view text, std::size_t from, std::size_t until) {
  constexpr std::size_t kBefore = 40;
  constexpr std::size_t kMost = 90;
  auto atLetter = [&](std::size_t at) {
    while (at > 0 && at < text.size() && (static_cast<unsigned char>(text[at]) & 0xC0) == 0x80) --at;
    return at;
  };
  std::size_t begin = 0;
  std::size_t end = text.size();
  if (text.size() > kMost) {
    begin = from <= kBefore ? 0 : atLetter(from - kBefore);
    const std::size_t blank = text.find_first_of(" \n", begin);
    if (begin > 0 && blank < from) begin = blank + 1;
    end = std::min(text.size(), std::max(until, begin + kMost));
    if (end < text.size()) {
      const std::size_t lastBlank = text.find_last_of(" \n", end);
      end = lastBlank != std::string_view::npos && lastBlank >= until ? lastBlank
                                                                      : atLetter(std::max(end, until));
    }
  }
  std::string out = begin > 0 ? "… " : "";
  bool blank = false;
  for (std::size_t at = begin; at < end;) {
    const char32_t c = base::nextCodePoint(text, at);
    if (c == U' ' || c == U'\n' || c == U'\r' || c == U'\t') {
      blank = !out.empty();
      continue;
    }
    if (blank && !out.ends_with(' ')) out += ' ';
    blank = false;
    base::appendUtf8(out, c < 32 || c == 127 ? U'·' : c);
  }
  return end < text.size() ? out + " …" : out;
}

}  // namespace saggar::commands
