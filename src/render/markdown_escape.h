#pragma once
#include <string>
#include <string_view>

// The one place where words become Markdown that means just these words.
namespace saggar::render {

struct Surroundings {
  bool lineStart = false;      // nothing stands before them on their line of a paragraph
  bool lineEnd = false;        // nothing stands behind them
  bool inBrackets = false;     // between the square brackets of a link or picture
  bool heading = false;        // they end a heading
  bool afterMark = false;      // a footnote's mark stands right before them
  bool beforeBracket = false;  // a square bracket opens right behind them
};

// The words with a backslash before each sign that would mean something where they stand; blanks at the ends
// of a line and line ends as character references. Only an address of electronic mail cannot be kept from
// becoming a link in GFM: its words stay the same.
std::string escapedMarkdown(std::string_view words, const Surroundings& around);

// "(<a b>" without the brackets: a link's destination, with < and > where it needs them.
std::string markdownDestination(std::string_view address);

// A link's title between quotation marks, a code block's info string, and the name in `<a id="…">`.
std::string markdownTitle(std::string_view title);
std::string markdownInfo(std::string_view info);
std::string anchorTag(std::string_view name);

// Words between as many backquotes as they need; empty for no words.
std::string markdownCode(std::string_view words);

// The length of the longest run of a sign.
std::size_t longestRun(std::string_view text, char sign);

}  // namespace saggar::render
