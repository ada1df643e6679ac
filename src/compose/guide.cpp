#include "compose/guide.h"

#include <deque>
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
  std::vector<std::function<Composed()>> further;
};
using Job = std::function<Made()>;

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
  made.further = std::move(page.further);
  return made;
}

// Has one job done while the one before is taken; a chapter's further files come behind it.
void doAll(std::deque<Job> jobs, const std::function<void(Made)>& take) {
  std::future<Made> next;
  const auto begin = [&] {
    next = {};
    if (jobs.empty()) return;
    next = std::async(std::launch::async, std::move(jobs.front()));
    jobs.pop_front();
  };
  begin();
  while (next.valid()) {
    Made made = next.get();
    for (auto further = made.further.rbegin(); further != made.further.rend(); ++further)
      jobs.push_front([compose = std::move(*further)] { return Made{compose(), {}, {}, {}}; });
    made.further.clear();
    begin();
    take(std::move(made));
  }
}

}  // namespace

void composeGuide(const Materials& materials, const Places& places, const std::function<void(Composed)>& take,
                  diagnostics::Findings& findings) {
  Book book(materials, places);
  const std::vector<Chapter>& chapters = places.chapters();
  std::deque<Job> jobs;
  std::deque<Job> last;
  for (std::size_t i = 0; i < chapters.size(); ++i)
    (chapters[i].type == ChapterType::index ? last : jobs).push_back([&book, i] {
      return composeChapter(book, i);
    });
  take(contentsPage(book));
  doAll(std::move(jobs), [&](Made made) {
    findings.append(std::move(made.findings));
    take(std::move(made.composed));
    // The chapter that is being made does not look at these.
    std::move(made.marked.begin(), made.marked.end(), std::back_inserter(book.marked));
  });
  doAll(std::move(last), [&](Made made) { take(std::move(made.composed)); });
}

}  // namespace saggar::compose
