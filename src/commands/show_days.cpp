#include "commands/show_days.h"

#include "commands/reason_output.h"
#include "dates/binding.h"
#include "dates/print.h"
#include "records/tables.h"

namespace saggar::commands {

using chronology::BoundsOf;
using chronology::Event;
using chronology::EventEnd;
using chronology::Events;
using chronology::Node;
using dates::Bounds;
using linking::RecordIndex;
using records::Field;
using Json = nlohmann::ordered_json;

namespace {

bool isOpen(const Bounds& days) {
  return !days.earliest.isFinite() && !days.latest.isFinite();
}

// The points of a field's events: one of a moment, two of a span.
std::vector<std::pair<EventEnd, Node>> nodesOf(const Guide& guide, RecordIndex record, Field field) {
  std::vector<std::pair<EventEnd, Node>> nodes;
  for (const Events::Slot& slot : Events::slotsOf(guide.collection[record].kind))
    if (slot.field == field)
      nodes.emplace_back(slot.end, guide.chronology.events().nodeOf({record, field, slot.end}));
  return nodes;
}

// The days that the date typed binds; open where there is none.
Bounds typed(const Guide& guide, RecordIndex record, Field field, EventEnd end) {
  const records::Value* value = guide.collection[record].find(field);
  const dates::Expression* date = value == nullptr ? nullptr : value->date();
  if (date == nullptr) return {dates::Day::minusInfinity(), dates::Day::plusInfinity()};
  const dates::Options& options = guide.collection.settings().dates;
  if (end == EventEnd::moment) return dates::momentDays(*date, dates::Reading::Plain, options);
  const dates::SpanDays days = dates::spanDays(*date, dates::Reading::Plain, options);
  return end == EventEnd::from ? days.begin : days.end;
}

std::string_view ofEnd(EventEnd end) {
  return end == EventEnd::from ? "begun " : end == EventEnd::until ? "ended " : "";
}

}  // namespace

std::vector<std::string> provenLines(const Guide& guide, RecordIndex record, Field field) {
  const records::Kind kind = guide.collection[record].kind;
  if (!records::needsEvidence(kind, field) && (kind != records::Kind::specimen || field != "made"_f))
    return {};
  std::vector<std::string> lines;
  const auto nodes = nodesOf(guide, record, field);
  bool all = true;
  for (const auto& [end, node] : nodes) {
    const Bounds days = guide.chronology.bounds(node, BoundsOf::proven);
    all &= !isOpen(days) && days == typed(guide, record, field, end);
    if (isOpen(days)) continue;
    lines.push_back("proven " + std::string(ofEnd(end)) + dates::describeBounds(days));
  }
  if (nodes.empty()) return {};
  if (all) return {"proven as it stands"};
  for (const auto& [end, node] : nodes)
    if (!guide.chronology.open(node).empty()) lines.emplace_back("left open in part: see `saggar date`");
  if (lines.empty()) lines.emplace_back("nothing is proven of it");
  return lines;
}

std::vector<DaysNotRecorded> daysNotRecorded(const Guide& guide, RecordIndex record) {
  std::vector<DaysNotRecorded> out;
  for (const Events::Slot& slot : Events::slotsOf(guide.collection[record].kind)) {
    if (guide.collection[record].find(slot.field) != nullptr || slot.field == "seen"_f) continue;
    const Node node = guide.chronology.events().nodeOf({record, slot.field, slot.end});
    const Bounds proven = guide.chronology.bounds(node, BoundsOf::proven);
    const Bounds likely = guide.chronology.bounds(node, BoundsOf::likely);
    if (isOpen(proven) && isOpen(likely)) continue;
    if (out.empty() || out.back().field != slot.field.name())
      out.push_back({std::string(slot.field.name()), {}});
    const std::string end(ofEnd(slot.end));
    if (!isOpen(proven)) out.back().lines.push_back("proven " + end + dates::describeBounds(proven));
    if (!isOpen(likely) && likely != proven)
      out.back().lines.push_back("likely " + end + dates::describeBounds(likely));
  }
  return out;
}

Json provenAsJson(const Guide& guide, RecordIndex record, Field field) {
  const auto nodes = nodesOf(guide, record, field);
  if (nodes.empty()) return nullptr;
  Json out = boundsAsJson(guide, nodes.front().second, BoundsOf::proven);
  if (nodes.size() == 1) return out;
  Json until = boundsAsJson(guide, nodes.back().second, BoundsOf::proven);
  out["latest"] = until["latest"];
  out["because"]["latest"] = until["because"]["latest"];
  for (Json& fact : until["open"])
    if (std::find(out["open"].begin(), out["open"].end(), fact) == out["open"].end())
      out["open"].push_back(std::move(fact));
  return out;
}

}  // namespace saggar::commands
