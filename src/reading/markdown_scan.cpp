#include <array>
#include <cstring>

#include "base/utf8.h"
#include "reading/markdown.h"

namespace saggar::reading {
namespace {

bool holds(std::string_view text, std::string_view sought) {
  return text.find(sought) != std::string_view::npos;
}

// Signs that open or close something nested.
constexpr std::array<bool, 256> kNesting = [] {
  std::array<bool, 256> signs{};
  for (const char c : {'>', '-', '+', '*', '_', '~', '!', '[', '.', ')'})
    signs[static_cast<unsigned char>(c)] = true;
  return signs;
}();

bool mayNestDeeply(std::string_view text) {
  constexpr std::size_t kFewest = static_cast<std::size_t>(kDeepest) / 2;  // `**` nests twice: `*` in `*`
  if (text.size() < 2 * kFewest) return false;
  std::size_t count = 0;
  for (char c : text) count += kNesting[static_cast<unsigned char>(c)];
  return count >= kFewest;
}

}  // namespace

bool scanForLinks(std::string_view text) {
  if (text.empty()) return false;
  if (std::memchr(text.data(), '<', text.size()) != nullptr) return true;
  for (std::size_t i = text.find(']'); i != std::string_view::npos; i = text.find(']', i + 1)) {
    if (i + 1 < text.size() && (text[i + 1] == '(' || text[i + 1] == '[' || text[i + 1] == ':')) return true;
  }
  if (holds(text, "[^") || holds(text, "```") || holds(text, "~~~") || holds(text, "://") ||
      holds(text, "www.") || std::memchr(text.data(), '@', text.size()) != nullptr ||
      std::memchr(text.data(), '\0', text.size()) != nullptr) {
    return true;
  }
  if (std::memchr(text.data(), '|', text.size()) != nullptr && holds(text, "-")) return true;
  return mayNestDeeply(text) || base::firstInvalidUtf8(text) != std::string_view::npos;
}

}  // namespace saggar::reading
