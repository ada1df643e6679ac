#include "compose/guide.h"

#include "compose/chapters.h"
#include "compose/index.h"
#include "compose/sources.h"

namespace saggar::compose {

namespace {

using document::text;

void composeChapter(Book& book, std::size_t number, const std::function<void(Composed)>& take, diagnostics::Findings& findings) {
  Page page(book, number);
  const Chapter& chapter = page.chapter();
  Blocks blocks;
  switch (chapter.type) {
    case ChapterType::prose: blocks = proseBlocks(page, chapter.path, {}, findings); break;
    case ChapterType::record: blocks = recordChapter(page, findings); break;
    case ChapterType::generated: blocks = generatedChapter(page); break;
    case ChapterType::lists: blocks = listsChapter(page); break;
    case ChapterType::sources:
      blocks = sourcesChapter(page);
      blocks.insert(blocks.begin(), document::heading(1, {text(chapter.title)}));
      break;
    case ChapterType::index: blocks = indexChapter(page); break;
  }
  for (Block& block : leftOver(page)) blocks.push_back(std::move(block));
  page.made.document.blocks = std::move(blocks);
  take(std::move(page.made));
}

}  // namespace

void composeGuide(const Materials& materials, const Places& places, const std::function<void(Composed)>& take,
                  diagnostics::Findings& findings) {
  Book book(materials, places);
  take(contentsPage(book));
  for (std::size_t i = 0; i < places.chapters().size(); ++i)
    if (places.chapters()[i].type != ChapterType::index) composeChapter(book, i, take, findings);
  for (std::size_t i = 0; i < places.chapters().size(); ++i)
    if (places.chapters()[i].type == ChapterType::index) composeChapter(book, i, take, findings);
}

}  // namespace saggar::compose
