#include "compose/chapters.h"

#include <algorithm>

#include "base/text.h"
#include "compose/prose.h"
#include "dates/print.h"
#include "linking/prose.h"
#include "reading/text_map.h"

namespace saggar::compose {

using document::BlockKind;
using document::text;
using records::Value;

namespace {

constexpr Kind kOrderOfLists[] = {Kind::maker,     Kind::person,  Kind::shape,    Kind::motif,
                                  Kind::treatment, Kind::form,    Kind::set,      Kind::mark,
                                  Kind::specimen,  Kind::feature, Kind::question, Kind::claim,
                                  Kind::term,      Kind::photo,   Kind::talk,     Kind::checklist};

std::string titleOfKind(Kind kind) {
  switch (kind) {
    case Kind::maker: return "Makers, suppliers and customers";
    case Kind::person: return "People";
    case Kind::form: return "Pieces";
    case Kind::treatment: return "Decorations";
    case Kind::specimen: return "Pieces seen";
    case Kind::feature: return "What to look at";
    case Kind::claim: return "Statements";
    case Kind::photo: return "Pictures";
    case Kind::checklist: return "Lists to print";
    case Kind::question: return "Questions";
    case Kind::term: return "Words";
    default: return capitalised(std::string(plural(kind)));
  }
}

// Entries of one kind; pieces and statements as one list.
Blocks entriesOf(Page& page, const std::vector<RecordIndex>& records) {
  Blocks out;
  std::vector<Blocks> items;
  std::vector<RecordIndex> pieces;
  for (RecordIndex record : records)
    if (page.wants(record) && page.record(record).kind() == Kind::specimen) pieces.push_back(record);
  Blocks saw = whoSaw(page, pieces);
  for (RecordIndex record : records) {
    if (!page.wants(record)) continue;
    const Kind kind = page.record(record).kind();
    if (kind == Kind::specimen) {
      items.push_back(item(specimenLine(page, record)));
    } else if (kind == Kind::claim) {
      items.push_back(item(claimLine(page, record)));
    } else {
      for (Block& block : entryOf(page, record)) out.push_back(std::move(block));
    }
  }
  for (Block& block : saw) out.push_back(std::move(block));
  if (!items.empty()) out.push_back(document::list(std::move(items)));
  return out;
}

std::vector<RecordIndex> wanted(const Page& page, Kind kind) {
  std::vector<RecordIndex> out;
  for (RecordIndex record : page.book().places().homesIn(page.number()))
    if (page.wants(record) && page.record(record).kind() == kind) out.push_back(record);
  return out;
}

}  // namespace

Blocks proseBlocks(Page& page, const std::string& path, Blocks intro, diagnostics::Findings& findings) {
  const auto& files = page.records().prose();
  const auto file = std::find_if(files.begin(), files.end(),
                                 [&](const records::ProseFile& one) { return one.path == path; });
  if (file == files.end()) return intro;
  const reading::FileTextMap map(file->file);
  Blocks blocks = linking::parseProse(page.records().sources().text(file->file), map).blocks;
  ProseSetting setting;
  setting.path = path;
  setting.indexed = [&](const std::string& heading) { return page.mark(heading); };
  setting.picture = [&](const std::string& picture) { page.picture(picture); };
  Blocks out;
  bool introduced = intro.empty();
  int under = 1;
  auto walk = [&](auto& self, Blocks& some, Blocks& into, bool top) -> void {
    for (Block& block : some) {
      if (top && !introduced && !(block.kind == BlockKind::heading && block.level == 1)) {
        for (Block& one : intro) into.push_back(std::move(one));
        introduced = true;
      }
      if (block.kind == BlockKind::query) {
        page.level = std::clamp(under + 1, 2, 6);
        const Query query = readQuery(block, page.words().materials(), findings);
        page.blocks.push_back(query.block);
        for (Block& one : listOf(page, query, false)) into.push_back(std::move(one));
        continue;
      }
      if (block.kind == BlockKind::heading) {
        under = block.level;
        if (!page.book().places().isLinked(page.number(), block.anchor)) block.anchor.clear();
      }
      Blocks inner = std::move(block.blocks);
      block.blocks.clear();
      Blocks alone{std::move(block)};
      resolveBlocks(alone, page.words(), setting);
      self(self, inner, alone[0].blocks, false);
      into.push_back(std::move(alone[0]));
    }
  };
  walk(walk, blocks, out, true);
  if (!introduced)
    for (Block& one : intro) out.push_back(std::move(one));
  page.level = 2;
  return out;
}

Blocks generatedChapter(Page& page) {
  Blocks out{document::heading(1, {text(page.chapter().title)})};
  page.level = 2;
  for (Block& block : listOf(page, wholeQuery(page.chapter().block), true)) out.push_back(std::move(block));
  return out;
}

Blocks listsChapter(Page& page) {
  Blocks out{document::heading(1, {text(page.chapter().title)})};
  const std::string& which = page.chapter().block;
  page.level = 2;
  if (which == "motifs") {
    out.push_back(
        document::paragraph({text("The pictures and borders that were put on the ware, each with its "
                                  "supplier, its dates and the decorations that carry it.")}));
    for (Block& block : entriesOf(page, wanted(page, Kind::motif))) out.push_back(std::move(block));
    return out;
  }
  if (which == "shapes") {
    out.push_back(document::paragraph(
        {text("Shapes that have no chapter of their own in this guide, with what is recorded of them.")}));
    for (RecordIndex shape : wanted(page, Kind::shape)) {
      for (Block& block : entryOf(page, shape)) out.push_back(std::move(block));
      page.level = 3;
      for (Block& block : entriesOf(page, referring(page, shape, Kind::treatment, "shape"_f)))
        out.push_back(std::move(block));
      page.level = 2;
      std::vector<RecordIndex> pieces = referring(page, shape, Kind::specimen, "shape"_f);
      for (RecordIndex treatment : referring(page, shape, Kind::treatment, "shape"_f))
        for (RecordIndex piece : referring(page, treatment, Kind::specimen, "treatment"_f))
          pieces.push_back(piece);
      Blocks seen = entriesOf(page, pieces);
      if (seen.empty()) continue;
      out.push_back(document::paragraph({document::strong({text("Pieces seen")})}));
      for (Block& block : seen) out.push_back(std::move(block));
      for (RecordIndex piece : pieces)
        for (Block& block : picturesOf(page, piece)) out.push_back(std::move(block));
    }
    return out;
  }
  out.push_back(document::paragraph({text("What this guide names and describes in no other chapter.")}));
  for (Kind kind : kOrderOfLists) {
    const auto records = wanted(page, kind);
    if (records.empty()) continue;
    page.level = 3;
    Blocks entries = entriesOf(page, records);
    if (entries.empty()) continue;
    out.push_back(ownHeading(page, 2, titleOfKind(kind)));
    for (Block& block : entries) out.push_back(std::move(block));
  }
  return out;
}

Blocks leftOver(Page& page) {
  Blocks out;
  for (Kind kind : kOrderOfLists) {
    const auto records = wanted(page, kind);
    if (records.empty()) continue;
    if (out.empty()) out.push_back(ownHeading(page, 2, "Also described here"));
    page.level = 3;
    for (Block& block : entriesOf(page, records)) out.push_back(std::move(block));
  }
  page.level = 2;
  return out;
}

Composed contentsPage(const Book& book) {
  const linking::GuideSettings& settings = book.records().settings();
  Composed made;
  Document& document = made.document;
  document.file = "README";
  document.title = settings.title.empty() ? "A collector's guide" : settings.title;
  document.language = settings.language;
  document.authors = settings.authors;
  document.draft = book.materials().draft;
  document.blocks.push_back(document::heading(1, {text(document.title)}));
  std::string line;
  if (!settings.authors.empty()) line = "By " + base::listedInWords(settings.authors) + ". ";
  constexpr std::string_view kOrdinals[] = {"",      "First",   "Second", "Third", "Fourth", "Fifth",
                                            "Sixth", "Seventh", "Eighth", "Ninth", "Tenth"};
  if (settings.edition > 0) {
    document.edition = settings.edition < 11 ? std::string(kOrdinals[settings.edition]) + " edition"
                                             : "Edition " + std::to_string(settings.edition);
    line += document.edition;
    const records::Record* guide = book.records().guide();
    const Value* editions = guide == nullptr ? nullptr : guide->find("editions"_f);
    std::vector<std::string> earlier;
    if (editions != nullptr)
      for (const records::Entry& entry : editions->entries()) {
        const Value* date = entry.value.find("date"_f);
        const std::string when = date == nullptr ? std::string() : book.words().shortDate(date);
        if (entry.key == std::to_string(settings.edition)) {
          if (!when.empty()) line += ", " + when;
        } else {
          const std::int64_t number =
              entry.key.size() == 1 && base::isDigit(entry.key[0]) ? entry.key[0] - '0' : 0;
          std::string words = number > 0 ? "The " + base::folded(kOrdinals[number]) + " edition"
                                         : "Edition " + std::string(entry.key);
          words += date != nullptr && date->date() != nullptr ? " came out " + dates::happened(*date->date())
                   : when.empty()                             ? " came before it"
                                                              : " came out before it, " + when;
          earlier.push_back(words + '.');
        }
      }
    line += ".";
    for (const std::string& one : earlier) line += ' ' + one;
  }
  if (!line.empty()) document.blocks.push_back(document::paragraph({text(line)}));
  std::vector<Blocks> items;
  std::string division;
  auto flush = [&] {
    if (!items.empty()) document.blocks.push_back(document::list(std::move(items)));
    items.clear();
  };
  for (const Chapter& chapter : book.places().chapters()) {
    if (chapter.division != division) {
      flush();
      division = chapter.division;
      if (!division.empty()) document.blocks.push_back(document::heading(2, {text(division)}));
    }
    Inlines words{document::link({text(chapter.title)}, {.file = chapter.file, .anchor = {}, .address = {}})};
    if (chapter.record != records::kNoRecord &&
        (book.records()[chapter.record].find("introduced"_f) != nullptr ||
         book.records()[chapter.record].find("withdrawn"_f) != nullptr)) {
      const PublishedRecord record = book.records()[chapter.record];
      put(words, ", " + book.words().plainDates(record));
      if (const std::string stands = book.words().standingOfDates(record); !stands.empty())
        putInBrackets(words, {text(stands)});
    }
    items.push_back(item(std::move(words)));
  }
  flush();
  return made;
}

}  // namespace saggar::compose
