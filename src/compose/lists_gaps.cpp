#include <algorithm>
#include <map>

#include "base/text.h"
#include "compose/lists.h"

// What is not known; dates in order.
namespace saggar::compose {

using choosing::Chosen;
using document::text;
using records::Entry;
using records::Field;
using records::Value;
using records::ValueType;

namespace {

// What a guide would want to have of each kind: a field of these that is left out is a gap too.
struct Wanted {
  Kind kind;
  Field field;
};
constexpr Wanted kWanted[] = {
    {Kind::shape, "maker"_f},          {Kind::shape, "modeller"_f},
    {Kind::shape, "introduced"_f},     {Kind::shape, "withdrawn"_f},
    {Kind::motif, "supplier"_f},       {Kind::motif, "supplier-number"_f},
    {Kind::motif, "introduced"_f},     {Kind::motif, "withdrawn"_f},
    {Kind::treatment, "motif"_f},      {Kind::treatment, "code"_f},
    {Kind::treatment, "introduced"_f}, {Kind::treatment, "withdrawn"_f},
    {Kind::treatment, "forms"_f},      {Kind::mark, "used"_f},
    {Kind::mark, "shapes"_f},          {Kind::form, "actual"_f},
    {Kind::form, "nominal"_f},         {Kind::set, "offered"_f},
};

std::string fieldInWords(Kind kind, Field field) {
  if (field == "introduced"_f) return "the first year";
  if (field == "withdrawn"_f) return "the last year";
  if (field == "born"_f) return "the birth";
  if (field == "died"_f) return "the death";
  if (field == "founded"_f) return "the founding";
  if (field == "closed"_f) return "the closing";
  if (field == "code"_f) return "the number";
  if (field == "forms"_f) return "the pieces";
  if (field == "used"_f) return "the years of use";
  if (field == "shapes"_f) return "the shapes it stands on";
  if (field == "actual"_f) return "the real size";
  if (field == "nominal"_f) return "the size in lists";
  std::string label = labelOf(kind, field);
  if (field == "modeller"_f) label = "modeller";
  if (!label.empty() && base::isUpper(label[0])) label[0] = static_cast<char>(label[0] - 'A' + 'a');
  return "the " + label;
}

struct Gaps {
  std::vector<RecordIndex> unknown;
  std::vector<RecordIndex> unrecorded;
};

bool isUnknown(const Value& value) {
  if (value.type == ValueType::unknown) return true;
  const auto each = value.each();
  return value.type == ValueType::list && std::any_of(each.begin(), each.end(), [](const Value& one) {
           return one.type == ValueType::unknown;
         });
}

}  // namespace

Blocks helpWantedList(Page& page, const Listing& listing) {
  std::map<std::pair<Kind, std::string>, Gaps> gaps;
  for (const Chosen& one : listing.chosen) {
    const PublishedRecord record = page.record(one.record);
    page.uses(one.record);
    for (const Entry* entry : record.fields()) {
      if (isUnknown(entry->value))
        gaps[{record.kind(), fieldInWords(record.kind(), entry->field)}].unknown.push_back(one.record);
      if (entry->field != "look"_f) continue;
      for (const Entry& feature : entry->value.entries())
        if (isUnknown(feature.value))
          gaps[{record.kind(), "the " + (feature.feature == records::kNoRecord
                                             ? std::string(feature.key)
                                             : page.words().plainFeature(feature.feature))}]
              .unknown.push_back(one.record);
    }
    for (const Wanted& wanted : kWanted)
      if (wanted.kind == record.kind() && record.find(wanted.field) == nullptr)
        gaps[{wanted.kind, fieldInWords(wanted.kind, wanted.field)}].unrecorded.push_back(one.record);
  }
  std::vector<Blocks> unknown;
  std::vector<Blocks> unrecorded;
  for (const auto& [key, gap] : gaps) {
    const auto& [kind, field] = key;
    auto line = [&, kindOf = kind, what = field](std::vector<RecordIndex> records) {
      sortByDate(page, records);
      return labelled(capitalised(what + " of a " + kindInWords(kindOf)),
                      sentence(namesOf(page, records, 24)));
    };
    if (!gap.unknown.empty()) unknown.push_back(line(gap.unknown));
    if (!gap.unrecorded.empty()) unrecorded.push_back(line(gap.unrecorded));
  }
  std::map<std::string, std::vector<RecordIndex>> unreadOn;
  for (RecordIndex specimen : page.records().ofKind(Kind::specimen))
    for (const choosing::CodeOnRecord& code : page.words().materials().codes.of(specimen))
      if (code.applies && code.readings.empty() && code.value != nullptr && code.unlike == nullptr)
        unreadOn[std::string(code.value->text)].push_back(specimen);
  std::vector<Blocks> unread;
  for (const auto& [code, specimens] : unreadOn) {
    if (unread.size() == 50) break;
    unread.push_back(labelled(code, sentence(namesOf(page, specimens, 12))));
  }
  std::vector<Inlines> questions;
  for (RecordIndex question : page.records().ofKind(Kind::question))
    if (page.record(question).text("status"_f) != "settled") questions.push_back(page.words().name(question));
  Blocks out;
  auto part = [&](std::string_view title, std::vector<Blocks> items) {
    if (items.empty()) return;
    out.push_back(document::paragraph({document::strong({text(std::string(title))})}));
    out.push_back(document::list(std::move(items)));
  };
  part("Looked for, and not known", std::move(unknown));
  part("Not recorded so far", std::move(unrecorded));
  part("Numbers and date codes that nobody can read yet", std::move(unread));
  if (!questions.empty()) {
    Inlines line;
    put(line, "The open questions are set out with what would settle each: ");
    put(line, sentence(separated(std::move(questions), "; ")));
    out.push_back(document::paragraph(std::move(line)));
  }
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
