#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

// cmark-gfm 0.29 takes quadratic time on some texts that nobody writes on purpose: measured, sixty thousand
// times
// `![[]()` take half a minute, a thousand columns above a thousand rows of one letter a second and much
// memory. The library cannot be stopped half-way, so the work is estimated before it starts, in one pass over
// the text, and a text that would take too long is not parsed. The cost: such a text is shown as it was
// typed.
namespace saggar::reading {

struct TooMuchWork {
  std::size_t at;    // where the text becomes too much
  std::string what;  // in words: "`![` typed 60,000 times in one paragraph"
};

// Gives an answer only for a text that would take more than about 0.2 s plus half a second a megabyte.
std::optional<TooMuchWork> tooMuchWork(std::string_view text);

}  // namespace saggar::reading
