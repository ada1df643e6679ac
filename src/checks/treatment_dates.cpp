#include "checks/own_days.h"
#include "checks/rules.h"
#include "dates/print.h"

// A treatment against its shape and its motif: it cannot be older than either, nor be offered when they no longer were.
namespace saggar::checks {

using dates::Bounds;
using records::Entry;
using records::Field;
using records::Kind;
using records::Record;
using records::RecordIndex;
using records::Value;

namespace {

class Look {
 public:
  Look(const Context& context, diagnostics::Findings& findings)
      : all_(context.collection), options_(context.collection.settings().dates), findings_(findings) {}

  void at(const Record& treatment) {
    if (treatment.broken) return;
    std::vector<const Record*> shapes = targets(treatment, "shape"_f);
    std::vector<const Record*> motifs = targets(treatment, "motif"_f);
    const bool early = any(shapes, treatment, "introduced"_f, "date-before-shape"_rule, true);
    if (!early) any(shapes, treatment, "withdrawn"_f, "date-before-shape"_rule, true);
    const bool late = any(shapes, treatment, "introduced"_f, "date-after-shape"_rule, false);
    if (!late) any(shapes, treatment, "withdrawn"_f, "date-after-shape"_rule, false);
    const bool earlyMotif = any(motifs, treatment, "introduced"_f, "date-before-motif"_rule, true);
    if (!earlyMotif) any(motifs, treatment, "withdrawn"_f, "date-before-motif"_rule, true);
    const bool lateMotif = any(motifs, treatment, "introduced"_f, "date-after-motif"_rule, false);
    if (!lateMotif) any(motifs, treatment, "withdrawn"_f, "date-after-motif"_rule, false);
  }

 private:
  std::vector<const Record*> targets(const Record& record, Field field) const {
    std::vector<const Record*> out;
    if (const Value* value = record.find(field))
      for (const Value& one : value->each())
        if (one.target() != records::kNoRecord) out.push_back(&all_[one.target()]);
    return out;
  }

  // Of several shapes it is enough that one admits the date. Gives true if a finding was made.
  bool any(const std::vector<const Record*>& owners, const Record& treatment, Field field, diagnostics::Rule rule, bool before) {
    const Entry* entry = treatment.entry(field);
    if (entry == nullptr || owners.empty()) return false;
    const Bounds own = momentDays(&entry->value, options_);
    const Field limitField = before ? "introduced"_f : "withdrawn"_f;
    const Record* worst = nullptr;
    dates::Day limit;
    for (const Record* owner : owners) {
      const Bounds bounds = momentDays(owner->find(limitField), options_);
      const bool clash = before ? own.latest < bounds.earliest : own.earliest > bounds.latest;
      if (!clash || owner->broken) return false;
      worst = owner;
      limit = before ? bounds.earliest : bounds.latest;
    }
    report(treatment, *entry, *worst, limitField, rule, before, own, limit);
    return true;
  }

  void report(const Record& treatment, const Entry& entry, const Record& owner, Field limitField, diagnostics::Rule rule, bool before,
              const Bounds& own, dates::Day limit) {
    const Value* limitValue = owner.find(limitField);
    const std::string kind(name(owner.kind));
    const std::string verb = before ? "introduced" : "withdrawn";
    const dates::Day ownDay = before ? own.latest : own.earliest;
    const std::string gap = before ? gapInWords(ownDay, limit) : gapInWords(limit, ownDay);
    diagnostics::Finding finding{
        .rule = rule,
        .span = treatment.span(entry.value.place),
        .message = std::string(treatment.id) + (entry.field == "introduced"_f ? " is dated " : " was last offered ") + std::string(entry.value.text) +
                   (before ? ", before its " : ", after its ") + kind + " `" + std::string(owner.id) + "` was " + verb + " (" +
                   std::string(limitValue->text) + "): " + gap + (before ? " too early" : " too late"),
        .hint = "one of the two dates is wrong, or the " + kind + " is; a date that is in doubt takes `doubted: reason`",
        .record = treatment.reference(),
        .field = std::string(entry.key),
        .records = {treatment.reference(), owner.reference()},
        .related = {{owner.span(limitValue->place), "the " + kind + " was " + verb + " here"}},
        .facts = {{treatment.reference(), std::string(entry.key), std::string(entry.value.text), {}, treatment.span(entry.value.place)},
                  {owner.reference(), std::string(limitField.name()), std::string(limitValue->text), {}, owner.span(limitValue->place)}},
        .shortByDays = static_cast<std::int64_t>(before ? limit.number() - ownDay.number() : ownDay.number() - limit.number())};
    findings_.add(std::move(finding));
  }

  const linking::Collection& all_;
  const dates::Options& options_;
  diagnostics::Findings& findings_;
};

}  // namespace

void treatmentDates(const Context& context, diagnostics::Findings& findings) {
  Look look(context, findings);
  for (RecordIndex index : context.collection.ofKind(Kind::treatment)) look.at(context.collection[index]);
}

}  // namespace saggar::checks
