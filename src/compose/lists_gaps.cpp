#include <algorithm>

#include "base/text.h"
#include "compose/help_wanted.h"
#include "compose/lists.h"

// What is not known; dates in order.
namespace saggar::compose {

using choosing::Chosen;
using document::text;
using records::Field;
using records::Value;

Blocks helpWantedList(Page& page, const Listing& listing) {
  constexpr std::size_t kMostNames = 12;
  const std::vector<RecordIndex> records = listing.records();
  for (const RecordIndex one : records) page.uses(one);
  HelpWanted wanted = helpWanted(page.words(), records, kMostNames);
  for (const RecordIndex one : wanted.pieces) page.uses(one);
  Blocks out;
  const auto part = [&](std::string title, std::vector<Blocks> items) {
    out.push_back(document::paragraph({document::strong({text(std::move(title))})}));
    out.push_back(document::list(std::move(items)));
  };
  for (WantedPart& one : wanted.parts) {
    std::vector<Blocks> items;
    for (WantedLine& line : one.lines) items.push_back(labelled(line.what, sentence(std::move(line.which))));
    part(std::move(one.title), std::move(items));
  }
  if (!wanted.estimates.empty()) {
    std::vector<Blocks> items;
    for (const study::Estimate& one : wanted.estimates)
      items.push_back(labelled(page.words().plainName(one.shape), sentence({text(estimateInWords(one))})));
    part("What may not be on record at all", std::move(items));
    out.push_back(document::paragraph({text(estimatesSuppose())}));
  }
  if (wanted.questions.empty()) return out;
  std::vector<Inlines> questions;
  for (const RecordIndex one : wanted.questions) questions.push_back(page.words().name(one));
  Inlines line;
  put(line, "The open questions are set out with what would settle each: ");
  put(line, sentence(separated(std::move(questions), "; ")));
  out.push_back(document::paragraph(std::move(line)));
  return out;
}

Blocks timelineList(Page& page, const Listing& listing) {
  struct Event {
    dates::Bounds bounds;
    std::string when;
    RecordIndex record;
    std::string what;
    const Value* value;
  };
  const dates::Options& options = page.records().settings().dates;
  std::vector<Event> events;
  std::size_t undated = 0;
  constexpr std::pair<Field, std::string_view> kMoments[] = {{"founded"_f, "founded"},
                                                             {"closed"_f, "closed"},
                                                             {"designed"_f, "designed"},
                                                             {"introduced"_f, "first offered"},
                                                             {"withdrawn"_f, "last offered"}};
  constexpr std::pair<Field, std::string_view> kSpans[] = {
      {"active"_f, "traded"}, {"used"_f, "in use"}, {"offered"_f, "on offer"}};
  for (const Chosen& one : listing.chosen) {
    const PublishedRecord record = page.record(one.record);
    bool any = false;
    auto take = [&](Field field, std::string_view what) {
      const Value* value = record.find(field);
      if (value == nullptr || value->date() == nullptr) return;
      any = true;
      events.push_back({value->date()->plain(options), page.words().shortDate(value), one.record,
                        std::string(what), value});
    };
    for (const auto& [field, what] : kMoments)
      take(field, record.kind() == Kind::motif && field == "introduced"_f  ? "first used"
                  : record.kind() == Kind::motif && field == "withdrawn"_f ? "last used"
                                                                           : what);
    for (const auto& [field, what] : kSpans) take(field, what);
    undated += any ? 0 : 1;
  }
  if (events.empty()) return {};
  std::stable_sort(events.begin(), events.end(),
                   [](const Event& a, const Event& b) { return a.bounds < b.bounds; });
  document::Table table = tableOf({"When", "What", "Sources"});
  for (const Event& event : events) {
    page.uses(event.record);
    Inlines what = page.words().name(event.record);
    put(what, ", " + event.what);
    Inlines evidence = page.words().ownEvidence(*event.value, true);
    if (evidence.empty()) evidence = page.words().rowEvidence(page.record(event.record));
    addRow(table, {{text(event.when)}, std::move(what), std::move(evidence)});
  }
  Blocks out{document::paragraph(
                 {text("Dates as they are recorded, in order of the earliest day that each allows.")}),
             document::table(std::move(table))};
  if (undated != 0)
    out.push_back(document::paragraph(
        {text("Without a recorded date: " + countedInWords(undated, "record", "records") + ".")}));
  return out;
}

}  // namespace saggar::compose
