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

// What the treatment shows; nothing if one of the values is not known, or is doubted: it may be anything.
std::vector<Use> usesOf(const Record& feature, const Value& shown) {
  std::vector<Use> uses;
  const Value* values = feature.find("values"_f);
  if (values == nullptr || shown.isDoubted()) return {};
  for (const Value& one : shown.each()) {
    const Value* is = one.type == ValueType::mapping ? one.find("is"_f) : &one;
    if (is == nullptr || one.isDoubted()) return {};
    for (const Value& word : is->each()) {
      if (word.isDoubted() || (word.type != ValueType::text && word.type != ValueType::none)) return {};
      const Value* found = values->find(word.text);
      uses.push_back({std::string(word.text), found == nullptr ? nullptr : found->find("used"_f)});
    }
  }
  return uses;
}

class Look {
 public:
  Look(const Context& context, diagnostics::Findings& findings)
      : all_(context.collection), options_(context.collection.settings().dates), findings_(findings) {}

  // One value: within its years. A list: not before the earliest, not after the latest.
  void at(const Record& treatment, const Entry& shown) {
    if (shown.feature == records::kNoRecord || all_[shown.feature].broken) return;
    const Record& feature = all_[shown.feature];
    const std::vector<Use> uses = usesOf(feature, shown.value);
    if (uses.empty()) return;
    const Use* first = &uses[0];
    const Use* last = &uses[0];
    for (const Use& use : uses) {
      if (spanDays(use.used, options_).begin.earliest < spanDays(first->used, options_).begin.earliest)
        first = &use;
      if (spanDays(use.used, options_).end.latest > spanDays(last->used, options_).end.latest) last = &use;
    }
    const Day from = spanDays(first->used, options_).begin.earliest;
    const Day until = spanDays(last->used, options_).end.latest;
    for (auto field : {"introduced"_f, "withdrawn"_f}) {
      const Entry* event = treatment.entry(field);
      if (event == nullptr) continue;
      const dates::Bounds own = momentDays(&event->value, options_);
      if (own.latest < from)
        return report(treatment, feature, shown, uses, *first, *event, true, own.latest, from);
      if (own.earliest > until)
        return report(treatment, feature, shown, uses, *last, *event, false, own.earliest, until);
    }
  }

 private:
  void report(const Record& treatment, const Record& feature, const Entry& shown,
              const std::vector<Use>& uses, const Use& use, const Entry& event, bool early, Day own,
              Day limit) {
    std::vector<std::string> names;
    for (const Use& one : uses) names.push_back('`' + one.value + '`');
    const std::string key(shown.key);
    const std::string dated(event.value.text);
    const bool introduced = event.field == "introduced"_f;
    const Day ownYear =
        dayWithoutSeason(&event.value, early ? dates::End::Latest : dates::End::Earliest, options_);
    const bool onlySeason = !(early ? ownYear < limit : ownYear > limit);
    findings_.add(
        {.rule = "look-out-of-time"_rule,
         .span = treatment.span(shown.value.place),
         .message = '`' + std::string(treatment.id) + "` has the " + key + ' ' +
                    base::listedInWords(names, "or") +
                    (introduced ? " and is dated " : " and was last offered ") + dated + ", but " +
                    (uses.size() == 1 ? "this" : '`' + use.value + '`') + " was used " +
                    std::string(use.used->text) + ": " +
                    (early ? gapInWords(own, limit) + " too early" : gapInWords(limit, own) + " too late") +
                    (onlySeason ? seasonInWords(options_) : std::string()),
         .hint = "look at the piece or the book again: the feature, the date, or the years of the feature "
                 "are wrong; "
                 "what is in doubt takes `doubted: reason`",
         .record = treatment.reference(),
         .field = "look." + key,
         .records = {treatment.reference(), feature.reference()},
         .related = {{treatment.span(event.value.place),
                      introduced ? "the treatment is dated here" : "it was last offered here"},
                     {feature.span(use.used->place), "the years of the feature stand here"}},
         .facts =
             {{treatment.reference(),
               "look." + key,
               base::joined(words(uses), ", "),
               {},
               treatment.span(shown.value.place)},
              {treatment.reference(), std::string(event.key), dated, {}, treatment.span(event.value.place)},
              {feature.reference(),
               "values." + use.value + ".used",
               std::string(use.used->text),
               {},
               feature.span(use.used->place)}},
         .shortByDays = early ? gapInDays(own, limit) : gapInDays(limit, own)});
  }

  static std::vector<std::string> words(const std::vector<Use>& uses) {
    std::vector<std::string> all;
    for (const Use& one : uses) all.push_back(one.value);
    return all;
  }

  const linking::Collection& all_;
  const dates::Options& options_;
  diagnostics::Findings& findings_;
};

}  // namespace

void lookOutOfTime(const Context& context, diagnostics::Findings& findings) {
  Look look(context, findings);
  for (RecordIndex index : context.collection.ofKind(Kind::treatment)) {
    const Record& treatment = context.collection[index];
    const Value* features = treatment.find("look"_f);
    if (treatment.broken || features == nullptr || features->isDoubted()) continue;
    for (const Entry& entry : features->entries()) look.at(treatment, entry);
  }
}

}  // namespace saggar::checks
