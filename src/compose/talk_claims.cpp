#include "compose/talk_claims.h"

#include <algorithm>

#include "base/text.h"
#include "compose/claims.h"

namespace saggar::compose {

using records::Value;

namespace {

void addTargets(const Value* value, std::vector<RecordIndex>& out) {
  if (value == nullptr || !value->said()) return;
  for (const Value& one : value->each())
    if (one.target() != records::kNoRecord) out.push_back(one.target());
}

// What each segment concerns, sorted.
std::vector<std::vector<RecordIndex>> concerns(const Materials& materials, RecordIndex talk) {
  const Published& records = materials.records;
  const PublishedRecord record = records[talk];
  std::vector<std::vector<RecordIndex>> out;
  const Value* segments = record.find("segments"_f);
  if (segments == nullptr || !segments->said()) return out;
  for (const Value& segment : segments->each()) {
    if (segment.type != records::ValueType::mapping) continue;
    std::vector<RecordIndex>& all = out.emplace_back();
    addTargets(segment.find("about"_f), all);
    addTargets(segment.find("show"_f), all);
    if (const Value* say = segment.find("say"_f))
      for (const linking::Mention& mention : records.mentions())
        if (mention.from == talk && mention.field == "say"_f && mention.span.begin >= say->place.begin &&
            mention.span.end <= say->place.end)
          all.push_back(mention.target);
    for (std::size_t i = 0, count = all.size(); i < count; ++i)
      if (records[all[i]].kind() == Kind::specimen) addTargets(records[all[i]].find("treatment"_f), all);
    std::sort(all.begin(), all.end());
  }
  return out;
}

const Value* statedHere(const PublishedRecord& claim, RecordIndex talk) {
  const Value* stated = claim.find("stated"_f);
  if (stated == nullptr || !stated->said()) return nullptr;
  for (const Value& one : stated->each())
    if (const Value* in = one.find("talk"_f); in != nullptr && in->target() == talk) return &one;
  return nullptr;
}

}  // namespace

std::vector<Retired> retiredIn(const Materials& materials, RecordIndex talk) {
  const Published& records = materials.records;
  const auto segments = concerns(materials, talk);
  std::vector<Retired> out;
  for (RecordIndex index : records.ofKind(Kind::claim)) {
    const PublishedRecord claim = records[index];
    const bool ownOldWords = claim.find("was"_f) != nullptr;
    const bool withdrawn = claim.text("status"_f) == "withdrawn";
    Retired one{.claim = index, .now = holdsNow(records, index), .segments = {}, .said = {}};
    const bool replaced = !replacedBy(records, index).empty();
    if (!replaced && !withdrawn && !ownOldWords) continue;
    if (!replaced && !withdrawn) one.now = index;
    std::vector<RecordIndex> about{index};
    addTargets(claim.find("about"_f), about);
    if (one.now != records::kNoRecord) about.push_back(one.now);
    for (std::size_t i = 0; i < segments.size(); ++i) {
      const bool meant = std::any_of(about.begin(), about.end(), [&](RecordIndex record) {
        return std::binary_search(segments[i].begin(), segments[i].end(), record);
      });
      if (meant) one.segments.push_back(i);
    }
    if (replaced || withdrawn)
      if (const Value* here = statedHere(claim, talk)) {
        const Value* at = here->find("at"_f);
        one.said = at == nullptr || !at->said() ? "in this talk" : "in this talk, " + std::string(at->text);
      }
    if (!one.segments.empty() || !one.said.empty()) out.push_back(std::move(one));
  }
  return out;
}

std::vector<RecordIndex> statedIn(const Materials& materials, RecordIndex talk,
                                  std::string_view segmentTitle) {
  std::vector<RecordIndex> out;
  const std::string wanted = base::folded(base::trimmed(segmentTitle));
  for (const linking::BackReference& back : materials.records.referredBy(talk)) {
    const PublishedRecord claim = materials.records[back.from];
    if (claim.kind() != Kind::claim || back.field != "stated"_f) continue;
    if (!replacedBy(materials.records, back.from).empty() || claim.text("status"_f) == "withdrawn") continue;
    const Value* stated = claim.find("stated"_f);
    const auto each = stated->each();
    const bool here = std::any_of(each.begin(), each.end(), [&](const Value& one) {
      const Value* in = one.find("talk"_f);
      const Value* at = one.find("at"_f);
      return in != nullptr && in->target() == talk && at != nullptr &&
             base::folded(base::trimmed(at->text)) == wanted;
    });
    if (here && std::find(out.begin(), out.end(), back.from) == out.end()) out.push_back(back.from);
  }
  return out;
}

}  // namespace saggar::compose
