#pragma once
#include <variant>

#include "choosing/condition.h"
#include "choosing/range.h"

// A condition compiled: what is asked of what. Not for other rooms.
namespace saggar::choosing {

enum class Word : std::uint8_t { none, unknown, known, absent };

struct WantedText {
  std::string folded;
};
struct WantedRecord {
  RecordIndex record = records::kNoRecord;
};
struct WantedEvent {  // kind:id, or kind:id.field
  RecordIndex record = records::kNoRecord;
  records::Field field{};
  SpanEnd end = SpanEnd::whole;
};
struct WantedAll {};  // of `made-in`
using Wanted = std::variant<WantedText, WantedRecord, WantedEvent, WantedAll, Range, MeasureRange>;

// The days asked for, as ranges that do not touch, in order.
using WantedDays = std::vector<dates::Bounds>;

struct Condition::Node {
  enum class Type : std::uint8_t {
    allOf,   // every one of `nodes`
    anyOf,   // one of `nodes`
    notAll,  // not every one of `nodes`
    test,    // what `path` reaches is one of what is wanted
  };
  Type type = Type::allOf;
  std::vector<Node> nodes;

  Path path;
  std::vector<Word> words;
  std::vector<Wanted> wanted;
  WantedDays days;
  std::vector<Node> within;  // conditions on the record or mapping that the path reaches

  // Made of words alone: never maybe.
  bool crisp() const {
    if (!wanted.empty() || !days.empty()) return false;
    for (const Node& node : nodes)
      if (!node.crisp()) return false;
    for (const Node& node : within)
      if (!node.crisp()) return false;
    return true;
  }
};

}  // namespace saggar::choosing
