#include "compose/help_sheet.h"
#include "compose/cautions_text.h"

#include <algorithm>

#include "base/text.h"
#include "compose/facts.h"
#include "compose/help_wanted.h"
#include "compose/phrases.h"
#include "compose/query.h"

namespace saggar::compose {

using document::paragraph;
using document::text;

namespace {

constexpr std::size_t kMostNames = 16;

ChecklistHead headOf(const Materials& materials) {
  ChecklistHead head;
  Document& document = head.document;
  setUpSheet(document, materials, std::string(kHelpSheet), "Help wanted");
  std::string words =
      "Here is what this guide does not know yet. A number written on a foot, a photograph of a mark or a "
      "page of an old "
      "list may be all that is wanted";
  const auto& authors = materials.records.settings().authors;
  words += authors.empty() ? "." : "; whoever has one is asked to tell " + base::listedInWords(authors) + '.';
  document.blocks.push_back(paragraph({text(std::move(words))}));
  Inlines legend{document::tickBox()};
  put(legend, " tick when you can tell, and write down how you know");
  document.blocks.push_back(document::notice("legend", {paragraph(std::move(legend))}));
  document.blocks.push_back(document::notice("caution", {paragraph({text(std::string(kCautionOnSheets))})}));
  head.hasRows = true;
  for (const char* name : {"", "What is missing", "Of which", "Found"}) {
    head.columns.head.push_back(document::cell(std::string(name)));
    head.columns.align.push_back(document::Align::left);
  }
  head.columns.width = {0.04, 0.26, 0.50, 0.20};  // the last is to write in, whatever the others hold
  return head;
}

document::Row groupHead(std::string title) {
  document::Row row;
  row.groupHead = true;
  row.cells.push_back(document::cell(std::move(title)));
  return row;
}

document::Row rowOf(std::string what, Inlines which) {
  document::Row row;
  row.cells.push_back(document::cell(Inlines{document::tickBox()}));
  row.cells.push_back(document::cell(std::move(what)));
  row.cells.push_back(document::cell(std::move(which)));
  row.cells.push_back(document::cell(std::string()));
  return row;
}

Inlines whatSettles(const Words& words, const PublishedRecord& question) {
  std::vector<Inlines> parts;
  if (const records::Value* settles = question.find("would-settle"_f); settles != nullptr && settles->said())
    for (const records::Value& one : settles->each()) parts.push_back(words.proseLine(question, one));
  return separated(std::move(parts), " ");
}

}  // namespace

bool composeHelpSheet(const Materials& materials, const ChecklistSink& sink,
                      std::vector<RecordIndex>& madeFrom) {
  const Words words(materials, nullptr);
  std::vector<RecordIndex> records;
  for (const choosing::Chosen& one : chosenBy(wholeQuery("help-wanted"), materials))
    records.push_back(one.record);
  HelpWanted wanted = helpWanted(words, records, kMostNames);
  if (wanted.parts.empty() && wanted.questions.empty()) return false;
  sink.begin(headOf(materials));
  for (WantedPart& part : wanted.parts) {
    sink.row(groupHead(part.title));
    for (WantedLine& line : part.lines) sink.row(rowOf(std::move(line.what), std::move(line.which)));
  }
  if (!wanted.questions.empty()) {
    sink.row(groupHead("Open questions"));
    for (const RecordIndex question : wanted.questions) {
      sink.row(rowOf(words.plainName(question), whatSettles(words, materials.records[question])));
    }
  }
  madeFrom.insert(madeFrom.end(), records.begin(), records.end());
  for (const auto* more : {&wanted.questions, &wanted.pieces})
    madeFrom.insert(madeFrom.end(), more->begin(), more->end());
  std::sort(madeFrom.begin(), madeFrom.end());
  madeFrom.erase(std::unique(madeFrom.begin(), madeFrom.end()), madeFrom.end());
  return true;
}

}  // namespace saggar::compose
