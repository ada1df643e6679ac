#pragma once
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

// Inlines on their way to Markdown: a row of pieces, with the signs of emphasis between them.
namespace saggar::render {

struct MarkdownPiece {
  enum class Kind { words, code, solid, mark, open, close, softEnd, hardEnd };
  Kind kind = Kind::words;
  std::string text{};       // words and code: escaped last; everything else: as it is written
  bool inBrackets = false;  // words between the brackets of a link
  int group = 0;            // open and close of one emphasis share it
  bool inner = false;       // an emphasis within two others
};
using MarkdownPieces = std::vector<MarkdownPiece>;

inline bool isLineEnd(const MarkdownPiece& piece) {
  return piece.kind == MarkdownPiece::Kind::softEnd || piece.kind == MarkdownPiece::Kind::hardEnd;
}

// How many bytes of blanks begin or end the words, as the parser of emphasis knows blanks (Unicode's too).
std::size_t leadingBlanks(std::string_view words);
std::size_t trailingBlanks(std::string_view words);

// Makes every sign of emphasis in escaped pieces open or close what it should, by changing letters beside it
// into character references; takes out (empties) the signs that nothing can help. Groups are numbered from 1
// to `groups`.
void settleEmphasis(MarkdownPieces& pieces, int groups);

}  // namespace saggar::render
