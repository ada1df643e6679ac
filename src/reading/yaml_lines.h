#pragma once
#include <cstdint>
#include <string>
#include <string_view>

#include "diagnostics/finding.h"
#include "reading/yaml_extent.h"

// Lines as an author sees them, for messages that print what to type instead.
namespace saggar::reading {

// "  - cite: x" taken apart. Columns count bytes from 0; offsets are those of the file.
struct Line {
  std::string_view text;  // without its end
  std::uint32_t begin = 0;
  std::uint32_t end = 0;
  std::size_t indent = 0;   // blanks in front
  std::size_t content = 0;  // column of what follows the dashes; the same as indent without one
  bool dash = false;
  bool hasKey = false;     // "word:" and a blank or the line's end follow
  std::string_view key;    // as typed; quoted keys with their quotes
  std::string_view value;  // what follows the key, or the dash, or the whole of the line, trimmed
  std::uint32_t valueAt = 0;

  bool visible() const { return content < text.size() && text[content] != '#'; }
  std::uint32_t contentAt() const { return begin + static_cast<std::uint32_t>(content); }
};
Line lineOf(const Piece& piece, std::uint32_t offset);

// "key" is a name an author would give a field: small letters, figures and hyphens.
bool looksLikeField(std::string_view key);

// The text in quotes that keep it as it is.
std::string inQuotes(std::string_view text);

// "put it in quotes: `…`" for what was typed from `begin` to `end`, a comment behind it left out.
std::string hintToQuote(const Piece& piece, std::uint32_t begin, std::uint32_t end);

// True if the quoted text from `open` to `close` takes in the beginning of another field or item: its closing mark
// was forgotten, and the next quotation mark ended it.
bool quoteRunsOver(const Piece& piece, std::uint32_t open, std::uint32_t close);

// The finding for a quotation mark that is not closed.
diagnostics::Finding openQuote(const Piece& piece, std::uint32_t open);

// What an author is shown of a text: its line breaks as blanks, not too long.
std::string shown(std::string_view text);

}  // namespace saggar::reading
