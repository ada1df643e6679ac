#include "dates/two_ways.h"

#include "dates/parse.h"
#include "dates/print.h"

namespace saggar::dates {
namespace {

constexpr std::size_t kBytes = 7;  // 1930-35

bool isFigure(char c) {
  return c >= '0' && c <= '9';
}

// What may not stand next to it: it would be part of a longer date.
bool goesOn(char c) {
  return isFigure(c) || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || c == '-';
}

bool standsAt(std::string_view text, std::size_t at) {
  if (at != 0 && goesOn(text[at - 1])) return false;
  if (at + kBytes < text.size() && goesOn(text[at + kBytes])) return false;
  for (std::size_t i = 0; i < kBytes; ++i)
    if (i == 4 ? text[at + i] != '-' : !isFigure(text[at + i])) return false;
  return true;
}

}  // namespace

std::optional<TwoWays> meantInTwoWays(std::string_view text) {
  for (std::size_t dash = text.find('-'); dash != std::string_view::npos; dash = text.find('-', dash + 1)) {
    if (dash < 4 || dash + 3 > text.size() || !standsAt(text, dash - 4)) continue;
    const std::string part(text.substr(dash - 4, kBytes));
    const Result date = parseEdtf(part);
    if (!date || !date->looksLikeYears()) continue;
    const std::string from = part.substr(0, 4);
    const std::string until = part.substr(0, 2) + part.substr(5);
    return TwoWays{
        dash - 4, kBytes,
        "`" + part + "` is read as " + inWords(*date) + ", not as the years " + from + " to " + until,
        "type `" + from + '/' + until + "` for the years, `" + inTable(*date) + "` for the part of a year"};
  }
  return std::nullopt;
}

}  // namespace saggar::dates
