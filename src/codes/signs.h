#pragma once
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

// A code as the eye compares it: sign by sign, case set aside, all dashes alike, runs of blanks as one,
// composed and decomposed letters the same. Places in the typed text are kept, so that whatever is reported
// is reported as typed.
namespace saggar::codes {

struct Sign {
  char32_t folded = 0;      // what is compared
  char32_t plain = 0;       // the same with its case, for patterns
  std::uint32_t begin = 0;  // bytes of the typed text
  std::uint32_t end = 0;
};

// Beyond Unicode, so that no typed sign equals them.
constexpr char32_t kAnySign = 0x110000;     // a typed `?`: one sign that cannot be read
constexpr char32_t kBrokenSign = 0x110001;  // bytes that are no UTF-8: equal to nothing

// Longer texts are no codes: nothing reads them, and the time for one text stays bounded.
constexpr std::size_t kLongestCode = 120;

enum class Questions { anySign, literal };

// Blanks at both ends are left out. A `?` stands for any sign where `questions` says so.
std::vector<Sign> toSigns(std::string_view text, Questions questions);

// The folded signs of a text in a rule, where `?` is itself.
std::u32string foldedSigns(std::string_view text);

inline bool fits(const Sign& typed, char32_t wanted) {
  return typed.folded == wanted || (typed.folded == kAnySign && wanted != kBrokenSign);
}

inline bool isDigitSign(const Sign& sign) {
  return sign.folded >= U'0' && sign.folded <= U'9';
}
bool isLetterSign(const Sign& sign);

// All dashes as hyphens; the rest as it is.
std::string withPlainDashes(std::string_view text);

// Whether a typed text (`?` for a sign that cannot be read) can be this value.
bool sameText(std::string_view typed, std::string_view value);

// Equal for texts that compare as equal; for looking codes up. A `?` stays one.
std::string foldedKey(std::string_view text);

}  // namespace saggar::codes
