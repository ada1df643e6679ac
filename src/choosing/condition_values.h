#pragma once
#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include "choosing/condition_node.h"
#include "choosing/say.h"

// Reads what a path is asked to reach. Not for other rooms.
namespace saggar::choosing {

// Part of a text by its bytes, where the text stands letter for letter in its file (perhaps in quotes); else the whole.
records::Extent partOf(records::Extent place, std::string_view text, std::size_t at, std::size_t length);

// "shape", "shape or motif", "record".
std::string kindsInWords(records::KindSet kinds);

class ValueReader {
 public:
  ValueReader(const Collection& collection, source::FileId file, diagnostics::Findings& findings)
      : collection_(collection), file_(file), findings_(findings) {}

  // One plain value (no word as `known`, no list, no mapping), as the end of the node's path wants it. False if it
  // cannot be read, with a finding.
  bool take(const records::Value& value, Condition::Node& node);

  void report(diagnostics::Rule rule, records::Extent place, std::string message, std::string hint);

 private:
  bool takeDays(const records::Value& value, Condition::Node& node);
  bool takeReference(const records::Value& value, records::KindSet kinds, Condition::Node& node);
  bool takeEvent(const records::Value& value, Condition::Node& node);
  bool takeChoice(const records::Value& value, const records::FieldSpec& spec, Condition::Node& node);
  bool takeNumber(const records::Value& value, const records::FieldSpec& spec, Condition::Node& node);
  bool takeMeasure(const records::Value& value, Condition::Node& node);
  bool takeYesNo(const records::Value& value, Condition::Node& node);
  bool fitsFeature(const records::Value& value, RecordIndex feature);
  bool isLost(std::string_view id) const;
  std::string nearestId(std::string_view id, records::KindSet kinds) const;

  const Collection& collection_;
  source::FileId file_;
  diagnostics::Findings& findings_;
};

}  // namespace saggar::choosing
