#pragma once
#include <span>
#include <string>
#include <vector>

#include "choosing/condition.h"

// What the answer to a condition rests on, for whoever must say why. Not asked for, it costs nothing.
namespace saggar::choosing {

// A value, or that there is none.
struct Ground {
  RecordIndex record = records::kNoRecord;  // where it stands
  const records::Value* value = nullptr;    // null: nothing is typed there
  std::string field;                        // the way to it within the record: "look.finial"
  bool missing = false;                     // not recorded, not known, or a list that may leave something out
  bool shown = false;                       // by a piece, which is `record`
  bool leavesOut = false;                   // `value` holds a list that may leave something out
  bool assumed = false;                     // left out, and a word holds there by itself (`status`)
  // Of a date: the event, and which of its bounds decide. `value` may be null, the days following from others.
  bool days = false;
  records::Field event{};
  Bounds::End end = Bounds::End::moment;
  bool earliest = false, latest = false;

  friend bool operator==(const Ground&, const Ground&) = default;
};

// Of what a path from that record has reached.
Ground groundOf(std::span<const Step> steps, const Reached& reached, RecordIndex from);

// Of a list that may leave something out.
Ground openListGround(std::span<const Step> steps, const Reached::OpenList& list);

// How good a ground is.
class Firmness {
 public:
  virtual ~Firmness() = default;
  virtual bool isFirm(const Ground& ground) const = 0;
};

// An answer with the grounds that give it: of several that would do, the firm ones. Of a maybe they are what would have
// to be known. At most kMostGrounds; `firm` is so of all.
struct Told {
  static constexpr std::size_t kMostGrounds = 20;
  Answer answer = Answer::maybe;
  bool firm = true;
  std::vector<Ground> grounds;
};

}  // namespace saggar::choosing
