#include "choosing/network_bounds.h"

namespace saggar::choosing {

using chronology::EventEnd;
using chronology::Node;

Node nodeOf(const chronology::Events& events, RecordIndex record, records::Field field, Bounds::End end) {
  const EventEnd which = end == Bounds::End::from    ? EventEnd::from
                         : end == Bounds::End::until ? EventEnd::until
                                                     : EventEnd::moment;
  const Node node = events.nodeOf(record, field, which);
  return node != chronology::kNoNode ? node : events.nodeOf(record, field, EventEnd::moment);
}

dates::Bounds NetworkBounds::of(RecordIndex record, records::Field field, End end) const {
  const chronology::Events& events = chronology_.events();
  const Node node = nodeOf(events, record, field, end);
  if (node != chronology::kNoNode) return chronology_.bounds(node, which_);
  // A span asked for as a whole: from the day it began to the day it ended.
  const Node from = events.nodeOf(record, field, EventEnd::from);
  const Node until = events.nodeOf(record, field, EventEnd::until);
  if (from == chronology::kNoNode) return {dates::Day::minusInfinity(), dates::Day::plusInfinity()};
  return {chronology_.bounds(from, which_).earliest, chronology_.bounds(until, which_).latest};
}

}  // namespace saggar::choosing
