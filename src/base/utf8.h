#pragma once
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

// UTF-8 as bytes and as code points. Nothing here allocates except where it returns a string.
namespace saggar::base {

// Offset of the first byte that is not part of well-formed UTF-8 (Unicode 15, table 3-7), or npos if all is well.
// NUL counts as well-formed here; callers that refuse it look for it themselves.
std::size_t firstInvalidUtf8(std::string_view text);

// The code point at `at`, which is moved past it. Malformed bytes give U+FFFD and advance by one byte.
char32_t nextCodePoint(std::string_view text, std::size_t& at);

void appendUtf8(std::string& out, char32_t codePoint);

std::size_t countCodePoints(std::string_view text);

// The text with each malformed byte replaced by U+FFFD.
std::string sanitizedUtf8(std::string_view text);

}  // namespace saggar::base
