#include <algorithm>

#include "base/text.h"
#include "checks/own_days.h"
#include "checks/rules.h"

// A line, a glaze, a lustre was in use for some years only; a treatment that shows it belongs within them.
namespace saggar::checks {

using dates::Day;
using records::Entry;
using records::Kind;
using records::Record;
using records::RecordIndex;
using records::Value;
using records::ValueType;

namespace {

struct Use {
  std::string value;
  const Value* used = nullptr;  // the feature's own, or null
};

std::vector<Use> usesOf(const Record& feature, const Value& shown) {
  std::vector<Use> uses;
  const Value* values = feature.find("values"_f);
  if (values == nullptr) return uses;
  for (const Value& one : shown.each()) {
    const Value* word = &one;
    if (one.type == ValueType::mapping) word = one.find("is"_f);
    if (word == nullptr || word->type != ValueType::text) {
      uses.push_back({});  // what is not known may be anything
      continue;
    }
    const Value* found = values->find(word->text);
    uses.push_back({std::string(word->text), found == nullptr ? nullptr : found->find("used"_f)});
  }
  return uses;
}

void lookAt(const Context& context, const Record& treatment, const Entry& shown, diagnostics::Findings& findings) {
  if (shown.feature == records::kNoRecord) return;
  const dates::Options& options = context.collection.settings().dates;
  const Record& feature = context.collection[shown.feature];
  const std::vector<Use> uses = usesOf(feature, shown.value);
  if (uses.empty()) return;
  // One value: within its years. A list: not before the earliest, not after the latest.
  Day from = Day::plusInfinity();
  Day until = Day::minusInfinity();
  const Value* fromUse = nullptr;
  const Value* untilUse = nullptr;
  std::vector<std::string> names;
  for (const Use& use : uses) {
    const SpanDays days = spanDays(use.used, options);
    if (days.begin.earliest < from) {
      from = days.begin.earliest;
      fromUse = use.used;
    }
    if (days.end.latest > until) {
      until = days.end.latest;
      untilUse = use.used;
    }
    if (!use.value.empty()) names.push_back('`' + use.value + '`');
  }
  auto report = [&](const Entry& event, const Value* used, bool early, Day own, Day limit) {
    findings.add({.rule = "look-out-of-time"_rule,
                  .span = treatment.span(shown.value.place),
                  .message = base::listedInWords(names, "or") + " (" + std::string(shown.key) + ") is recorded on " + std::string(treatment.id) + ", which is dated " +
                             std::string(event.value.text) + ", but was used " + std::string(used->text) + ": " +
                             (early ? gapInWords(own, limit) + " too early" : gapInWords(limit, own) + " too late"),
                  .hint = "look at the piece or the book again: the feature, the treatment's date or the years of the feature are wrong",
                  .record = treatment.reference(),
                  .field = "look." + std::string(shown.key),
                  .records = {treatment.reference(), feature.reference()},
                  .related = {{treatment.span(event.value.place), "the treatment is dated here"}, {feature.span(used->place), "the years of the feature stand here"}},
                  .shortByDays = static_cast<std::int64_t>(early ? limit.number() - own.number() : own.number() - limit.number())});
  };
  for (auto field : {"introduced"_f, "withdrawn"_f}) {
    const Entry* event = treatment.entry(field);
    if (event == nullptr) continue;
    const dates::Bounds own = momentDays(&event->value, options);
    if (own.latest < from && fromUse != nullptr) return report(*event, fromUse, true, own.latest, from);
    if (own.earliest > until && untilUse != nullptr) return report(*event, untilUse, false, own.earliest, until);
  }
}

}  // namespace

void lookOutOfTime(const Context& context, diagnostics::Findings& findings) {
  for (RecordIndex index : context.collection.ofKind(Kind::treatment)) {
    const Record& treatment = context.collection[index];
    const Value* look = treatment.find("look"_f);
    if (treatment.broken || look == nullptr) continue;
    for (const Entry& entry : look->entries()) lookAt(context, treatment, entry, findings);
  }
}

}  // namespace saggar::checks
