#pragma once
#include <cmath>
#include <cstdint>
#include <string>

// The few pieces of PDF's page language that several files write.
namespace saggar::render {

// At most three decimals, no exponent, no trailing zeros: "12", "-0.5", "3.25".
inline void appendNumber(std::string& out, double value) {
  long long thousandths = std::llround(value * 1000);
  if (thousandths < 0) {
    out += '-';
    thousandths = -thousandths;
  }
  char buffer[32];
  char* end = buffer + sizeof buffer;
  char* at = end;
  long long whole = thousandths / 1000;
  int rest = static_cast<int>(thousandths % 1000);
  if (rest != 0) {
    int digits = 3;
    while (rest % 10 == 0) {
      rest /= 10;
      --digits;
    }
    for (; digits > 0; --digits) {
      *--at = static_cast<char>('0' + rest % 10);
      rest /= 10;
    }
    *--at = '.';
  }
  do {
    *--at = static_cast<char>('0' + whole % 10);
    whole /= 10;
  } while (whole != 0);
  out.append(at, end);
}

// A glyph as two bytes of a "(…)" string.
inline void appendGlyph(std::string& out, unsigned glyph) {
  for (const char c : {static_cast<char>(glyph >> 8 & 0xFF), static_cast<char>(glyph & 0xFF)}) {
    switch (c) {
      case '(': out += "\\("; break;
      case ')': out += "\\)"; break;
      case '\\': out += "\\\\"; break;
      case '\r': out += "\\r"; break;
      case '\n': out += "\\n"; break;
      default: out += c;
    }
  }
}

// UTF-8 as the hexadecimal digits of UTF-16, big end first, without brackets or mark.
void appendUtf16Hex(std::string& out, const std::string& utf8);
// "<FEFF…>": a text string anywhere in a PDF file.
std::string textString(const std::string& utf8);

}  // namespace saggar::render
