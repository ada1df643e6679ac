#pragma once
#include <algorithm>
#include <cstdint>

namespace saggar::choosing {

// Whether a condition holds, as far as is on record. What is not recorded may still be so.
enum class Answer : std::uint8_t { no, maybe, yes };

constexpr Answer both(Answer a, Answer b) {
  return std::min(a, b);
}
constexpr Answer either(Answer a, Answer b) {
  return std::max(a, b);
}
constexpr Answer opposite(Answer a) {
  return a == Answer::yes ? Answer::no : a == Answer::no ? Answer::yes : Answer::maybe;
}

}  // namespace saggar::choosing
