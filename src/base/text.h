#pragma once
#include <string>
#include <string_view>
#include <vector>

// Plain text helpers that know no word of the subject.
namespace saggar::base {

inline bool isBlank(char c) {
  return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}
inline bool isDigit(char c) {
  return c >= '0' && c <= '9';
}
inline bool isLower(char c) {
  return c >= 'a' && c <= 'z';
}
inline bool isUpper(char c) {
  return c >= 'A' && c <= 'Z';
}

std::string_view trimmed(std::string_view text);

// Trimmed, and every run of blanks and line ends as one blank.
std::string onOneLine(std::string_view text);

// Pieces between separators; an empty text gives one empty piece.
std::vector<std::string_view> split(std::string_view text, char separator);

std::string joined(const std::vector<std::string>& parts, std::string_view between);

// "a, b and c"; empty for none.
// The same of at most so many, the last of them then "3 others".
std::string listedShortly(std::vector<std::string> parts, std::size_t most);
std::string listedInWords(const std::vector<std::string>& parts, std::string_view lastWord = "and");

// The text for comparing whole: NFC, then full case folding (Unicode, root locale whatever the environment).
std::string folded(std::string_view text);

// The text for finding: NFKD without marks, case folded, punctuation and blanks dropped between letters of one word;
// words are separated by single spaces. "JM-203/1" gives "jm2031", "Café au lait" gives "cafe au lait".
std::string foldedForFinding(std::string_view text);

// "treatment", 2 gives "2 treatments"; words that need another plural pass it.
std::string counted(std::size_t number, std::string_view noun, std::string_view plural = {});

// At most `most` code points, an ellipsis in place of the rest; newlines become blanks.
std::string shortened(std::string_view text, std::size_t most);

}  // namespace saggar::base
