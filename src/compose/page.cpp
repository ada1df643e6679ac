#include "compose/page.h"

#include "reading/markdown.h"

namespace saggar::compose {

Page::Page(const Book& book, std::size_t chapter) : book_(book), chapter_(chapter) {
  const linking::GuideSettings& settings = book.records().settings();
  Document& document = made.document;
  document.file = book.places().chapters()[chapter].file;
  document.title = book.places().chapters()[chapter].title;
  document.language = settings.language;
  document.authors = settings.authors;
  document.draft = book.materials().draft;
}

bool Page::wants(RecordIndex record) const {
  return isHome(record) && !described_.contains(record);
}

std::string Page::takeAnchor(RecordIndex record) {
  if (!isHome(record) || !described_.insert(record).second) return {};
  uses(record);
  return anchorOf(book_.records()[record]);
}

void Page::uses(RecordIndex record) {
  made.madeFrom.insert(book_.records()[record].reference());
}

void Page::picture(const std::string& path) {
  if (pictures_.insert(path).second) made.images.push_back(path);
}

std::string Page::mark(const std::string& heading) {
  std::string anchor = "index-" + std::to_string(marked.size() + 1);
  marked.push_back({heading, chapter_, anchor});
  return anchor;
}

Block ownHeading(const Page& page, int level, std::string words) {
  std::string anchor = reading::headingAnchor(words);
  if (!page.book().places().isLinked(page.number(), anchor)) anchor.clear();
  return document::heading(level, {document::text(std::move(words))}, std::move(anchor));
}

Block noneRecorded(std::string_view what) {
  return document::paragraph({document::text(what.empty() ? std::string("None recorded.")
                                                          : "No " + std::string(what) + " is recorded.")});
}

}  // namespace saggar::compose
