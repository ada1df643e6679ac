#include "base/text.h"

#include <unicode/normalizer2.h>
#include <unicode/uchar.h>
#include <unicode/unistr.h>

#include "base/utf8.h"

namespace saggar::base {
namespace {

bool isAscii(std::string_view text) {
  for (char c : text)
    if (static_cast<unsigned char>(c) >= 0x80) return false;
  return true;
}

std::string asciiLower(std::string_view text) {
  std::string out(text);
  for (char& c : out)
    if (isUpper(c)) c = static_cast<char>(c - 'A' + 'a');
  return out;
}

icu::UnicodeString fromUtf8(std::string_view text) {
  return icu::UnicodeString::fromUTF8(icu::StringPiece(text.data(), static_cast<int32_t>(text.size())));
}

}  // namespace

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && isBlank(text.front())) text.remove_prefix(1);
  while (!text.empty() && isBlank(text.back())) text.remove_suffix(1);
  return text;
}

std::string onOneLine(std::string_view text) {
  std::string out;
  for (const char c : trimmed(text)) {
    if (!isBlank(c)) {
      out += c;
    } else if (out.back() != ' ') {
      out += ' ';
    }
  }
  return out;
}

std::vector<std::string_view> split(std::string_view text, char separator) {
  std::vector<std::string_view> pieces;
  while (true) {
    const std::size_t at = text.find(separator);
    pieces.push_back(text.substr(0, at));
    if (at == std::string_view::npos) return pieces;
    text.remove_prefix(at + 1);
  }
}

std::string joined(const std::vector<std::string>& parts, std::string_view between) {
  std::string out;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (i != 0) out += between;
    out += parts[i];
  }
  return out;
}

std::string listedShortly(std::vector<std::string> parts, std::size_t most) {
  if (parts.size() > most) {
    const std::size_t others = parts.size() - most + 1;
    parts.resize(most - 1);
    parts.push_back(counted(others, "other"));
  }
  return listedInWords(parts);
}

std::string listedInWords(const std::vector<std::string>& parts, std::string_view lastWord) {
  std::string out;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (i != 0) {
      if (i + 1 == parts.size()) {
        out += ' ';
        out += lastWord;
        out += ' ';
      } else {
        out += ", ";
      }
    }
    out += parts[i];
  }
  return out;
}

std::string folded(std::string_view text) {
  if (isAscii(text)) return asciiLower(text);
  UErrorCode status = U_ZERO_ERROR;
  const icu::Normalizer2* nfc = icu::Normalizer2::getNFCInstance(status);
  if (U_FAILURE(status)) return std::string(text);
  icu::UnicodeString unicode = nfc->normalize(fromUtf8(text), status);
  if (U_FAILURE(status)) return std::string(text);
  unicode.foldCase();
  std::string out;
  unicode.toUTF8String(out);
  return out;
}

std::string foldedForFinding(std::string_view text) {
  std::string plain;
  if (isAscii(text)) {
    plain = asciiLower(text);
  } else {
    UErrorCode status = U_ZERO_ERROR;
    const icu::Normalizer2* nfkd = icu::Normalizer2::getNFKDInstance(status);
    icu::UnicodeString unicode = fromUtf8(text);
    if (U_SUCCESS(status)) unicode = nfkd->normalize(unicode, status);
    unicode.foldCase();
    icu::UnicodeString bare;
    for (int32_t i = 0; i < unicode.length(); i = unicode.moveIndex32(i, 1)) {
      const UChar32 c = unicode.char32At(i);
      if (u_charType(c) != U_NON_SPACING_MARK) bare.append(c);
    }
    bare.toUTF8String(plain);
  }
  std::string out;
  for (std::size_t at = 0; at < plain.size();) {
    const char32_t c = nextCodePoint(plain, at);
    if (u_isalnum(static_cast<UChar32>(c))) {
      appendUtf8(out, c);
    } else if (u_isUWhiteSpace(static_cast<UChar32>(c)) && !out.empty() && out.back() != ' ') {
      out += ' ';
    }
  }
  while (!out.empty() && out.back() == ' ') out.pop_back();
  return out;
}

std::string counted(std::size_t number, std::string_view noun, std::string_view plural) {
  std::string out = std::to_string(number) + ' ';
  if (number == 1) return out.append(noun);
  if (!plural.empty()) return out.append(plural);
  return out.append(noun) += 's';
}

std::string shortened(std::string_view text, std::size_t most) {
  std::string out;
  std::size_t count = 0;
  for (std::size_t at = 0; at < text.size(); ++count) {
    if (count == most) return out += "…";
    const char32_t c = nextCodePoint(text, at);
    appendUtf8(out, c == U'\n' || c == U'\r' || c == U'\t' ? U' ' : c);
  }
  return out;
}

}  // namespace saggar::base
