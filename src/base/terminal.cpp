#include "base/terminal.h"

#include <unicode/uchar.h>

#include "base/utf8.h"

namespace saggar::base {

int columnsOf(char32_t codePoint) {
  const auto c = static_cast<UChar32>(codePoint);
  if (codePoint < 0x300) return 1;
  const auto category = static_cast<unsigned>(u_charType(c));
  if (category == U_NON_SPACING_MARK || category == U_ENCLOSING_MARK || category == U_FORMAT_CHAR) return 0;
  const int width = u_getIntPropertyValue(c, UCHAR_EAST_ASIAN_WIDTH);
  return width == U_EA_WIDE || width == U_EA_FULLWIDTH ? 2 : 1;
}

bool isUnsafeForTerminal(char32_t c) {
  return c < 0x20 || (c >= 0x7F && c < 0xA0) || c == 0x2028 || c == 0x2029 || c == 0x061C || c == 0x200E ||
         c == 0x200F || (c >= 0x202A && c <= 0x202E) || (c >= 0x2066 && c <= 0x2069);
}

std::string forTerminal(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t begin = at;
    const char32_t c = nextCodePoint(text, at);
    if (c == U'\t' || c == U'\n' || c == U'\r') {
      out += ' ';
    } else if (isUnsafeForTerminal(c) || (c == 0xFFFD && at == begin + 1)) {
      appendUtf8(out, U'·');
    } else {
      appendUtf8(out, c);
    }
  }
  return out;
}

}  // namespace saggar::base
