#include "choosing/network_bounds.h"

namespace saggar::choosing {

dates::Bounds NetworkBounds::of(RecordIndex record, records::Field field, End end) const {
  using chronology::EventEnd;
  const chronology::Events& events = chronology_.events();
  const EventEnd which = end == End::from    ? EventEnd::from
                         : end == End::until ? EventEnd::until
                                             : EventEnd::moment;
  chronology::Node node = events.nodeOf(record, field, which);
  if (node != chronology::kNoNode) return chronology_.bounds(node, which_);
  // A span asked for as a whole: from the day it began to the day it ended.
  const chronology::Node from = events.nodeOf(record, field, EventEnd::from);
  const chronology::Node until = events.nodeOf(record, field, EventEnd::until);
  if (which != EventEnd::moment) node = events.nodeOf(record, field, EventEnd::moment);
  if (node != chronology::kNoNode) return chronology_.bounds(node, which_);
  if (from == chronology::kNoNode) return {dates::Day::minusInfinity(), dates::Day::plusInfinity()};
  return {chronology_.bounds(from, which_).earliest, chronology_.bounds(until, which_).latest};
}

}  // namespace saggar::choosing
