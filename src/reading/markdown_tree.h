#pragma once
#include <cmark-gfm.h>

#include <string>
#include <string_view>
#include <unordered_map>
#include <unordered_set>
#include <utility>
#include <vector>

#include "reading/markdown.h"
#include "reading/markdown_places.h"

// The parser's tree made into ours. What the parser knows of places is only trusted for whole lines.
namespace saggar::reading {

// Where the lines of a text begin, with line ends as the parser counts them (LF, CR LF and CR).
class LineStarts {
 public:
  explicit LineStarts(std::string_view text);
  std::size_t begin(int line) const;  // lines count from 1; past the last one: the end of the text
  std::size_t end(int line) const;    // without the line end
  int lineOf(std::size_t offset) const;

 private:
  std::string_view text_;
  std::vector<std::size_t> starts_;
};

class MarkdownTree {
 public:
  MarkdownTree(std::string_view text, const TextMap& places, const MarkdownWords& words)
      : text_(text), places_(places), words_(words), lines_(text), definitions_(text) {}

  MarkdownResult take(cmark_node* root);

 private:
  using Inlines = document::Inlines;
  using Blocks = document::Blocks;

  // Blocks (markdown_blocks.cpp)
  void addBlocks(cmark_node* parent, Blocks& out, int depth);
  void addParagraph(cmark_node* node, Blocks& out, int depth);
  void addHeading(cmark_node* node, Blocks& out, int depth);
  Inlines onOneLine(Inlines words);
  void addList(cmark_node* node, Blocks& out, int depth);
  void addCode(cmark_node* node, Blocks& out);
  void addTable(cmark_node* node, Blocks& out, int depth);
  void addHtml(cmark_node* node, Blocks& out);
  void addPlainly(cmark_node* node, Blocks& out);
  void checkFence(cmark_node* node, const std::string& info, const std::string& name);
  void noteUnusedFootnotes();
  bool markPlace(Blocks& out, std::size_t from);

  // Inlines (markdown_inlines.cpp)
  void addInlines(cmark_node* parent, Inlines& out, LinkPlaces& at, int depth);
  void addText(std::string_view words, Inlines& out);
  void addTyped(std::string_view words, Inlines& out, LinkPlaces& at);
  void addHtmlInline(cmark_node*& node, Inlines& out, LinkPlaces& at);
  void addLink(cmark_node* node, Inlines& out, LinkPlaces& at, int depth);
  void addImage(cmark_node* node, Inlines& out, LinkPlaces& at);
  void addFootnote(cmark_node* node, Inlines& out, LinkPlaces& at, int depth);
  bool addOurs(const std::string& url, bool bare, Inlines& children, Inlines& out, source::Span span);
  void refuse(const std::string& url, const Inlines& words, source::Span span);
  Inlines wordsOf(cmark_node* node);
  source::Span placeOf(const std::string& url, std::string_view shown, LinkPlaces& at);

  // Both
  Range rangeOf(cmark_node* node) const;
  source::Span spanOf(Range range) const { return places_.at(range.begin, range.end); }
  void note(diagnostics::Rule rule, source::Span span, std::string message, std::string hint);
  void noteTooDeep(source::Span span);

  std::string_view text_;
  const TextMap& places_;
  const MarkdownWords& words_;
  LineStarts lines_;
  DefinitionPlaces definitions_;
  AnchorNames anchors_;
  std::vector<cmark_node*> footnotes_;          // definitions in the order of their numbers
  std::vector<bool> footnoteOpen_;              // being set just now: a footnote cannot hold itself
  std::size_t footnoteBytes_ = 0;               // of definitions set so far, again and again
  std::unordered_set<std::string> openedTags_;  // in the paragraph at hand
  std::vector<std::pair<int, int>> codeLines_;  // from, to, of code and HTML
  bool tooDeep_ = false;
  MarkdownResult result_;
};

}  // namespace saggar::reading
