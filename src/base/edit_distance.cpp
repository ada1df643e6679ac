#include "base/edit_distance.h"

#include <algorithm>
#include <array>
#include <tuple>

#include "base/text.h"

namespace saggar::base {
namespace {

void toAsciiLower(std::string& text) {
  for (char& c : text)
    if (isUpper(c)) c = static_cast<char>(c - 'A' + 'a');
}

}  // namespace

std::size_t editDistance(std::string_view a, std::string_view b, std::size_t limit) {
  if (a.size() > b.size()) std::swap(a, b);
  if (b.size() - a.size() > limit) return limit + 1;
  const std::size_t width = b.size() + 1;
  std::array<std::size_t, 3 * 48> few;  // for names; longer words come from a disk that was damaged
  std::vector<std::size_t> many(3 * width <= few.size() ? 0 : 3 * width);
  std::size_t* before = many.empty() ? few.data() : many.data();
  std::size_t* last = before + width;
  std::size_t* now = last + width;
  for (std::size_t j = 0; j < width; ++j) last[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    now[0] = i;
    std::size_t least = i;
    for (std::size_t j = 1; j < width; ++j) {
      const std::size_t change = a[i - 1] == b[j - 1] ? 0 : 1;
      now[j] = std::min({last[j] + 1, now[j - 1] + 1, last[j - 1] + change});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
        now[j] = std::min(now[j], before[j - 2] + 1);
      least = std::min(least, now[j]);
    }
    if (least > limit) return limit + 1;
    std::swap(before, last);
    std::swap(last, now);
  }
  return std::min(last[b.size()], limit + 1);
}

std::size_t nearLimit(std::size_t length) {
  return length <= 4 ? 1 : length <= 9 ? 2 : 3;
}

std::optional<std::string_view> nearest(std::string_view word, std::span<const std::string_view> candidates) {
  std::string typed(word);
  toAsciiLower(typed);
  const std::size_t limit = nearLimit(word.size());
  std::optional<std::string_view> best;
  std::tuple<std::size_t, std::size_t, std::size_t> bestRank;
  std::string folded;
  for (std::string_view candidate : candidates) {
    const std::size_t gap = std::max(word.size(), candidate.size()) - std::min(word.size(), candidate.size());
    if (gap > limit || candidate == word) continue;
    folded.assign(candidate);
    toAsciiLower(folded);
    const std::size_t distance = editDistance(typed, folded, limit);
    if (distance > limit || (distance != 0 && distance >= std::max(word.size(), candidate.size()))) continue;
    const auto differ = std::mismatch(typed.begin(), typed.end(), folded.begin(), folded.end());
    const std::size_t shared = static_cast<std::size_t>(differ.first - typed.begin());
    const std::tuple rank{distance, word.size() - shared, gap};
    if (!best || rank < bestRank) {
      best = candidate;
      bestRank = rank;
    }
  }
  return best;
}

}  // namespace saggar::base
