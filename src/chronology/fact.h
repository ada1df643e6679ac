#pragma once
#include "chronology/events.h"
#include "evidence/evidence.h"

// What a guide says of days: one field of one record with its value, or the relation that such a value states.
namespace saggar::chronology {

using evidence::Standing;

enum class Says : std::uint8_t {
  date,        // the record's own date
  endsIn,      // … of which an end is an event
  shapeOf,     // a shape is of a maker
  onShape,     // a treatment is on a shape, or one of several
  withMotif,   // a treatment has a motif
  supplied,    // a motif is of a supplier
  forWhom,     // a treatment or set is for a customer
  inSet,       // a piece of a set
  pieceOf,     // a specimen is of a treatment, shape or motif
  marked,      // a specimen bears a mark
  look,        // a look of which the feature has years
  seen,        // a specimen was seen on a day
  cited,       // a source that shows that it existed by then
  drawn,       // … that its design did
  offered,     // … that it was on offer then: gives way to all else
  inUse,       // a code belongs to a rule that was in use
  worksInUse,  // a date code names a works that was in use
  dateCode,    // a date code is of a day
  number,      // a code has a number in a series
  order,       // a rule's numbers were given out in order
  table,       // a rule's first-of, on-date or last-of
  ordered,     // after, before
};

// A large guide states a million, so that what can be found again is not kept: otherOf says what it relates to.
struct Fact {
  union {
    const Value* value = nullptr;
    const records::Citation* citation;  // cited, drawn, offered
  };
  RecordIndex record = records::kNoRecord;
  Field field{};
  Says says = Says::date;
  Standing standing : 4 = Standing::uncited;
  bool disputed : 1 = false;  // another source says otherwise, and it is not set aside
  bool doubted : 1 = false;   // the author doubts it: for likely days alone, after all others

  bool cites() const { return says == Says::cited || says == Says::drawn || says == Says::offered; }
  // Only a documented fact proves.
  bool proves() const { return standing == Standing::documented && !disputed && !doubted; }
};
static_assert(sizeof(Fact) == 16);

// The record that the fact relates to its own: a shape's maker, what a citation names, the feature of a look. Of several
// shapes the first; kNoRecord for facts that stand by themselves, and those of codes.
RecordIndex otherOf(const linking::Collection& collection, const Fact& fact);

}  // namespace saggar::chronology
