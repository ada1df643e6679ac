#pragma once
#include <string>
#include <unordered_map>
#include <vector>

#include "choosing/query.h"
#include "compose/words.h"

// The cells of a checklist: what stands at the head of a column, and a record's value in it.
namespace saggar::compose {

// What is not there, where there is no room for words; the legend says so.
inline constexpr std::string_view kNotRecorded = "–";
inline constexpr std::string_view kNotKnown = "?";

// "Number", "Nominal size", "Piece": the trade's word for what a path reaches.
std::string columnHead(const choosing::Path& path, Kind kind);

// The columns of a list whose author names none.
std::vector<choosing::Column> usualColumns(Kind kind, const choosing::Collection& collection);

// Makes the cells of one list. What many rows share (a motif's name, a year) is put into words once.
class CellMaker {
 public:
  CellMaker(const Words& words, Kind kind) : words_(words), kind_(kind) {}

  // `first`: the column that tells which record it is. Where it has nothing to say, the record's name does.
  std::string cell(const choosing::Path& path, RecordIndex record, bool first);

  // What a group of rows is called: "Flatware", "Jessamount", "Shape not recorded".
  std::string groupName(const choosing::Reached& key, const choosing::Path& by);

 private:
  std::string inWords(const choosing::Reached& reached);
  const std::string& nameOf(RecordIndex record);
  std::string valueInWords(const records::Value& value, const records::FieldSpec* spec, RecordIndex owner);

  const Words& words_;
  Kind kind_;
  std::unordered_map<RecordIndex, std::string> names_;
  std::unordered_map<const dates::Expression*, std::string> dates_;
};

}  // namespace saggar::compose
