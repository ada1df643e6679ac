#include "reading/markdown.h"

#include <cmark-gfm-core-extensions.h>
#include <cmark-gfm.h>

#include <algorithm>
#include <memory>
#include <mutex>

#include "base/text.h"
#include "base/utf8.h"
#include "reading/markdown_limits.h"
#include "reading/markdown_tree.h"

// The library marks the letters its extensions look at in tables that all parsers share, and unmarks them
// when a parser is done. Two parsers at once would take each other's marks away and read the same text in two
// ways; so the part that uses the tables is done by one thread at a time. The blocks are found outside the
// lock.
namespace saggar::reading {
namespace {

using diagnostics::operator""_rule;

std::mutex& inlineLock() {
  static std::mutex lock;
  return lock;
}

struct FreeParser {
  void operator()(cmark_parser* parser) const { cmark_parser_free(parser); }
};
struct FreeNode {
  void operator()(cmark_node* node) const { cmark_node_free(node); }
};

std::unique_ptr<cmark_node, FreeNode> parsed(std::string_view text, bool mend) {
  static std::once_flag registered;
  std::call_once(registered, cmark_gfm_core_extensions_ensure_registered);
  const int options = CMARK_OPT_FOOTNOTES | (mend ? CMARK_OPT_VALIDATE_UTF8 : 0);
  const std::unique_ptr<cmark_parser, FreeParser> parser(cmark_parser_new(options));
  for (const char* name : {"table", "strikethrough", "autolink", "tasklist"}) {
    cmark_parser_attach_syntax_extension(parser.get(), cmark_find_syntax_extension(name));
  }
  cmark_parser_feed(parser.get(), text.data(), text.size());
  const std::lock_guard guard(inlineLock());
  return std::unique_ptr<cmark_node, FreeNode>(cmark_parser_finish(parser.get()));
}

// The text as it was typed, line by line, empty lines between paragraphs.
document::Blocks asTyped(std::string_view text, const TextMap& places) {
  document::Blocks out;
  bool open = false;
  for (std::size_t begin = 0; begin < text.size();) {
    const std::size_t end = std::min(text.find_first_of("\r\n", begin), text.size());
    const std::string_view line = base::trimmed(text.substr(begin, end - begin));
    if (line.empty()) {
      open = false;
    } else {
      if (!open) {
        out.push_back(document::paragraph({}));
        out.back().span = places.at(begin, end);
        open = true;
      } else {
        document::Inline lineEnd;
        lineEnd.kind = document::InlineKind::softBreak;
        out.back().inlines.push_back(std::move(lineEnd));
      }
      out.back().inlines.push_back(document::text(base::sanitizedUtf8(line)));
    }
    begin = end + 1;
  }
  return out;
}

}  // namespace

MarkdownResult parseMarkdown(std::string_view text, const TextMap& places, const MarkdownWords& words) {
  std::vector<MarkdownNotice> first;
  std::size_t unfit = std::min(base::firstInvalidUtf8(text), text.find('\0'));
  const bool mend = unfit != std::string_view::npos;
  if (mend) {
    first.push_back({"text-unfit"_rule, places.at(unfit, unfit + 1),
                     "a byte that is no letter of UTF-8 text; it is printed as `\xEF\xBF\xBD`",
                     "save the file as UTF-8 and type the letter again"});
  }
  MarkdownResult result;
  if (const auto much = tooMuchWork(text)) {
    result.blocks = asTyped(text, places);
    result.notices.push_back({"text-unfit"_rule, places.at(much->at, much->at + 1),
                              "the text cannot be read as Markdown in reasonable time, because of " +
                                  much->what + "; it is printed as it was typed, without links and lists",
                              "mend or take out the part that begins here"});
  } else {
    const auto root = parsed(text, mend);
    result = MarkdownTree(text, places, words).take(root.get());
  }
  result.notices.insert(result.notices.begin(), std::make_move_iterator(first.begin()),
                        std::make_move_iterator(first.end()));
  return result;
}

}  // namespace saggar::reading
