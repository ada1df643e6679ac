#pragma once
#include <optional>
#include <string>
#include <vector>

#include "chronology/network.h"
#include "linking/collection.h"

// Every dated field of every record is an event, filled in or not; a span is two: when it began and when it ended.
// Of a piece that was seen several times `seen.on` is the first of them.
namespace saggar::chronology {

using records::Field;
using records::Kind;
using records::Record;
using records::RecordIndex;
using records::Value;

enum class EventEnd : std::uint8_t { moment, from, until };

struct Event {
  RecordIndex record = records::kNoRecord;
  Field field{};
  EventEnd end = EventEnd::moment;
  friend bool operator==(const Event&, const Event&) = default;
};

inline constexpr Node kNoNode = 0xFFFFFFFF;

// The points of events are 1, 2, … in the order of the records, of one record in the order of its kind's table.
class Events {
 public:
  explicit Events(const linking::Collection& collection);

  const linking::Collection& collection() const { return collection_; }
  std::uint32_t count() const { return begins_.back(); }  // of points, the origin among them
  Node nodeOf(const Event& event) const;                  // kNoNode: the kind has no such event
  Node nodeOf(RecordIndex record, Field field, EventEnd end = EventEnd::moment) const {
    return nodeOf({record, field, end});
  }
  // What `kind:id` alone stands for; kNoNode for a kind without.
  Node standsFor(RecordIndex record) const;
  std::optional<Event> standingFor(RecordIndex record) const;
  // The event that a value of type event names.
  Node named(const Value& value) const;
  // Null for a point that is no event.
  std::optional<Event> eventOf(Node node) const;

  // `shape:jessamount.introduced`, `mark:k6.used.from`, `specimen:plate.seen.on`.
  std::string text(const Event& event) const;

  // The events of a kind, in the order of their points.
  struct Slot {
    Field field;
    EventEnd end;
  };
  static std::span<const Slot> slotsOf(Kind kind);

 private:
  const linking::Collection& collection_;
  std::vector<Node> begins_;  // of each record's points, and one more: the end
};

}  // namespace saggar::chronology
