#include <cmark-gfm-core-extensions.h>

#include <algorithm>
#include <array>
#include <cstring>
#include <memory>

#include "base/edit_distance.h"
#include "base/text.h"
#include "base/utf8.h"
#include "reading/markdown_html.h"
#include "reading/markdown_tree.h"

namespace saggar::reading {

using diagnostics::operator""_rule;
using document::Block;
using document::BlockKind;
using document::Inline;
using document::InlineKind;

namespace {

Inline softBreak() {
  Inline one;
  one.kind = InlineKind::softBreak;
  return one;
}

std::string literalOf(cmark_node* node) {
  const char* text = cmark_node_get_literal(node);
  return text ? text : "";
}

bool isType(cmark_node* node, const char* name) {
  return std::strcmp(cmark_node_get_type_string(node), name) == 0;
}

// All the words below a node, however deep.
std::string wordsBelow(cmark_node* top) {
  std::string out;
  const std::unique_ptr<cmark_iter, decltype(&cmark_iter_free)> walk(cmark_iter_new(top), cmark_iter_free);
  for (cmark_event_type event = cmark_iter_next(walk.get()); event != CMARK_EVENT_DONE;
       event = cmark_iter_next(walk.get())) {
    cmark_node* node = cmark_iter_get_node(walk.get());
    if (event == CMARK_EVENT_EXIT) {
      const bool ends = cmark_node_get_type(node) == CMARK_NODE_PARAGRAPH;
      if (ends && !out.empty() && out.back() != ' ') out += ' ';
      continue;
    }
    switch (cmark_node_get_type(node)) {
      case CMARK_NODE_SOFTBREAK:
      case CMARK_NODE_LINEBREAK: out += ' '; break;
      case CMARK_NODE_FOOTNOTE_REFERENCE: break;
      default: out += literalOf(node);
    }
  }
  std::replace(out.begin(), out.end(), '\n', ' ');
  return std::string(base::trimmed(out));
}

int cellsTyped(std::string_view row) {
  int bars = 0;
  for (std::size_t i = 0; i < row.size(); ++i) {
    if (row[i] == '\\') {
      ++i;
    } else if (row[i] == '|') {
      ++bars;
    }
  }
  const std::string_view trimmed = base::trimmed(row);
  if (trimmed.empty()) return 0;
  const bool closed = trimmed.size() > 1 && trimmed.back() == '|' && trimmed[trimmed.size() - 2] != '\\';
  return bars + 1 - (trimmed.front() == '|' ? 1 : 0) - (closed ? 1 : 0);
}

}  // namespace

LineStarts::LineStarts(std::string_view text) : text_(text), starts_{0} {
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '\n' || (text[i] == '\r' && (i + 1 == text.size() || text[i + 1] != '\n')))
      starts_.push_back(i + 1);
  }
}

std::size_t LineStarts::begin(int line) const {
  if (line < 1) return 0;
  const std::size_t index = static_cast<std::size_t>(line) - 1;
  return index < starts_.size() ? starts_[index] : text_.size();
}

std::size_t LineStarts::end(int line) const {
  std::size_t end = begin(line + 1);
  const std::size_t first = begin(line);
  while (end > first && (text_[end - 1] == '\n' || text_[end - 1] == '\r')) --end;
  return end;
}

int LineStarts::lineOf(std::size_t offset) const {
  return static_cast<int>(std::upper_bound(starts_.begin(), starts_.end(), offset) - starts_.begin());
}

MarkdownResult MarkdownTree::take(cmark_node* root) {
  if (root == nullptr) return std::move(result_);
  for (cmark_node* node = cmark_node_first_child(root); node; node = cmark_node_next(node)) {
    if (cmark_node_get_type(node) == CMARK_NODE_FOOTNOTE_DEFINITION) footnotes_.push_back(node);
  }
  footnoteOpen_.assign(footnotes_.size(), false);
  addBlocks(root, result_.blocks, 0);
  noteUnusedFootnotes();
  std::vector<MarkdownNotice>& notices = result_.notices;
  std::stable_sort(notices.begin(), notices.end(),
                   [](const MarkdownNotice& a, const MarkdownNotice& b) { return a.span < b.span; });
  // A footnote with two marks was read twice.
  notices.erase(std::unique(notices.begin(), notices.end(),
                            [](const MarkdownNotice& a, const MarkdownNotice& b) {
                              return a.span.known() && a.span == b.span && a.rule == b.rule &&
                                     a.message == b.message;
                            }),
                notices.end());
  return std::move(result_);
}

Range MarkdownTree::rangeOf(cmark_node* node) const {
  const int first = cmark_node_get_start_line(node);
  const int last = std::max(first, cmark_node_get_end_line(node));
  const std::size_t column = static_cast<std::size_t>(std::max(1, cmark_node_get_start_column(node))) - 1;
  const std::size_t end = std::max(lines_.end(last), lines_.begin(first));
  return {std::min(lines_.begin(first) + column, end), end};
}

void MarkdownTree::note(diagnostics::Rule rule, source::Span span, std::string message, std::string hint) {
  result_.notices.push_back({rule, span, base::sanitizedUtf8(message), base::sanitizedUtf8(hint)});
}

void MarkdownTree::noteTooDeep(source::Span span) {
  if (std::exchange(tooDeep_, true)) return;
  note("text-unfit"_rule, span,
       "quotations, lists or emphasis nested more than " + std::to_string(kDeepest) +
           " deep; the words are printed, the nesting is left out",
       "take out the signs that open one level after the other");
}

void MarkdownTree::addBlocks(cmark_node* parent, Blocks& out, int depth) {
  for (cmark_node* node = cmark_node_first_child(parent); node; node = cmark_node_next(node)) {
    const cmark_node_type type = cmark_node_get_type(node);
    if (type == CMARK_NODE_FOOTNOTE_DEFINITION) continue;
    const std::size_t before = out.size();
    if (depth >= kDeepest) {
      addPlainly(node, out);
      continue;
    }
    switch (type) {
      case CMARK_NODE_PARAGRAPH: addParagraph(node, out, depth); break;
      case CMARK_NODE_HEADING: addHeading(node, out, depth); break;
      case CMARK_NODE_LIST: addList(node, out, depth); break;
      case CMARK_NODE_CODE_BLOCK: addCode(node, out); break;
      case CMARK_NODE_HTML_BLOCK: addHtml(node, out); break;
      case CMARK_NODE_THEMATIC_BREAK:
        out.emplace_back().kind = BlockKind::rule;
        out.back().span = spanOf(rangeOf(node));
        break;
      case CMARK_NODE_BLOCK_QUOTE:
        out.emplace_back().kind = BlockKind::quote;
        out.back().span = spanOf(rangeOf(node));
        {
          Blocks inside;
          addBlocks(node, inside, depth + 1);
          out.back().blocks = std::move(inside);
        }
        break;
      default:
        if (isType(node, "table")) {
          addTable(node, out, depth);
        } else {
          addPlainly(node, out);
        }
    }
    if (words_.ownAnchors && before > 0) markPlace(out, before);
  }
}

// A paragraph that is nothing but a place gives its name to the block that follows.
bool MarkdownTree::markPlace(Blocks& out, std::size_t from) {
  if (from >= out.size()) return false;
  Block& place = out[from - 1];
  const bool alone = place.kind == BlockKind::paragraph && place.inlines.size() == 1 &&
                     place.inlines[0].kind == InlineKind::anchor;
  if (!alone) return false;
  out[from].anchor = place.inlines[0].text;
  out.erase(out.begin() + static_cast<std::ptrdiff_t>(from) - 1);
  return true;
}

void MarkdownTree::addParagraph(cmark_node* node, Blocks& out, int depth) {
  const Range range = rangeOf(node);
  LinkPlaces at(text_, range);
  openedTags_.clear();
  Block block;
  block.span = spanOf(range);
  addInlines(node, block.inlines, at, depth + 1);
  if (block.inlines.empty()) return;
  const bool picture = block.inlines[0].kind == InlineKind::image;
  const bool alone = block.inlines.size() == 1;
  const bool lineEnd = !alone && (block.inlines[1].kind == InlineKind::softBreak ||
                                  block.inlines[1].kind == InlineKind::hardBreak);
  const bool captioned = lineEnd && block.inlines[0].children.empty() &&
                         std::none_of(block.inlines.begin() + 1, block.inlines.end(),
                                      [](const Inline& one) { return one.kind == InlineKind::image; });
  if (picture && (alone || captioned)) {
    Inline image = std::move(block.inlines[0]);
    block.kind = BlockKind::figure;
    block.text = std::move(image.text);
    block.target = std::move(image.target);
    block.span = image.span;
    if (alone) {
      block.inlines = std::move(image.children);
    } else {
      block.inlines.erase(block.inlines.begin(), block.inlines.begin() + 2);
    }
  }
  out.push_back(std::move(block));
}

// A heading has no line ends but forced ones.
document::Inlines MarkdownTree::onOneLine(Inlines words) {
  Inlines out;
  for (Inline& one : words) {
    one.children = onOneLine(std::move(one.children));
    if (one.kind == InlineKind::softBreak) {
      addText(" ", out);
    } else if (one.kind == InlineKind::text) {
      addText(one.text, out);
    } else {
      out.push_back(std::move(one));
    }
  }
  return out;
}

void MarkdownTree::addHeading(cmark_node* node, Blocks& out, int depth) {
  const Range range = rangeOf(node);
  LinkPlaces at(text_, range);
  openedTags_.clear();
  Block block;
  block.kind = BlockKind::heading;
  block.level = cmark_node_get_heading_level(node);
  block.span = spanOf(range);
  addInlines(node, block.inlines, at, depth + 1);
  block.inlines = onOneLine(std::move(block.inlines));
  block.anchor = anchors_.unique(headingAnchor(document::plainText(block.inlines)));
  out.push_back(std::move(block));
}

void MarkdownTree::addList(cmark_node* node, Blocks& out, int depth) {
  Block list;
  list.kind = BlockKind::list;
  list.ordered = cmark_node_get_list_type(node) == CMARK_ORDERED_LIST;
  list.start = list.ordered ? cmark_node_get_list_start(node) : 1;
  list.tight = cmark_node_get_list_tight(node) != 0;
  list.span = spanOf(rangeOf(node));
  for (cmark_node* child = cmark_node_first_child(node); child; child = cmark_node_next(child)) {
    Block item;
    item.kind = BlockKind::item;
    item.span = spanOf(rangeOf(child));
    addBlocks(child, item.blocks, depth + 1);
    if (isType(child, "tasklist")) {
      if (item.blocks.empty() || item.blocks[0].kind != BlockKind::paragraph) {
        item.blocks.insert(item.blocks.begin(), document::paragraph({}));
      }
      Inlines words;
      addText(cmark_gfm_extensions_get_tasklist_item_checked(child) ? "\xE2\x98\x91 " : "\xE2\x98\x90 ",
              words);
      for (Inline& one : item.blocks[0].inlines) {
        if (one.kind == InlineKind::text) {
          addText(one.text, words);
        } else {
          words.push_back(std::move(one));
        }
      }
      item.blocks[0].inlines = std::move(words);
    }
    list.blocks.push_back(std::move(item));
  }
  out.push_back(std::move(list));
}

void MarkdownTree::addCode(cmark_node* node, Blocks& out) {
  Block block;
  block.kind = BlockKind::code;
  block.text = literalOf(node);
  const char* typed = cmark_node_get_fence_info(node);
  block.info = typed ? typed : "";
  const Range range = rangeOf(node);
  block.span = spanOf(range);
  codeLines_.emplace_back(cmark_node_get_start_line(node), cmark_node_get_end_line(node));
  const std::string name = block.info.substr(0, block.info.find_first_of(" \t"));
  if (std::find(words_.blocks.begin(), words_.blocks.end(), name) != words_.blocks.end()) {
    block.kind = BlockKind::query;
    const int first = cmark_node_get_start_line(node) + 1;
    const int lines = static_cast<int>(std::count(block.text.begin(), block.text.end(), '\n'));
    if (lines > 0) block.span = places_.at(lines_.begin(first), lines_.end(first + lines - 1));
  }
  if (!name.empty()) checkFence(node, block.info, name);
  if (block.kind == BlockKind::query) block.info = name;
  if (!block.text.empty() && block.text.back() == '\n') block.text.pop_back();
  out.push_back(std::move(block));
}

void MarkdownTree::checkFence(cmark_node* node, const std::string& info, const std::string& name) {
  const Range line{lines_.begin(cmark_node_get_start_line(node)),
                   lines_.end(cmark_node_get_start_line(node))};
  LinkPlaces at(text_, line);
  const source::Span span = spanOf(at.words(name).value_or(line));
  if (std::find(words_.blocks.begin(), words_.blocks.end(), name) != words_.blocks.end()) {
    const std::string rest(base::trimmed(std::string_view(info).substr(name.size())));
    if (rest.empty()) return;
    note("value-lost"_rule, spanOf(at.words(rest).value_or(line)),
         "`" + base::shortened(rest, 60) + "` behind the block's name is not read",
         "say what the block lists inside the fence, for example `where: {maker: …}`");
    return;
  }
  std::string_view nearest;
  std::size_t least = 3;
  const std::string lower = base::folded(name);
  for (std::string_view block : words_.blocks) {
    const std::size_t distance = base::editDistance(lower, block, 2);
    if (distance >= least) continue;
    least = distance;
    nearest = block;
  }
  if (nearest.empty()) return;
  note("block-unknown"_rule, span, "no block is called `" + name + "`, so the fence would be printed as code",
       "type `" + std::string(nearest) + "`, or another word if it is meant as code");
}

void MarkdownTree::addTable(cmark_node* node, Blocks& out, int depth) {
  Block block;
  block.kind = BlockKind::table;
  block.span = spanOf(rangeOf(node));
  document::Table& table = block.table.make();
  const std::uint16_t columns = cmark_gfm_extensions_get_table_columns(node);
  const std::uint8_t* aligned = cmark_gfm_extensions_get_table_alignments(node);
  for (std::uint16_t i = 0; i < columns; ++i) {
    const std::uint8_t typed = aligned ? aligned[i] : 0;
    table.align.push_back(typed == 'r'   ? document::Align::right
                          : typed == 'c' ? document::Align::centre
                                         : document::Align::left);
  }
  for (cmark_node* row = cmark_node_first_child(node); row; row = cmark_node_next(row)) {
    const Range range = rangeOf(row);
    const std::string_view typed = text_.substr(range.begin, range.end - range.begin);
    if (cellsTyped(typed) > static_cast<int>(columns)) {
      note("value-lost"_rule, spanOf(range),
           "a row with " + base::counted(static_cast<std::size_t>(cellsTyped(typed)), "cell") +
               " in a table of " + base::counted(columns, "column") + "; what is too much is not printed",
           "give the first row and the line of dashes as many cells, or type `\\|` for a bar that is meant "
           "as a sign");
    }
    LinkPlaces at(text_, range);
    openedTags_.clear();
    std::vector<document::Cell> cells;
    for (cmark_node* child = cmark_node_first_child(row); child; child = cmark_node_next(child)) {
      document::Cell& cell = cells.emplace_back();
      addInlines(child, cell.inlines, at, depth + 1);
      if (words_.ownAnchors && !cell.inlines.empty() && cell.inlines[0].kind == InlineKind::anchor) {
        cell.anchor = std::move(cell.inlines[0].text);
        cell.inlines.erase(cell.inlines.begin());
      }
    }
    if (cmark_gfm_extensions_get_table_row_is_header(row)) {
      table.head = std::move(cells);
    } else {
      table.rows.push_back({std::move(cells), false});
    }
  }
  out.push_back(std::move(block));
}

void MarkdownTree::addHtml(cmark_node* node, Blocks& out) {
  const std::string html = literalOf(node);
  const int first =
      cmark_node_get_start_line(node);  // the parser's own last line is one short after a comment
  const int last = first + std::max(0, static_cast<int>(std::count(html.begin(), html.end(), '\n')) - 1);
  const Range range{rangeOf(node).begin, lines_.end(last)};
  codeLines_.emplace_back(first, last);
  bool comments = false;
  const std::string shown = withoutComments(html, comments);
  const std::string_view visible = base::trimmed(shown);
  const std::string firstLine(base::trimmed(html.substr(0, html.find('\n'))));
  const std::string shortly = "`" + base::shortened(firstLine, 60) + "`";
  if (comments) {
    note("html-in-prose"_rule, spanOf(range),
         "the comment in " + shortly + " is left out" +
             (visible.empty() ? "" : "; what stands around it is printed as it was typed, links and all"),
         "keep remarks to yourself in a field whose name begins with `my-`");
  } else {
    note("html-in-prose"_rule, spanOf(range),
         "HTML is never passed on: " + shortly +
             " is printed as it was typed, with all lines down to the next empty one",
         insteadOfTag(firstLine));
  }
  Block block;
  auto finish = [&] {
    if (block.inlines.empty()) return;
    block.span = spanOf(range);
    out.push_back(std::exchange(block, Block()));
  };
  for (std::string_view line : base::split(visible, '\n')) {
    line = base::trimmed(line);
    if (line.empty()) {
      finish();
      continue;
    }
    if (!block.inlines.empty()) block.inlines.push_back(softBreak());
    addText(line, block.inlines);
  }
  finish();
}

void MarkdownTree::addPlainly(cmark_node* node, Blocks& out) {
  const source::Span span = spanOf(rangeOf(node));
  noteTooDeep(span);
  Block block;
  block.span = span;
  addText(wordsBelow(node), block.inlines);
  if (!block.inlines.empty()) out.push_back(std::move(block));
}

// The parser drops a footnote that no mark points to.
void MarkdownTree::noteUnusedFootnotes() {
  if (text_.find("[^") == std::string_view::npos) return;
  std::unordered_set<int> used;
  for (cmark_node* definition : footnotes_) used.insert(cmark_node_get_start_line(definition));
  std::sort(codeLines_.begin(), codeLines_.end());
  auto code = codeLines_.begin();
  for (std::size_t at = text_.find("[^"); at != std::string_view::npos; at = text_.find("[^", at + 2)) {
    const int number = lines_.lineOf(at);
    const std::size_t line = lines_.begin(number);
    if (at - line > 3 || !base::trimmed(text_.substr(line, at - line)).empty()) continue;
    while (code != codeLines_.end() && code->second < number) ++code;
    if (used.contains(number) || (code != codeLines_.end() && code->first <= number)) continue;
    const std::size_t close = text_.find_first_of("] \r\n", at);
    if (close == std::string_view::npos || text_.substr(close, 2) != "]:") continue;
    const std::string label(text_.substr(at, close + 1 - at));
    note("value-lost"_rule, places_.at(at, close + 1),
         "no text has the mark `" + label + "`, so this footnote is not printed",
         "put `" + label + "` where the footnote belongs, or take it out");
  }
}

}  // namespace saggar::reading
