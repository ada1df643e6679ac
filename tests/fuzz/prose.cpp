#include <algorithm>
#include <array>
#include <string>

#include "base/utf8.h"
#include "document/address.h"
#include "document/document.h"
#include "fuzz.h"
#include "reading/markdown.h"
#include "render/markdown.h"

// Prose: one text of Markdown with our links and blocks.
namespace {

using namespace saggar;
using fuzz::demand;

constexpr auto kKinds = std::to_array<std::string_view>({"maker", "shape", "treatment", "source", "term"});
constexpr auto kBlocks = std::to_array<std::string_view>({"treatments", "timeline", "glossary"});
constexpr reading::MarkdownWords kWords{kKinds, kBlocks, false};
constexpr reading::MarkdownWords kOwnWords{kKinds, kBlocks, true};

void lookAtNotices(const reading::MarkdownResult& result, std::size_t size) {
  for (const reading::MarkdownNotice& notice : result.notices) {
    demand(notice.span.begin <= notice.span.end && notice.span.end <= size,
           "a notice points inside the text");
    demand(!notice.message.empty(), "a notice says what was seen");
    demand(base::firstInvalidUtf8(notice.message + notice.hint) == std::string_view::npos,
           "a notice is UTF-8");
  }
}

void lookAtBlocks(const document::Blocks& blocks, std::size_t size, int depth) {
  demand(depth <= 3 * reading::kDeepest, "nesting has an end");
  for (const document::Block& block : blocks) {
    demand(block.span.begin <= block.span.end && block.span.end <= size, "a block stands in the text");
    lookAtBlocks(block.blocks, size, depth + 1);
  }
}

void lookAtAddresses(const document::Inlines& inlines) {
  for (const document::Inline& one : inlines) {
    demand(document::addressKind(one.target->address) != document::AddressKind::unsafe,
           "nothing that could run is passed on");
    lookAtAddresses(one.children);
  }
}

void lookAtAddresses(const document::Blocks& blocks) {
  for (const document::Block& block : blocks) {
    demand(document::addressKind(block.target->address) != document::AddressKind::unsafe,
           "no picture that could run is passed on");
    lookAtAddresses(block.inlines);
    lookAtAddresses(block.blocks);
    for (const document::Cell& cell : block.table->head) lookAtAddresses(cell.inlines);
    for (const document::Row& row : block.table->rows)
      for (const document::Cell& cell : row.cells) lookAtAddresses(cell.inlines);
  }
}

// Blanks aside, and signs of emphasis: where it is nested many deep, with no blank anywhere, Markdown has no way to write it.
std::string wordsOf(const document::Blocks& blocks) {
  std::string words = document::plainText(blocks);
  std::erase_if(words, [](char c) { return c == '*' || c == '_' || c == ' ' || c == '\n'; });
  return words;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text = fuzz::textOf(data, size);
  const reading::MarkdownResult result = reading::parseMarkdown(text, reading::FileTextMap(0), kWords);
  lookAtNotices(result, size);
  lookAtBlocks(result.blocks, size, 0);
  if (!reading::scanForLinks(text))
    demand(result.notices.empty(), "a text that need not be looked at has no notice");

  document::Document document;
  document.blocks = result.blocks;
  const std::string written = render::renderMarkdown(document);
  demand(base::firstInvalidUtf8(written) == std::string_view::npos, "what is written is UTF-8");
  const reading::MarkdownResult again = reading::parseMarkdown(written, reading::NoTextMap(), kOwnWords);
  lookAtAddresses(result.blocks);
  lookAtAddresses(again.blocks);
  // A text that is no UTF-8 has a notice that says so, and the parser may cut it within a letter; of control characters
  // some count as blanks here and not there.
  const bool odd = std::any_of(text.begin(), text.end(), [](char c) {
    return (static_cast<unsigned char>(c) < 0x20 && c != '\n' && c != '\t') || c == 0x7F;
  });
  if (odd || base::firstInvalidUtf8(text) != std::string_view::npos) return 0;
  document::Document second;
  second.blocks = again.blocks;
  demand(wordsOf(second.blocks) == wordsOf(document.blocks), "what is written is read as the same words");
  return 0;
}
