#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "document/rare.h"
#include "source/span.h"

// The one shape of everything that is published: a tree of blocks and inlines. Compose makes it; the writers of
// render/ turn it into Markdown, PDF and (later) HTML and EPUB, and never see a record.
namespace saggar::document {

// Where a link leads: another part of the same publication, or an address outside.
struct Target {
  std::string file;     // chapter file without folder or ending ("jessamount"); empty: this document
  std::string anchor;   // "shape-jessamount"; empty: the top of the file
  std::string address;  // an outside address; then file and anchor are empty
  friend bool operator==(const Target&, const Target&) = default;
};

enum class InlineKind : unsigned char {
  text,       // `text`
  emphasis,   // `children`
  strong,     // `children`
  struck,     // `children`
  code,       // `text`
  softBreak,  // a line end in the author's prose: a blank
  hardBreak,  // a forced line end
  link,       // `children`, `target`
  image,      // `text` is the alternative text, `target.address` a path relative to the publication
  reference,  // not yet resolved: `text` is "kind:id", `children` the author's words, empty for the record's own name
  citation,  // not yet resolved: `text` is a source id, `children` the locator, empty for none
  index,     // an index entry: `text` the heading ("Quoyne, Ismerelda"), empty for the words of `children`
  anchor,    // `text`: a place that can be linked to
  tickBox,   // an empty box to tick
  footnote,  // `children`: set at the foot, or behind the text
};

struct Inline {
  std::string text;
  std::vector<Inline> children;
  Rare<Target> target;
  source::Span span;  // where the author typed it; unknown for what the program made
  InlineKind kind = InlineKind::text;
};
using Inlines = std::vector<Inline>;

enum class BlockKind : unsigned char {
  heading,    // `level` 1..6, `inlines`, `anchor`
  paragraph,  // `inlines`
  list,       // `blocks` are items; `ordered`, `start`, `tight`
  item,       // `blocks`
  quote,      // `blocks`
  code,       // `text`, `info`
  rule,       // a thematic break
  table,      // `table`
  figure,     // `target.address` the picture, `text` its alternative text, `inlines` the caption
  notice,     // `blocks` set apart: a caution, an open question; `info` names which
  query,  // not yet resolved: a fence whose info string is a block's name; `info` the name, `text` its YAML
  definition,  // `inlines` the word, `blocks` what it means
};

enum class Align { left, right, centre };

struct Cell {
  Inlines inlines;
  std::string anchor;
};

struct Row {
  std::vector<Cell> cells;
  bool groupHead = false;  // one cell over the whole width: the heading of the rows that follow
};

struct Table {
  std::vector<Cell> head;
  std::vector<Align> align;   // one a column
  std::vector<double> width;  // shares of the width for paged output; empty: by content
  std::vector<Row> rows;
  std::string writeIn;  // the head of one more column, left empty to write in, on paper that has room for it
};

struct Block {
  BlockKind kind = BlockKind::paragraph;
  int level = 0;
  bool ordered = false;
  bool tight = true;
  int start = 1;
  std::string anchor;
  std::string text;
  std::string info;
  Inlines inlines;
  std::vector<Block> blocks;
  Rare<Table> table;
  Rare<Target> target;
  source::Span span;
};
using Blocks = std::vector<Block>;

// One file of a publication.
struct Document {
  std::string file;      // without folder or ending
  std::string title;     // plain text
  std::string language;  // BCP 47, "en-GB"
  std::vector<std::string> authors;
  std::string edition;  // in words: "Second edition, 2026"; may be empty
  bool draft = false;   // every page says so
  Blocks blocks;
};

// --- makers: the short way to write each kind
Inline text(std::string words);
Inline emphasis(Inlines children);
Inline strong(Inlines children);
Inline code(std::string words);
Inline link(Inlines children, Target target);
Inline anchorAt(std::string name);
Inline tickBox();
Inline hardBreak();
Block paragraph(Inlines inlines);
Block heading(int level, Inlines inlines, std::string anchor = {});
Block list(std::vector<Blocks> items, bool ordered = false);
Block table(Table table);
Block notice(std::string info, Blocks blocks);
Cell cell(Inlines inlines);
Cell cell(std::string words);

// The words alone, as a reader would hear them.
std::string plainText(const Inlines& inlines);
std::string plainText(const Blocks& blocks);

// Calls `visit` for every inline of the tree, parents before children, in reading order (tables and captions too).
// Uses no recursion deeper than the tree itself, whose depth reading bounds.
template <class Visit>
void forEachInline(const Inlines& inlines, Visit&& visit) {
  for (const Inline& one : inlines) {
    visit(one);
    forEachInline(one.children, visit);
  }
}

template <class Visit>
void forEachInline(const Blocks& blocks, Visit&& visit) {
  for (const Block& block : blocks) {
    forEachInline(block.inlines, visit);
    for (const Cell& head : block.table->head) forEachInline(head.inlines, visit);
    for (const Row& row : block.table->rows)
      for (const Cell& one : row.cells) forEachInline(one.inlines, visit);
    forEachInline(block.blocks, visit);
  }
}

// The tree as indented text, one node a line: what `saggar stage document` prints and tests pin.
std::string dump(const Document& document);

}  // namespace saggar::document
