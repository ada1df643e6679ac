#include "compose/guide.h"

#include <future>
#include <set>

#include "compose/chapters.h"
#include "compose/index.h"
#include "compose/sources.h"

namespace saggar::compose {

namespace {

using document::text;

struct Made {
  Composed composed;
  std::vector<MarkedEntry> marked;
  diagnostics::Findings findings;
};

// A link may name a heading that this chapter would have had: it then leads to the top.
void addMissingHeadings(const Page& page, Blocks& blocks) {
  std::set<std::string> there;
  auto walk = [&](auto& self, const Blocks& some) -> void {
    for (const Block& block : some) {
      if (!block.anchor.empty()) there.insert(block.anchor);
      self(self, block.blocks);
    }
  };
  walk(walk, blocks);
  Inlines places;
  for (const std::string& heading : page.book().places().linkedHeadings(page.number()))
    if (!there.contains(heading)) places.push_back(document::anchorAt(heading));
  if (!places.empty() && !blocks.empty())
    blocks.insert(blocks.begin() + 1, document::paragraph(std::move(places)));
}

Made composeChapter(const Book& book, std::size_t number) {
  Page page(book, number);
  Made made;
  const Chapter& chapter = page.chapter();
  Blocks blocks;
  switch (chapter.type) {
    case ChapterType::prose: blocks = proseBlocks(page, chapter.path, {}, made.findings); break;
    case ChapterType::record: blocks = recordChapter(page, made.findings); break;
    case ChapterType::generated: blocks = generatedChapter(page); break;
    case ChapterType::lists: blocks = listsChapter(page); break;
    case ChapterType::sources:
      blocks = sourcesChapter(page);
      blocks.insert(blocks.begin(), document::heading(1, {text(chapter.title)}));
      break;
    case ChapterType::index: blocks = indexChapter(page); break;
  }
  for (Block& block : leftOver(page)) blocks.push_back(std::move(block));
  addMissingHeadings(page, blocks);
  page.made.document.blocks = std::move(blocks);
  made.composed = std::move(page.made);
  made.marked = std::move(page.marked);
  return made;
}

}  // namespace

void composeGuide(const Materials& materials, const Places& places, const std::function<void(Composed)>& take,
                  diagnostics::Findings& findings) {
  Book book(materials, places);
  const std::vector<Chapter>& chapters = places.chapters();
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < chapters.size(); ++i)
    if (chapters[i].type != ChapterType::index) order.push_back(i);
  auto begin = [&](std::size_t next) {
    return next < order.size() ? std::async(std::launch::async, composeChapter, std::cref(book), order[next])
                               : std::future<Made>();
  };
  std::future<Made> next = begin(0);
  take(contentsPage(book));
  for (std::size_t i = 0; i < order.size(); ++i) {
    Made made = next.get();
    next = begin(i + 1);
    findings.append(std::move(made.findings));
    take(std::move(made.composed));
    // The chapter that is being made does not look at these.
    std::move(made.marked.begin(), made.marked.end(), std::back_inserter(book.marked));
  }
  for (std::size_t i = 0; i < chapters.size(); ++i)
    if (chapters[i].type == ChapterType::index) take(std::move(composeChapter(book, i).composed));
}

}  // namespace saggar::compose
