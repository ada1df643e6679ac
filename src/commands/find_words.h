#pragma once
#include <array>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

// Words as `saggar find` compares them: capitals, accents and the signs between letters do not count.
namespace saggar::commands {

// The words of what was typed: "Quince JM-203" gives "quince" and "jm203".
std::vector<std::string> wordsToFind(std::string_view typed);

// 3 if `word` is the wanted one, 2 if it begins so, 1 if it is the wanted one with one letter wrong (from four letters
// on), 0 if it is another. Both folded.
int fit(std::string_view wanted, std::string_view word);

// A word of a text: folded, and where it stands. A word with signs in it comes whole ("jm203c1" of "JM-203-C/1") and
// then in its parts, each alone and together with its neighbours ("jm", "jm203", "203" …).
struct FoundWord {
  std::string_view folded;
  std::size_t from = 0;
  std::size_t until = 0;
  bool partOfOne = false;
};

// Calls `tell` for every word; what it is given lasts as long as the call.
template <class Tell>
void eachWord(std::string_view text, Tell&& tell);

// The words around a place, of about 90 letters; an ellipsis where something is left out, line ends as blanks.
std::string excerpt(std::string_view text, std::size_t from, std::size_t until);

namespace detail {
bool isSign(char c);
bool isAscii(std::string_view word);
std::string folded(std::string_view word);
}  // namespace detail

template <class Tell>
void eachWord(std::string_view text, Tell&& tell) {
  std::string whole;
  for (std::size_t at = 0; at < text.size();) {
    const auto blank = [&](std::size_t i) {
      return text[i] == ' ' || text[i] == '\n' || text[i] == '\t' || text[i] == '\r';
    };
    while (at < text.size() && (blank(at) || detail::isSign(text[at]))) ++at;
    std::size_t end = at;
    while (end < text.size() && !blank(end)) ++end;
    std::size_t last = end;
    while (last > at && detail::isSign(text[last - 1])) --last;
    if (last > at) {
      whole = detail::folded(text.substr(at, last - at));
      if (!whole.empty()) tell(FoundWord{whole, at, last, false});
      std::array<std::size_t, 6> begins{};
      std::size_t begun = 0;
      for (std::size_t from = at, i = at; i <= last; ++i) {
        if (i < last && !detail::isSign(text[i])) continue;
        if (i > from) {
          if (begun < begins.size()) begins[begun++] = from;
          const std::size_t runs = begun < begins.size() ? begun : 1;
          for (std::size_t run = begun - runs; run < begun; ++run) {
            if (begins[run] == at && i == last) continue;  // the whole, told already
            whole = detail::folded(text.substr(begins[run], i - begins[run]));
            if (!whole.empty()) tell(FoundWord{whole, begins[run], i, true});
          }
        }
        from = i + 1;
      }
    }
    at = end;
  }
}

}  // namespace saggar::commands
