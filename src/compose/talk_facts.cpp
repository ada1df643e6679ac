#include "compose/talk_facts.h"

#include <algorithm>
#include <set>

#include "base/text.h"

namespace saggar::compose {

using document::text;
using records::Entry;
using records::Value;

namespace {

void put(Inlines& out, Inlines more) { out.insert(out.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end())); }

void addTargets(const Value* value, std::vector<RecordIndex>& out) {
  if (value == nullptr || !value->said()) return;
  for (const Value& one : value->each())
    if (one.target() != records::kNoRecord) out.push_back(one.target());
}

// The fields a speaker names first, by kind, in order.
std::vector<records::Field> spokenFields(Kind kind) {
  switch (kind) {
    case Kind::maker: return {"place"_f, "founded"_f, "closed"_f, "active"_f};
    case Kind::person: return {"part"_f, "active"_f};
    case Kind::shape: return {"look"_f, "introduced"_f, "withdrawn"_f, "modeller"_f};
    case Kind::form: return {"nominal"_f, "actual"_f, "holds"_f};
    case Kind::motif: return {"supplier"_f, "supplier-number"_f, "introduced"_f, "withdrawn"_f};
    case Kind::treatment: return {"look"_f, "introduced"_f, "withdrawn"_f, "for"_f};
    case Kind::set: return {"for"_f, "offered"_f};
    case Kind::mark: return {"method"_f, "colour"_f, "reads"_f, "shows"_f, "used"_f};
    case Kind::specimen: return {"marks"_f, "code-seen"_f, "date-code"_f, "made"_f, "size"_f, "condition"_f};
    case Kind::source: return {"type"_f, "date"_f, "by"_f, "holder"_f};
    case Kind::claim: return {"says"_f};
    case Kind::question: return {"asks"_f};
    case Kind::term: return {"means"_f};
    default: return {};
  }
}

std::string label(records::Field field) {
  std::string out(field.name());
  std::replace(out.begin(), out.end(), '-', ' ');
  return out;
}

}  // namespace

Inlines factLine(const Words& words, RecordIndex index) {
  const PublishedRecord record = words.materials().records[index];
  Inlines out{document::strong({text(words.plainName(index))})};
  const char* between = ": ";
  if (record.kind() == Kind::treatment) {
    Inlines codes = words.codeReadings(index);
    if (!codes.empty()) {
      out.push_back(text(between));
      put(out, std::move(codes));
      between = "; ";
    }
  }
  for (records::Field field : spokenFields(record.kind())) {
    const Value* value = record.find(field);
    if (value == nullptr) continue;
    out.push_back(text(between));
    between = "; ";
    const bool plain = field == "look"_f || field == "says"_f || field == "asks"_f || field == "means"_f || field == "part"_f;
    if (!plain) out.push_back(text(label(field) + ' '));
    put(out, words.value(value, records::specOf(record.kind(), field), record));
  }
  if (record.kind() == Kind::specimen || record.kind() == Kind::feature || record.kind() == Kind::term || record.kind() == Kind::source ||
      record.kind() == Kind::photo || record.kind() == Kind::talk || record.kind() == Kind::checklist || record.kind() == Kind::person)
    return out;
  out.push_back(text(". Known from: "));
  put(out, words.evidenceOfRecord(record));
  out.push_back(text("."));
  return out;
}

std::vector<RecordIndex> recordsOfTalk(const Materials& materials, RecordIndex talk) {
  std::vector<RecordIndex> all;
  const PublishedRecord record = materials.records[talk];
  if (const Value* segments = record.find("segments"_f); segments != nullptr && segments->said())
    for (const Value& segment : segments->each()) {
      addTargets(segment.find("about"_f), all);
      addTargets(segment.find("show"_f), all);
    }
  for (const linking::Mention& mention : materials.records.mentions())
    if (mention.from == talk) all.push_back(mention.target);
  std::sort(all.begin(), all.end());
  all.erase(std::unique(all.begin(), all.end()), all.end());
  return all;
}

std::vector<Retired> retiredAbout(const Materials& materials, const std::vector<RecordIndex>& records) {
  std::vector<RecordIndex> near = records;
  for (RecordIndex index : records) {
    const PublishedRecord record = materials.records[index];
    if (record.kind() == Kind::specimen)
      for (auto field : {"treatment"_f, "shape"_f, "motif"_f, "form"_f}) addTargets(record.find(field), near);
  }
  for (std::size_t i = 0, count = near.size(); i < count; ++i) {
    const PublishedRecord record = materials.records[near[i]];
    if (record.kind() == Kind::treatment)
      for (auto field : {"shape"_f, "motif"_f}) addTargets(record.find(field), near);
  }
  std::sort(near.begin(), near.end());
  near.erase(std::unique(near.begin(), near.end()), near.end());
  std::vector<Retired> out;
  for (RecordIndex index : materials.records.ofKind(Kind::claim)) {
    const PublishedRecord claim = materials.records[index];
    std::vector<RecordIndex> about;
    addTargets(claim.find("about"_f), about);
    const bool meant = std::any_of(about.begin(), about.end(), [&](RecordIndex one) { return std::binary_search(near.begin(), near.end(), one); }) ||
                       std::binary_search(near.begin(), near.end(), index);
    if (!meant) continue;
    Retired retired{index, records::kNoRecord};
    for (const linking::BackReference& back : materials.records.referredBy(index))
      if (back.field == "replaces"_f) retired.by = back.from;
    const bool ownOldWords = claim.find("was"_f) != nullptr;
    if (retired.by == records::kNoRecord && claim.text("status"_f) != "withdrawn" && !ownOldWords) continue;
    if (retired.by == records::kNoRecord && ownOldWords) retired.by = index;
    out.push_back(retired);
  }
  return out;
}

}  // namespace saggar::compose
