#include <unicode/uchar.h>

#include "base/utf8.h"
#include "reading/markdown.h"

namespace saggar::reading {
namespace {

bool staysInAnchor(UChar32 c) {
  constexpr std::uint32_t kMarks = U_GC_M_MASK | U_GC_L_MASK | U_GC_ND_MASK | U_GC_PC_MASK;
  return c == '-' || (U_GET_GC_MASK(c) & kMarks) != 0;
}

}  // namespace

std::string headingAnchor(std::string_view words) {
  std::string out;
  for (std::size_t at = 0; at < words.size();) {
    const UChar32 c = static_cast<UChar32>(base::nextCodePoint(words, at));
    if (c == ' ' || c == '\n') {
      out += '-';
    } else if (staysInAnchor(c)) {
      base::appendUtf8(out, static_cast<char32_t>(u_tolower(c)));
    }
  }
  return out.find_first_not_of('-') == std::string::npos ? "section" : out;
}

std::string AnchorNames::unique(std::string name) {
  int& taken = taken_[name];
  if (taken++ == 0) return name;
  while (true) {
    std::string next = name + '-' + std::to_string(taken - 1);
    if (taken_.emplace(next, 1).second) return next;
    ++taken;
  }
}

}  // namespace saggar::reading
