#include "compose/own_pieces.h"

#include <algorithm>
#include <map>

#include "base/text.h"
#include "compose/collation.h"
#include "compose/phrases.h"
#include "compose/talk_facts.h"
#include "talks/timing.h"

namespace saggar::compose {

using document::heading;
using document::paragraph;
using document::text;
using records::Value;

namespace {

struct Piece {
  RecordIndex record = records::kNoRecord;
  std::vector<std::string> when;  // starts of the segments that show it
};

std::vector<Piece> piecesOf(const linking::Collection& collection, RecordIndex talk) {
  std::vector<Piece> pieces;
  for (const talks::SegmentTime& segment : talks::timesOf(collection, talk).segments) {
    const Value* show = segment.segment->find("show"_f);
    if (show == nullptr || !show->said()) continue;
    for (const Value& one : show->each()) {
      if (one.target() == records::kNoRecord) continue;
      auto at = std::find_if(pieces.begin(), pieces.end(),
                             [&](const Piece& piece) { return piece.record == one.target(); });
      if (at == pieces.end()) at = pieces.insert(pieces.end(), {one.target(), {}});
      std::string start = (segment.startGiven ? "" : "about ") + talks::asClock(segment.start);
      if (at->when.empty() || at->when.back() != start) at->when.push_back(std::move(start));
    }
  }
  return pieces;
}

}  // namespace

Composed composeOwnPieces(const linking::Collection& collection, const Materials& materials,
                          RecordIndex talk) {
  Composed made;
  Document& document = made.document;
  const Words words(materials, nullptr);
  document.file = "pieces";
  document.title = "Pieces for “" + words.plainName(talk) + "”";
  document.language = collection.settings().language;
  made.madeFrom.insert(collection[talk].reference());
  document.blocks.push_back(heading(1, {text(document.title)}));
  const std::vector<Piece> pieces = piecesOf(collection, talk);
  if (pieces.empty()) {
    document.blocks.push_back(paragraph({text("No piece is shown in this talk.")}));
    return made;
  }
  document.blocks.push_back(paragraph({text(
      "For your eyes only. The numbers are those of the outline: the order on the table. Tick once when a "
      "piece is packed, and once when it is back.")}));

  std::vector<RecordIndex> all;
  for (const Piece& piece : pieces) all.push_back(piece.record);
  const std::vector<std::string> tells = tellApart(words, all);
  auto lineOf = [&](std::size_t number) {
    const Piece& piece = pieces[number];
    const records::Record& record = collection[piece.record];
    Inlines line{document::tickBox(), text(" "), document::tickBox(),
                 text(" " + std::to_string(number + 1) + " · ")};
    line.push_back(document::strong({text(words.plainName(piece.record))}));
    put(line, tells[number] + ", shown at " + base::listedInWords(piece.when));
    if (const std::string_view owner = record.text("owner"_f); !owner.empty())
      put(line, "; belongs to " + std::string(owner));
    const bool here = !record.text("kept"_f).empty();
    if (const std::string_view holder = record.text("holder"_f); !holder.empty() && !here)
      put(line, "; " + whereHeld(holder));
    if (record.kind == Kind::specimen && !seenInHand(materials.records[piece.record]))
      put(line, "; not seen in hand");
    return line;
  };
  // By shelf or box, as one walks along them; what has none comes last, and then what is only a picture.
  const Collation collation(collection.settings().language);
  std::map<std::pair<int, std::string>, std::pair<std::string, std::vector<Blocks>>> shelves;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    const records::Record& record = collection[pieces[i].record];
    made.madeFrom.insert(record.reference());
    std::string shelf(base::trimmed(record.text("kept"_f)));
    int group = 0;
    if (shelf.empty()) {
      group = record.kind == Kind::specimen ? 1 : 2;
      shelf = group == 1 ? "No shelf recorded" : "Pictures";
    }
    auto& [title, items] = shelves[{group, collation.key(base::folded(shelf))}];
    if (title.empty()) title = capitalised(shelf);
    items.push_back(item(lineOf(i)));
  }
  for (auto& [key, shelf] : shelves) {
    document.blocks.push_back(heading(2, {text(shelf.first)}));
    document.blocks.push_back(document::list(std::move(shelf.second)));
  }
  return made;
}

}  // namespace saggar::compose
