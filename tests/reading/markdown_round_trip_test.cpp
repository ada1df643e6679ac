#include <cmark-gfm-core-extensions.h>
#include <cmark-gfm.h>
#include <doctest/doctest.h>

#include <algorithm>
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <map>
#include <random>
#include <sstream>
#include <string>
#include <vector>

#include "document/document.h"
#include "markdown_words.h"
#include "reading/markdown.h"
#include "render/markdown.h"

// What the Markdown writer writes must read back as the tree it was made from.
using namespace saggar;
using document::Block;
using document::Inline;
using document::InlineKind;

namespace {

struct Example {
  int number = 0;
  std::string markdown;
  std::string html;
};

std::string withTabs(std::string line) {
  for (std::size_t at = line.find("→"); at != std::string::npos; at = line.find("→", at))
    line.replace(at, 3, "\t");
  return line;
}

// The examples of the GFM specification; the file says where they are from.
const std::vector<Example>& examples() {
  static const std::vector<Example> all = [] {
    std::vector<Example> found;
    std::ifstream in(std::string(TEST_DATA) + "/gfm-spec-examples.txt");
    const std::string fence(32, '`');
    std::string line;
    while (std::getline(in, line)) {
      if (!line.starts_with(fence + " example")) continue;
      Example one;
      one.number = static_cast<int>(found.size()) + 1;
      while (std::getline(in, line) && line != ".") one.markdown += withTabs(line) + '\n';
      while (std::getline(in, line) && line != fence) one.html += withTabs(line) + '\n';
      found.push_back(one);
    }
    return found;
  }();
  return all;
}

document::Document read(const std::string& markdown) {
  document::Document document;
  document.blocks = reading::parseMarkdown(markdown, reading::NoTextMap(), kOwnWords).blocks;
  return document;
}

// What dump() leaves out and a reader would see.
void addShape(std::string& out, const document::Blocks& blocks) {
  for (const Block& block : blocks) {
    if (block.kind == document::BlockKind::list) out += block.tight ? "tight " : "loose ";
    for (const document::Align align : block.table->align) out += "lrc"[static_cast<int>(align)];
    addShape(out, block.blocks);
  }
}

std::string whole(const document::Document& document) {
  std::string out = document::dump(document);
  addShape(out, document.blocks);
  return out;
}

}  // namespace

TEST_CASE("every example of the specification is written as Markdown that reads back as the same tree") {
  REQUIRE(examples().size() == 673);
  int same = 0;
  for (const Example& example : examples()) {
    const document::Document first = read(example.markdown);
    const std::string written = render::renderMarkdown(first);
    const document::Document second = read(written);
    const bool equal = whole(first) == whole(second);
    same += equal;
    CHECK_MESSAGE(equal, "example ", example.number, "\n", example.markdown, "--- written\n", written,
                  "--- first\n", whole(first), "\n--- second\n", whole(second));
  }
  MESSAGE(same, " of ", examples().size(), " examples read back the same");
}

namespace {

std::string html(const std::string& markdown) {
  cmark_gfm_core_extensions_ensure_registered();
  cmark_parser* parser = cmark_parser_new(CMARK_OPT_FOOTNOTES);
  for (const char* name : {"table", "strikethrough", "autolink", "tasklist"}) {
    cmark_parser_attach_syntax_extension(parser, cmark_find_syntax_extension(name));
  }
  cmark_parser_feed(parser, markdown.data(), markdown.size());
  cmark_node* root = cmark_parser_finish(parser);
  char* text = cmark_render_html(root, CMARK_OPT_FOOTNOTES, cmark_parser_get_syntax_extensions(parser));
  std::string out = text;
  free(text);
  cmark_node_free(root);
  cmark_parser_free(parser);
  return out;
}

bool plainOnly(const document::Blocks& blocks) {
  return std::none_of(blocks.begin(), blocks.end(), [](const Block& block) {
    return block.kind == document::BlockKind::figure || !plainOnly(block.blocks);
  });
}

void dropAnchors(document::Blocks& blocks) {
  for (Block& block : blocks) {
    block.anchor.clear();
    dropAnchors(block.blocks);
  }
}

}  // namespace

TEST_CASE("another reader of GFM makes the same page of what is written as of the example") {
  // The page is the specification's own, or what the library makes of the example where its extensions for
  // bare addresses and tables, which are always on here, see more in it than the specification's plain
  // examples do. Left out: examples with HTML or addresses that are not passed on, and with pictures that
  // become figures; those look different on purpose.
  const std::map<int, std::string> known = {
      {51, "a heading is one line"},
      {52, "a heading is one line"},
      {65, "a heading is one line"},
      {279, "tick boxes are printed as signs"},
      {280, "tick boxes are printed as signs"},
  };
  int compared = 0;
  int asSpecified = 0;
  for (const Example& example : examples()) {
    reading::MarkdownResult result =
        reading::parseMarkdown(example.markdown, reading::NoTextMap(), kTestWords);
    if (!result.notices.empty() || !plainOnly(result.blocks)) continue;
    ++compared;
    document::Document document;
    document.blocks = std::move(result.blocks);
    dropAnchors(document.blocks);
    const std::string written = render::renderMarkdown(document);
    const std::string page = html(written);
    const bool equal = page == example.html || page == html(example.markdown);
    asSpecified += page == example.html;
    if (known.contains(example.number)) {
      CHECK_MESSAGE(!equal, "example ", example.number, " is no exception any more");
      continue;
    }
    CHECK_MESSAGE(equal, "example ", example.number, "\n", example.markdown, "--- written\n", written,
                  "--- page\n", html(written), "--- should be\n", html(example.markdown));
  }
  CHECK(compared > 500);
  CHECK(asSpecified > 500);
  MESSAGE(asSpecified, " of ", compared, " pages are the specification's own");
}

namespace {

std::string randomText(std::mt19937& random, std::size_t length) {
  static const std::vector<std::string> kPieces = {
      "*",   "_",    "`",     "[",       "]",         "(",       ")",   "<",    ">",     "#",     "+",
      "-",   "=",    "~",     "|",       "!",         "&",       ";",   "\\",   "\"",    "'",     ":",
      ".",   ",",    "/",     "?",       "@",         "^",       "$",   "%",    "{",     "}",     " ",
      " ",   "  ",   "a",     "b",       "1",         "10",      "x1",  "amp;", "&amp;", "lt",    "#35",
      "é",   "ß",    "—",     "“",       "\u00A0",    "木",      "1.",  "2)",   "- ",    "# ",    "> ",
      "```", "~~",   "**",    "__",      "![",        "](x)",    "<b>", "</b>", "<!-",   "www.",  "http://",
      "://", "[^1]", "[^1]:", "[ ]",     "--",        "---",     "***", "===",  ":-:",   "| - |", "    ",
      "\t",  "\n",   "a_b",   "shape:x", "<shape:x>", "mailto:", "\r"};
  std::string out;
  std::uniform_int_distribution<std::size_t> pick(0, kPieces.size() - 1);
  while (length-- > 0) out += kPieces[pick(random)];
  return out;
}

Inline holding(InlineKind kind, document::Inlines children) {
  Inline one;
  one.kind = kind;
  one.children = std::move(children);
  return one;
}

// The plain text of the n-th kind of place that can hold words.
document::Blocks placed(int place, const std::string& words) {
  switch (place) {
    case 0: return {document::paragraph({document::text(words)})};
    case 1: return {document::heading(2, {document::text(words)})};
    case 2: return {document::list({{document::paragraph({document::text(words)})}})};
    case 3: {
      document::Table table;
      table.head = {document::cell(words), document::cell("x")};
      table.rows.push_back({{document::cell("y"), document::cell(words)}, false});
      return {document::table(table)};
    }
    case 4:
      return {document::paragraph(
          {document::text("see "), document::link({document::text(words)}, {"", "", "images/a.png"})})};
    case 5: {
      Inline image;
      image.kind = InlineKind::image;
      image.text = words;
      image.target.make().address = "a.png";
      return {document::paragraph({document::text("see "), image})};
    }
    case 6: {
      Inline soft;
      soft.kind = InlineKind::softBreak;
      return {document::paragraph({document::text("before"), soft, document::text(words),
                                   document::hardBreak(), document::text(words), document::text("!"),
                                   document::link({document::text("after")}, {"", "", "b.png"})})};
    }
    case 7: {
      Block quote;
      quote.kind = document::BlockKind::quote;
      quote.blocks = {document::paragraph({document::text(words)})};
      return {quote};
    }
    default:
      return {
          document::paragraph({document::text("note"), holding(InlineKind::footnote, {document::text(words)}),
                               document::text(words)})};
  }
}

// A blank at either end of a cell or image says nothing; a line end in words is a blank wherever it is shown.
std::string comparable(std::string text) {
  for (char& c : text) {
    if (c == '\r') c = '\n';
  }
  return text;
}

}  // namespace

TEST_CASE("words made of nothing but signs come back as the same words from every place they can stand in") {
  std::mt19937 random(20260801);
  std::uniform_int_distribution<std::size_t> lengths(1, 12);
  for (int round = 0; round < 18000; ++round) {
    const std::string words = randomText(random, lengths(random));
    document::Document first;
    first.blocks = placed(round % 9, words);
    const std::string written = render::renderMarkdown(first);
    const document::Document second = read(written);
    const bool same =
        comparable(document::plainText(first.blocks)) == comparable(document::plainText(second.blocks));
    CHECK_MESSAGE(same, "place ", round % 9, ": ", words, "\n--- written\n", written, "\n--- read\n",
                  document::dump(second));
    if (words.find('@') == std::string::npos && words.find("www") == std::string::npos) {
      std::size_t links = 0;
      document::forEachInline(second.blocks,
                              [&](const Inline& one) { links += one.kind == InlineKind::link; });
      CHECK_MESSAGE(links == (round % 9 == 4 || round % 9 == 6 ? 1 : 0), words, "\n", written);
    }
  }
}

namespace {

document::Inlines randomInlines(std::mt19937& random, int depth) {
  static const std::vector<std::string> kWords = {"a",    "foo", " ", "(x)", "bar ", " baz", "é",
                                                  "1932", "«q»", "-", "*",   "_",    "~",    "木"};
  document::Inlines out;
  std::uniform_int_distribution<int> counts(1, 4);
  std::uniform_int_distribution<int> kinds(0, depth > 0 ? 9 : 4);
  std::uniform_int_distribution<std::size_t> pick(0, kWords.size() - 1);
  for (int i = counts(random); i > 0; --i) {
    const int kind = kinds(random);
    if (kind < 4) {
      out.push_back(document::text(kWords[pick(random)]));
    } else if (kind == 4) {
      out.push_back(document::code(kWords[pick(random)]));
    } else if (kind < 7) {
      out.push_back(document::emphasis(randomInlines(random, depth - 1)));
    } else if (kind == 7) {
      out.push_back(document::strong(randomInlines(random, depth - 1)));
    } else if (kind == 8) {
      out.push_back(holding(InlineKind::struck, randomInlines(random, depth - 1)));
    } else {
      out.push_back(document::link(randomInlines(random, 0), {"jessamount", "shape-jessamount", ""}));
    }
  }
  return out;
}

// Each letter with the marks on it, whatever the order and grouping of the marks; blanks bear none.
void addMarked(std::string& out, const document::Inlines& inlines, unsigned marks) {
  for (const Inline& one : inlines) {
    switch (one.kind) {
      case InlineKind::emphasis: addMarked(out, one.children, marks | 1); break;
      case InlineKind::strong: addMarked(out, one.children, marks | 2); break;
      case InlineKind::struck: addMarked(out, one.children, marks | 4); break;
      case InlineKind::link: addMarked(out, one.children, marks | 8); break;
      default:
        for (char c : one.text) {
          out += c;
          if (c != ' ') out += static_cast<char>('0' + marks);
        }
    }
  }
}

}  // namespace

TEST_CASE("emphasis of any kind inside, beside and across words keeps to the letters it was on") {
  std::mt19937 random(1932);
  int kept = 0;
  for (int round = 0; round < 20000; ++round) {
    document::Document first;
    first.blocks = {document::paragraph(randomInlines(random, 2))};
    const std::string written = render::renderMarkdown(first);
    const document::Document second = read(written);
    std::string before;
    std::string after;
    addMarked(before, first.blocks[0].inlines, 0);
    if (!second.blocks.empty()) addMarked(after, second.blocks[0].inlines, 0);
    CHECK_MESSAGE(document::plainText(first.blocks) == document::plainText(second.blocks),
                  document::dump(first), written);
    kept += before == after;
    bool onlyLost = before.size() == after.size();
    for (std::size_t i = 0; onlyLost && i < before.size(); ++i) {
      onlyLost = before[i] == after[i] || (before[i] & after[i]) == after[i];
    }
    CHECK_MESSAGE(onlyLost, before, "\n", after, "\n", written, document::dump(first));
  }
  // Emphasis and strong emphasis that touch inside a third cannot be written in Markdown at all: the later
  // one is left out. Random trees have that far more often than prose.
  CHECK(kept > 19500);
}
