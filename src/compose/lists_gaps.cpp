#include <algorithm>

#include "base/text.h"
#include "compose/help_wanted.h"
#include "compose/lists.h"

// What is not known.
namespace saggar::compose {

using choosing::Chosen;
using document::text;
using records::Field;
using records::Value;

Blocks helpWantedList(Page& page, const Listing& listing) {
  constexpr std::size_t kMostNames = 12;
  const std::vector<RecordIndex> records = listing.records();
  for (const RecordIndex one : records) page.uses(one);
  HelpWanted wanted = helpWanted(page.words(), records, kMostNames);
  for (const RecordIndex one : wanted.pieces) page.uses(one);
  Blocks out;
  const auto part = [&](std::string title, std::vector<Blocks> items) {
    out.push_back(document::paragraph({document::strong({text(std::move(title))})}));
    out.push_back(document::list(std::move(items)));
  };
  for (WantedPart& one : wanted.parts) {
    std::vector<Blocks> items;
    for (WantedLine& line : one.lines) items.push_back(labelled(line.what, sentence(std::move(line.which))));
    part(std::move(one.title), std::move(items));
  }
  if (!wanted.estimates.empty()) {
    std::vector<Blocks> items;
    for (const study::Estimate& one : wanted.estimates)
      items.push_back(labelled(page.words().plainName(one.shape), sentence({text(estimateInWords(one))})));
    part("What may not be on record at all", std::move(items));
    out.push_back(document::paragraph({text(estimatesSuppose())}));
  }
  if (wanted.questions.empty()) return out;
  std::vector<Inlines> questions;
  for (const RecordIndex one : wanted.questions) questions.push_back(page.words().name(one));
  Inlines line;
  put(line, "The open questions are set out with what would settle each: ");
  put(line, sentence(separated(std::move(questions), "; ")));
  out.push_back(document::paragraph(std::move(line)));
  return out;
}

}  // namespace saggar::compose
