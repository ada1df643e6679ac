#include "render/pdf/operators.h"

#include "base/utf8.h"

namespace saggar::render {

void appendUtf16Hex(std::string& out, const std::string& utf8) {
  static constexpr char kDigits[] = "0123456789ABCDEF";
  auto unit = [&](unsigned value) {
    for (int shift = 12; shift >= 0; shift -= 4) out += kDigits[value >> shift & 0xF];
  };
  for (std::size_t at = 0; at < utf8.size();) {
    const char32_t c = base::nextCodePoint(utf8, at);
    if (c < 0x10000) {
      unit(static_cast<unsigned>(c));
    } else {
      unit(0xD800 + ((c - 0x10000) >> 10));
      unit(0xDC00 + ((c - 0x10000) & 0x3FF));
    }
  }
}

std::string textString(const std::string& utf8) {
  std::string out = "<FEFF";
  appendUtf16Hex(out, utf8);
  out += '>';
  return out;
}

}  // namespace saggar::render
