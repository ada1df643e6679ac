#include "commands/stage_bounds.h"

namespace saggar::commands {

using chronology::BoundsOf;
using chronology::Event;
using chronology::Events;
using chronology::Node;
using dates::Day;

namespace {

std::string day(Day day) {
  return day.isFinite() ? day.toString() : "..";
}

std::string days(const dates::Bounds& bounds) {
  return day(bounds.earliest) + '/' + day(bounds.latest);
}

void pad(std::string& text, std::size_t width) {
  text.append(text.size() < width ? width - text.size() : 2, ' ');
}

}  // namespace

void putBounds(std::string& out, const Guide& guide, linking::RecordIndex index) {
  const records::Record& record = guide.collection[index];
  const chronology::Chronology& chronology = guide.chronology;
  if (Events::slotsOf(record.kind).empty()) return;
  const source::Place place = guide.collection.sources().place(record.span());
  out += record.reference() + "  " + std::string(place.path) + ':' + std::to_string(place.line) + '\n';
  for (const Events::Slot& slot : Events::slotsOf(record.kind)) {
    const Event event{index, slot.field, slot.end};
    const Node node = chronology.events().nodeOf(event);
    std::string line = "  " + chronology.events().text(event).substr(record.reference().size() + 1);
    pad(line, 18);
    line += "proven " + days(chronology.bounds(node, BoundsOf::proven));
    pad(line, 50);
    line += "likely " + days(chronology.bounds(node, BoundsOf::likely));
    out += line + '\n';
    for (const chronology::FactId fact : chronology.open(node))
      out += "    open: " + guide.reasons->says(fact) + '\n';
  }
}

}  // namespace saggar::commands
