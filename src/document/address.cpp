#include "document/address.h"

#include <string>

namespace saggar::document {
namespace {

bool isLetter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}
bool isFigure(char c) {
  return c >= '0' && c <= '9';
}

int hexValue(char c) {
  if (isFigure(c)) return c - '0';
  if (c >= 'a' && c <= 'f') return c - 'a' + 10;
  if (c >= 'A' && c <= 'F') return c - 'A' + 10;
  return -1;
}

// Without blanks and control characters, in small letters.
std::string bare(std::string_view address) {
  std::string out;
  for (char c : address) {
    const unsigned char byte = static_cast<unsigned char>(c);
    if (byte <= 0x20 || byte == 0x7F) continue;
    out += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  }
  return out;
}

// "&#58;", "&colon;": what would become another character if somebody decoded the address once more.
bool holdsCharacterReference(std::string_view text) {
  for (std::size_t i = text.find('&'); i != std::string_view::npos; i = text.find('&', i + 1)) {
    if (i + 1 < text.size() && text[i + 1] == '#') return true;
    std::size_t end = i + 1;
    while (end < text.size() && (isLetter(text[end]) || isFigure(text[end]))) ++end;
    if (end > i + 1 && end < text.size() && text[end] == ';') return true;
  }
  return false;
}

bool isSlash(char c) {
  return c == '/' || c == '\\';
}

}  // namespace

std::string percentDecoded(std::string_view text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '%' && i + 2 < text.size() && hexValue(text[i + 1]) >= 0 && hexValue(text[i + 2]) >= 0) {
      out += static_cast<char>(hexValue(text[i + 1]) * 16 + hexValue(text[i + 2]));
      i += 2;
    } else {
      out += text[i];
    }
  }
  return out;
}

AddressKind addressKind(std::string_view address) {
  const std::string plain = bare(address);
  if (plain.size() > 1 && isSlash(plain[0]) && isSlash(plain[1])) return AddressKind::unsafe;
  const std::size_t colon = plain.find(':');
  if (colon < plain.find_first_of("/\\?#")) {
    const std::string_view scheme = std::string_view(plain).substr(0, colon);
    if (scheme == "mailto") return AddressKind::outside;
    const bool web = scheme == "http" || scheme == "https";
    return web && plain.compare(colon + 1, 2, "//") == 0 ? AddressKind::outside : AddressKind::unsafe;
  }
  if (holdsCharacterReference(std::string_view(plain).substr(0, plain.find_first_of("/?")))) {
    return AddressKind::unsafe;
  }
  std::string decoded = plain;
  for (int round = 0; round < 3; ++round) {
    std::string next = bare(percentDecoded(decoded));
    if (next == decoded) break;
    decoded = std::move(next);
    if (decoded.find(':') < decoded.find_first_of("/\\?#")) return AddressKind::unsafe;
    if (decoded.size() > 1 && isSlash(decoded[0]) && isSlash(decoded[1])) return AddressKind::unsafe;
  }
  return AddressKind::relative;
}

}  // namespace saggar::document
