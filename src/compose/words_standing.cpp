#include <algorithm>

#include "base/text.h"
#include "compose/phrases.h"
#include "compose/words.h"

// How a thing stands, in a word, where its evidence does not say so itself. What has no such word is documented: the
// chapter of sources says so, and a page stays quiet.
namespace saggar::compose {

using evidence::Standing;
using evidence::Weighed;
using records::Entry;
using records::Value;

namespace {

bool isWeak(Standing standing) {
  return standing == Standing::supported || standing == Standing::suggested;
}

bool cites(const records::Evidence* evidence) {
  return evidence != nullptr && !evidence->cite.empty();
}

// Anything in it has evidence of its own.
bool hasOwn(const Value& value) {
  if (value.evidence != nullptr && (cites(value.evidence) || !value.evidence->judged().empty())) return true;
  const auto items = value.items();
  const auto entries = value.entries();
  return std::any_of(items.begin(), items.end(), [](const Value& one) { return hasOwn(one); }) ||
         std::any_of(entries.begin(), entries.end(), [](const Entry& one) { return hasOwn(one.value); });
}

}  // namespace

std::string Words::standing(const PublishedRecord& owner, std::optional<records::Field> field,
                            const Value& value) const {
  const Weighed weighed = materials_->weights.weigh(owner.index(), value);
  std::string out = weighed.disputed ? "disputed" : "";
  auto add = [&](std::string_view word) {
    if (!out.empty()) out += "; ";
    out += word;
  };
  if (isWeak(weighed.standing) && cites(value.evidence)) add(evidence::inWords(weighed.standing));
  if (weighed.standing != Standing::uncited || !value.said() || !field ||
      !records::needsEvidence(owner.kind(), *field))
    return out;
  // Where the record has no source at all it says so once.
  const auto fields = owner.fields();
  const bool others =
      std::any_of(fields.begin(), fields.end(), [](const Entry* entry) { return hasOwn(entry->value); });
  if (cites(value.evidence) || (owner.evidence() == nullptr && others)) {
    Weighed plain = weighed;
    plain.disputed = false;
    add(materials_->weights.inWords(plain));
  }
  return out;
}

std::vector<Inlines> Words::standingAndRemarks(const PublishedRecord& owner,
                                               const records::FieldSpec& spec) const {
  const Value* value = owner.find(spec.field);
  if (value == nullptr) return {};
  std::vector<Inlines> out = remarks(*value, &spec, owner);
  if (std::string stands = standing(owner, spec.field, *value); !stands.empty())
    out.insert(out.begin(), {document::text(std::move(stands))});
  return out;
}

Inlines Words::evidenceBeside(const PublishedRecord& owner, const Value& value, bool brief) const {
  Inlines out = ownEvidence(value, brief);
  if (out.empty()) return out;
  if (const std::string stands = standing(owner, std::nullopt, value); !stands.empty())
    put(out, "; " + stands);
  return out;
}

std::string Words::standingInFull(const PublishedRecord& owner, const Value& value) const {
  const Weighed weighed = materials_->weights.weigh(owner.index(), value);
  if (!weighed.disputed) return std::string(evidence::inWords(weighed.standing));
  return weighed.standing == Standing::documented
             ? "disputed"
             : "disputed; " + std::string(evidence::inWords(weighed.standing));
}

std::string Words::standingOfDates(const PublishedRecord& record, std::string_view usual, bool doubts) const {
  std::vector<std::string> both, apart;
  for (const auto& [field, which] : {std::pair{"introduced"_f, "first year"}, {"withdrawn"_f, "last year"}}) {
    const Value* value = record.find(field);
    if (value == nullptr || !value->said()) continue;
    std::string one = standingInFull(record, *value);
    if (doubts && value->isDoubted())
      one = one == evidence::inWords(Standing::documented) ? "doubted" : "doubted; " + one;
    both.push_back(one);
    if (one != usual)
      apart.push_back(which + std::string(one.find(' ') == std::string::npos ? " " : ": ") + one);
  }
  if (apart.empty()) return {};
  return both.front() == both.back() ? both.front() : base::joined(apart, "; ");
}

std::string Words::standingOfSources(const PublishedRecord& record) const {
  if (!cites(record.evidence())) return {};
  Standing worst = Standing::documented;
  for (const Entry* entry : record.fields()) {
    if (!records::needsEvidence(record.kind(), entry->field) || !entry->value.said()) continue;
    if (hasOwn(entry->value)) continue;
    const Weighed weighed = materials_->weights.weigh(record.index(), entry->value);
    if (isWeak(weighed.standing)) worst = std::max(worst, weighed.standing);
  }
  return isWeak(worst) ? std::string(evidence::inWords(worst)) : std::string();
}

}  // namespace saggar::compose
