#include "base/text.h"
#include "choosing/choose.h"
#include "choosing/sort_key.h"

// The order of codes: letters, then numbers by value, then the rest.
namespace saggar::choosing {

namespace {

// A number without its zeros in front, longer ones after shorter ones.
void appendNumber(std::string& key, std::string_view digits) {
  while (digits.size() > 1 && digits[0] == '0') digits.remove_prefix(1);
  const std::size_t length = std::min<std::size_t>(digits.size(), 0xFFFF);
  key += static_cast<char>(length >> 8);
  key += static_cast<char>(length & 0xFF);
  key += digits;
}

std::size_t digitsAt(std::string_view text, std::size_t at) {
  std::size_t end = at;
  while (end < text.size() && base::isDigit(text[end])) ++end;
  return end - at;
}

}  // namespace

std::string codeKey(std::string_view code) {
  const std::string text = base::folded(base::trimmed(code));
  std::string key;
  std::size_t at = 0;
  // Signs between letters and number say nothing of the order: `JM-045` stands with `JM 045`.
  for (; at < text.size() && !base::isDigit(text[at]); ++at)
    if (base::isLower(text[at]) || static_cast<unsigned char>(text[at]) >= 0x80) key += text[at];
  key += '\x01';
  for (; at < text.size();) {
    const std::size_t digits = digitsAt(text, at);
    if (digits == 0) {
      key += text[at++];
      continue;
    }
    key += '\x02';
    appendNumber(key, std::string_view(text).substr(at, digits));
    at += digits;
  }
  key += '\0';
  return key;
}

bool codeBefore(std::string_view a, std::string_view b) {
  const std::string x = codeKey(a);
  const std::string y = codeKey(b);
  return x != y ? x < y : a < b;
}

}  // namespace saggar::choosing
