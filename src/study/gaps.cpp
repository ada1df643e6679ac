#include "study/gaps.h"

#include <algorithm>
#include <map>
#include <tuple>

#include "linking/published.h"
#include "study/looks.h"

namespace saggar::study {

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

bool isUnknown(const Value& value) {
  if (value.type == ValueType::unknown) return true;
  return value.type == ValueType::list &&
         std::any_of(value.items().begin(), value.items().end(),
                     [](const Value& one) { return one.type == ValueType::unknown; });
}

// A feature and what can have it.
struct Asked {
  RecordIndex feature;
  std::int64_t effort;
  std::vector<Kind> of;
  std::vector<RecordIndex> makers;  // none: of any
};

class Search {
 public:
  explicit Search(const Collection& collection) : all_(collection), published_(collection) {
    for (const RecordIndex feature : collection.ofKind(Kind::feature)) {
      Asked one{feature, effortOf(collection, feature), {}, {}};
      if (const Value* of = collection[feature].find("of"_f))
        for (const Value& word : of->each())
          if (const auto kind = records::kindNamed(word.text)) one.of.push_back(*kind);
      if (const Value* makers = collection[feature].find("maker"_f); makers != nullptr && makers->said())
        for (const Value& maker : makers->each()) one.makers.push_back(maker.target());
      asked_.push_back(std::move(one));
    }
  }

  std::vector<Gap> run(std::span<const RecordIndex> records) {
    for (const RecordIndex index : records) {
      const linking::PublishedRecord record = published_[index];
      ofKind_[record.kind()].push_back(index);
      for (const Entry* entry : record.fields())
        if (isUnknown(entry->value)) gap(record.kind(), entry->field).unknown.push_back(index);
      for (const Wanted& wanted : kWanted)
        if (wanted.kind == record.kind() && record.find(wanted.field) == nullptr && !all_[index].broken)
          gap(wanted.kind, wanted.field).unrecorded.push_back(index);
      features(record);
    }
    std::vector<Gap> out;
    for (auto& [key, one] : gaps_) {
      if (one.feature == records::kNoRecord) one.recorded = othersThan(one.unrecorded, ofKind_[one.kind]);
      if (!one.unknown.empty() || !one.unrecorded.empty()) out.push_back(std::move(one));
    }
    return out;
  }

 private:
  Gap& gap(Kind kind, Field field) {
    Gap& one = gaps_[{kind, 0, field.index, records::kNoRecord}];
    one.kind = kind;
    one.field = field;
    return one;
  }

  // Both in the same order.
  static std::vector<RecordIndex> othersThan(const std::vector<RecordIndex>& some,
                                             const std::vector<RecordIndex>& all) {
    std::vector<RecordIndex> others;
    auto next = some.begin();
    for (const RecordIndex one : all) {
      if (next != some.end() && *next == one) {
        ++next;
      } else {
        others.push_back(one);
      }
    }
    return others;
  }

  void features(const linking::PublishedRecord& record) {
    const Value* look = record.find("look"_f);
    for (const Asked& asked : asked_) {
      if (std::find(asked.of.begin(), asked.of.end(), record.kind()) == asked.of.end()) continue;
      if (!asked.makers.empty() && !isOf(record.index(), asked.makers)) continue;
      const Entry* found = nullptr;
      if (look != nullptr)
        for (const Entry& entry : look->entries())
          if (entry.feature == asked.feature) found = &entry;
      Gap& one = gaps_[{record.kind(), asked.effort, 0, asked.feature}];
      one.kind = record.kind();
      one.field = "look"_f;
      one.feature = asked.feature;
      if (found != nullptr && isUnknown(found->value)) one.unknown.push_back(record.index());
      const bool leftOut = found == nullptr && !all_[record.index()].broken;
      (leftOut ? one.unrecorded : one.recorded).push_back(record.index());
    }
  }

  // One of the makers' own, or what stands on a shape of theirs.
  bool isOf(RecordIndex record, const std::vector<RecordIndex>& makers) const {
    const auto hasMaker = [&](RecordIndex one) {
      const Value* own = one == records::kNoRecord ? nullptr : all_[one].find("maker"_f);
      return own != nullptr && std::find(makers.begin(), makers.end(), own->target()) != makers.end();
    };
    if (hasMaker(record)) return true;
    const Value* shape = all_[record].find("shape"_f);
    return shape != nullptr && std::any_of(shape->each().begin(), shape->each().end(),
                                           [&](const Value& one) { return hasMaker(one.target()); });
  }

  const Collection& all_;
  const linking::Published published_;
  std::vector<Asked> asked_;
  std::map<Kind, std::vector<RecordIndex>> ofKind_;
  std::map<std::tuple<Kind, std::int64_t, std::uint8_t, RecordIndex>, Gap> gaps_;
};

}  // namespace

std::vector<Gap> gapsOf(const Collection& collection, std::span<const RecordIndex> records) {
  return Search(collection).run(records);
}

Unseen unseenOf(const Collection& collection, const evidence::Weights& weights,
                std::span<const RecordIndex> records) {
  Unseen out;
  for (const RecordIndex record : records) {
    if (collection[record].kind != Kind::treatment) continue;
    switch (weights.knownBy(record)) {
      case evidence::KnownBy::inHand:
      case evidence::KnownBy::pictured: break;
      case evidence::KnownBy::documents: out.documents.push_back(record); break;
      case evidence::KnownBy::reports: out.reports.push_back(record); break;
      case evidence::KnownBy::nothing: out.nothing.push_back(record); break;
    }
  }
  return out;
}

}  // namespace saggar::study
