#include <algorithm>

#include "base/text.h"
#include "compose/days.h"
#include "compose/lists.h"
#include "dates/print.h"

// Events in their order. The problem: an event is not a day but two pairs of days, and a line drawn through them does not
// fit a column of print. The choice: a row for each event, its proven days and then its likely ones where they say more,
// in the order of the days by which they had likely happened. The cost: events that may have come in another order
// stand in this one; `saggar first` tells.
namespace saggar::compose {

using choosing::Chosen;
using chronology::BoundsOf;
using chronology::Event;
using chronology::EventEnd;
using chronology::Events;
using dates::Bounds;
using dates::Day;
using document::text;
using records::Field;
using records::Value;

namespace {

struct Row {
  Event event;
  Bounds proven, likely;

  // The day by which it had happened; where that is open, the first that it can have.
  Day key() const { return likely.latest.isFinite() ? likely.latest : likely.earliest; }
};

// Empty for an event that is no part of a thing's life, such as the day on which it was looked at.
std::string_view whatHappened(Kind kind, Field field, EventEnd end) {
  const bool until = end == EventEnd::until;
  if (field == "founded"_f) return "founded";
  if (field == "closed"_f) return "closed";
  if (field == "designed"_f) return "designed";
  if (field == "introduced"_f) return kind == Kind::motif ? "first used" : "first offered";
  if (field == "withdrawn"_f) return kind == Kind::motif ? "last used" : "last offered";
  if (field == "active"_f) return until ? "ceased to trade" : "began to trade";
  if (field == "used"_f) return until ? "last used" : "first used";
  if (field == "offered"_f) return until ? "last offered" : "first offered";
  return {};
}

bool isOpen(const Bounds& days) {
  return !days.earliest.isFinite() && !days.latest.isFinite();
}

// "1936 to 1951, likely 1938"; "likely 1953" where nothing is proven.
std::string when(const Row& row) {
  std::string words = isOpen(row.proven) ? std::string() : dates::describeBounds(row.proven);
  if (isOpen(row.likely) || row.likely == row.proven) return words;
  return words + (words.empty() ? "likely " : ", likely ") + dates::describeBounds(row.likely);
}

// The sources of the date; of one that is not recorded, or rests on others, what its days rest on.
Inlines sourcesOf(const Page& page, const Row& row) {
  const Words& words = page.words();
  const PublishedRecord record = page.record(row.event.record);
  if (const Value* value = record.find(row.event.field); value != nullptr && value->date() != nullptr) {
    std::vector<Inlines> beside =
        words.standingAndRemarks(record, *records::specOf(record.kind(), row.event.field));
    Inlines out = words.ownEvidence(*value, true);
    if (out.empty()) {
      out = words.rowEvidence(record, false);
      if (std::string stands = words.standingOfSources(record); !stands.empty())
        beside.push_back({text(std::move(stands))});
    }
    putInBrackets(out, separated(std::move(beside), "; "));
    return out;
  }
  const chronology::Chronology& chronology = words.materials().chronology;
  const chronology::Node node = chronology.events().nodeOf(row.event);
  const BoundsOf which = isOpen(row.proven) ? BoundsOf::likely : BoundsOf::proven;
  std::vector<Inlines> names;
  std::vector<std::string> told;
  for (const dates::End end : {dates::End::Earliest, dates::End::Latest}) {
    const chronology::FactId witness = witnessIn(chronology, chronology.because(node, which, end));
    if (witness == chronology::kNoFact) continue;
    Inlines name = witnessOf(words, witness, row.event.record);
    std::string plain = document::plainText(name);
    if (std::find(told.begin(), told.end(), plain) != told.end()) continue;
    told.push_back(std::move(plain));
    names.push_back(std::move(name));
  }
  if (names.empty()) return {text("no source recorded")};
  Inlines out{text("not recorded; from ")};
  put(out, listed(std::move(names)));
  return out;
}

// Of the earliest likely day: that a firm existed before its wares need not be said.
bool saysOnlyThatThereWasAFirm(const chronology::Chronology& chronology, const Row& row,
                               chronology::Node node) {
  if (row.likely.earliest == row.proven.earliest) return false;
  const std::vector<chronology::FactId> chain =
      chronology.because(node, BoundsOf::likely, dates::End::Earliest);
  if (chain.empty()) return false;
  const chronology::Fact& first = chronology.fact(chain[0]);
  return first.record != row.event.record && first.says == chronology::Says::date &&
         first.field == "founded"_f;
}

// A day that nobody has recorded is worth a row where it is known from both sides, and begins something.
bool isWorthARow(const PublishedRecord& record, const Row& row) {
  const Value* value = record.find(row.event.field);
  if (value != nullptr && value->date() != nullptr) return !isOpen(row.proven) || !isOpen(row.likely);
  const bool begins =
      row.event.end == EventEnd::from || row.event.field == "introduced"_f || row.event.field == "founded"_f;
  return begins && row.likely.earliest.isFinite() && row.likely.latest.isFinite();
}

}  // namespace

Blocks timelineList(Page& page, const Listing& listing) {
  const chronology::Chronology& chronology = page.words().materials().chronology;
  std::vector<Row> rows;
  std::size_t undated = 0;
  for (const Chosen& one : listing.chosen) {
    const PublishedRecord record = page.record(one.record);
    const std::size_t before = rows.size();
    for (const Events::Slot& slot : Events::slotsOf(record.kind())) {
      if (whatHappened(record.kind(), slot.field, slot.end).empty()) continue;
      const Event event{one.record, slot.field, slot.end};
      const chronology::Node node = chronology.events().nodeOf(event);
      Row row{event, chronology.bounds(node, BoundsOf::proven), chronology.bounds(node, BoundsOf::likely)};
      if (saysOnlyThatThereWasAFirm(chronology, row, node)) row.likely.earliest = row.proven.earliest;
      if (isWorthARow(record, row)) rows.push_back(row);
    }
    undated += rows.size() == before ? 1 : 0;
  }
  if (rows.empty()) return {};
  std::stable_sort(rows.begin(), rows.end(), [](const Row& a, const Row& b) {
    return std::pair(a.key(), a.likely.earliest) < std::pair(b.key(), b.likely.earliest);
  });
  document::Table table = tableOf({"When", "What", "Sources"});
  for (const Row& row : rows) {
    const PublishedRecord record = page.record(row.event.record);
    page.uses(row.event.record);
    Inlines what = page.words().name(row.event.record);
    put(what, ", " + std::string(whatHappened(record.kind(), row.event.field, row.event.end)));
    addRow(table, {{text(when(row))}, std::move(what), sourcesOf(page, row)});
  }
  Blocks out{
      document::paragraph({text(
          "Each row has the days that are proven, and behind “likely” the days that follow from all "
          "that is recorded. The rows stand in the order in which the things had likely happened; two of "
          "them may have come the other way round.")}),
      document::table(std::move(table))};
  if (undated != 0)
    out.push_back(document::paragraph(
        {text("Of " + countedInWords(undated, "record", "records") + " no such day is known.")}));
  return out;
}

}  // namespace saggar::compose
