#include "dates/vocabulary.h"

#include <algorithm>
#include <array>

#include "base/text.h"

namespace saggar::dates {
namespace {

constexpr std::array<std::string_view, 12> kMonths = {"january",   "february", "march",    "april",
                                                      "may",       "june",     "july",     "august",
                                                      "september", "october",  "november", "december"};

}  // namespace

char lower(char c) {
  return base::isUpper(c) ? static_cast<char>(c + ('a' - 'A')) : c;
}

bool equalIgnoringCase(std::string_view text, std::string_view lowerText) {
  return text.size() == lowerText.size() && std::equal(text.begin(), text.end(), lowerText.begin(),
                                                       [](char a, char b) { return lower(a) == b; });
}

int monthNamed(std::string_view word) {
  if (!word.empty() && word.back() == '.') word.remove_suffix(1);
  if (word.size() < 3) return 0;
  for (std::size_t i = 0; i < kMonths.size(); ++i) {
    const std::string_view name = kMonths[i];
    const bool shortened = word.size() == 3 || (i == 8 && word.size() == 4);
    if (equalIgnoringCase(word, shortened ? name.substr(0, word.size()) : name))
      return static_cast<int>(i) + 1;
  }
  return 0;
}

int seasonNamed(std::string_view word) {
  constexpr std::array<std::string_view, 5> kSeasons = {"spring", "summer", "autumn", "winter", "fall"};
  for (std::size_t i = 0; i < kSeasons.size(); ++i) {
    if (equalIgnoringCase(word, kSeasons[i])) return i == 4 ? 23 : 21 + static_cast<int>(i);
  }
  return 0;
}

int dayNumber(std::string_view token, bool ordinal) {
  std::size_t digits = 0;
  int value = 0;
  for (; digits < token.size() && digits < 2 && base::isDigit(token[digits]); ++digits) {
    value = value * 10 + (token[digits] - '0');
  }
  if (digits == 0) return 0;
  const std::string_view rest = token.substr(digits);
  if (rest.empty()) return ordinal ? 0 : value;
  for (const std::string_view ending : {"st", "nd", "rd", "th"}) {
    if (equalIgnoringCase(rest, ending)) return value;
  }
  return 0;
}

int ordinalNamed(std::string_view token) {
  constexpr std::array<std::string_view, 4> kWords = {"first", "second", "third", "fourth"};
  for (std::size_t i = 0; i < kWords.size(); ++i) {
    if (equalIgnoringCase(token, kWords[i])) return static_cast<int>(i) + 1;
  }
  return dayNumber(token, true);
}

bool hasDigits(std::string_view token, std::size_t least) {
  return static_cast<std::size_t>(std::count_if(token.begin(), token.end(), base::isDigit)) >= least;
}

}  // namespace saggar::dates
