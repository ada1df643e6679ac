#include "compose/own_pieces.h"

#include <algorithm>
#include <map>

#include "compose/words.h"
#include "talks/timing.h"

namespace saggar::compose {

using document::heading;
using document::paragraph;
using document::text;
using records::Value;

Composed composeOwnPieces(const linking::Collection& collection, const Materials& materials, RecordIndex talk) {
  Composed made;
  Document& document = made.document;
  const Words words(materials, nullptr);
  document.file = "pieces";
  document.title = words.plainName(talk) + ": where the pieces are";
  document.language = collection.settings().language;
  made.madeFrom.insert(collection[talk].reference());

  struct Piece {
    RecordIndex record;
    std::string when;
  };
  std::map<std::string, std::vector<Piece>> shelves;  // by shelf or box; what has none comes last
  std::vector<Piece> nowhere;
  std::vector<RecordIndex> seen;
  for (const talks::SegmentTime& segment : talks::timesOf(collection, talk).segments) {
    const Value* show = segment.segment->find("show"_f);
    if (show == nullptr || !show->said()) continue;
    for (const Value& one : show->each()) {
      const RecordIndex index = one.target();
      if (index == records::kNoRecord || std::find(seen.begin(), seen.end(), index) != seen.end()) continue;
      seen.push_back(index);
      made.madeFrom.insert(collection[index].reference());
      const std::string shelf(collection[index].text("kept"_f));
      Piece piece{index, talks::asClock(segment.start)};
      if (shelf.empty()) {
        nowhere.push_back(std::move(piece));
      } else {
        shelves[shelf].push_back(std::move(piece));
      }
    }
  }
  document.blocks.push_back(heading(1, {text(document.title)}));
  if (seen.empty()) document.blocks.push_back(paragraph({text("No piece is shown in this talk.")}));
  auto put = [&](const std::string& shelf, const std::vector<Piece>& pieces) {
    if (pieces.empty()) return;
    document.blocks.push_back(heading(2, {text(shelf)}));
    std::vector<Blocks> items;
    for (const Piece& piece : pieces) {
      std::string line = words.plainName(piece.record) + ", shown at " + piece.when;
      if (const std::string_view owner = collection[piece.record].text("owner"_f); !owner.empty()) line += "; belongs to " + std::string(owner);
      items.push_back({paragraph({document::tickBox(), text(" " + line)})});
    }
    document.blocks.push_back(document::list(std::move(items)));
  };
  for (const auto& [shelf, pieces] : shelves) put(shelf, pieces);
  put("No shelf recorded", nowhere);
  return made;
}

}  // namespace saggar::compose
