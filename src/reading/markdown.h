#pragma once
#include <span>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "diagnostics/rules.h"
#include "document/document.h"
#include "reading/text_map.h"
#include "source/span.h"

// Prose: CommonMark with GFM's tables, strike-through, task lists, footnotes and bare addresses, plus our
// links and blocks, read into the tree that is published.
//
//   [words](kind:id)  [words](kind:id.field)  <kind:id>      InlineKind::reference, `text` is "kind:id"
//   [locator](source:id)  <source:id>                        InlineKind::citation, `text` is the id
//   [words](<index:>)  [words](<index:Heading>)              InlineKind::index; the words stay
//   a fence whose info string begins with a block's name     BlockKind::query, `text` its YAML
//
// What the tree makes of the rest: a paragraph that is one picture, with or without further lines of words,
// is a figure and the words its caption (else the picture's "title"); `title` of a link is the link's `text`;
// a heading is one line; `- [ ]` and the sign ☐ are tick boxes; a footnote stands where its mark stood. A
// code block's text has no line end at its end. Headings get an anchor each.
//
// Nothing is passed on that a reader's program could run, and nothing is lost in silence: what is left out or
// shown in another way than it was meant has a notice.
namespace saggar::reading {

// The names that mean something: the record language's own, given by whoever knows it.
struct MarkdownWords {
  std::span<const std::string_view> kinds;   // "shape"; "source" among them makes citations
  std::span<const std::string_view> blocks;  // "treatments"
  bool ownAnchors =
      false;  // take `<a id="name"></a>` as the place it marks: what our own Markdown writer writes
};

// A finding in the making. Rules: html-in-prose, link-unsafe, link-missing (no address at all; a footnote
// that is not there), kind-unknown, block-unknown, value-lost (typed but not printed), text-unfit.
struct MarkdownNotice {
  diagnostics::Rule rule;
  source::Span span;
  std::string message;
  std::string hint;
};

struct MarkdownResult {
  document::Blocks blocks;
  std::vector<MarkdownNotice> notices;  // in the order of the text
};

// Takes any bytes. Blocks carry the place of their lines (a query that of the YAML inside its fence:
// LinesTextMap finds the place of each of its bytes), links, pictures, references, citations and index
// entries the place of their destination. Bounds: blocks and inlines nested deeper than kDeepest are shown as
// plain words; a text that would take the parser more than about a second a megabyte (runs of unclosed
// brackets, thousands of columns) is shown as typed; both with text-unfit. May be called from several threads
// at once.
MarkdownResult parseMarkdown(std::string_view text, const TextMap& places, const MarkdownWords& words);

inline constexpr int kDeepest = 100;

// False only if parseMarkdown would give no notice, no link and no block but paragraphs, headings, lists,
// quotations and tables of plain words: then nobody needs to parse the text to check it. Looks at each byte a
// few times at most.
bool scanForLinks(std::string_view text);

// The anchor that viewers give a heading: small letters, figures, hyphens for blanks, everything else dropped
// (the custom of GFM viewers; from memory, nothing published fixes it). "section" for a heading without
// letters.
std::string headingAnchor(std::string_view words);

// Names that were given away in one file: the second "notes" becomes "notes-1".
class AnchorNames {
 public:
  std::string unique(std::string name);

 private:
  std::unordered_map<std::string, int> taken_;  // how often it was asked for
};

}  // namespace saggar::reading
