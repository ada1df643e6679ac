#include <optional>

#include "base/text.h"
#include "checks/own_days.h"
#include "checks/rules.h"

// A treatment against its shape and its motif: it cannot be older than either, nor be offered when they no longer were.
namespace saggar::checks {

using dates::Day;
using dates::End;
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
    for (const Field part : {"shape"_f, "motif"_f}) {
      const bool shape = part == "shape"_f;
      const std::vector<const Record*> owners = ownersOf(treatment, part);
      if (owners.empty()) continue;
      // One date that is out of bounds is enough to tell.
      for (const Field field : {"introduced"_f, "withdrawn"_f})
        if (compare(treatment, field, owners, shape ? "date-before-shape"_rule : "date-before-motif"_rule,
                    true))
          break;
      for (const Field field : {"introduced"_f, "withdrawn"_f})
        if (compare(treatment, field, owners, shape ? "date-after-shape"_rule : "date-after-motif"_rule,
                    false))
          break;
    }
  }

 private:
  // The shapes or the motif; none if it is not certain that there is no other, which would admit the dates.
  std::vector<const Record*> ownersOf(const Record& treatment, Field part) const {
    std::vector<const Record*> owners;
    const Value* value = treatment.find(part);
    if (value == nullptr || value->isDoubted()) return {};
    for (const Value& one : value->each()) {
      if (one.target() == records::kNoRecord || one.isDoubted() || all_[one.target()].broken) return {};
      owners.push_back(&all_[one.target()]);
    }
    return owners;
  }

  // Of several shapes it is enough that one admits the date. Gives true if a finding was made.
  bool compare(const Record& treatment, Field field, const std::vector<const Record*>& owners,
               diagnostics::Rule rule, bool before) {
    const Entry* entry = treatment.entry(field);
    if (entry == nullptr) return false;
    const Field limitField = before ? "introduced"_f : "withdrawn"_f;
    const End ownEnd = before ? End::Latest : End::Earliest;
    const End limitEnd = before ? End::Earliest : End::Latest;
    const Day own = dayOf(&entry->value, ownEnd, options_);
    const Record* nearest = nullptr;
    Day limit;
    bool onlySeason = false;
    for (const Record* owner : owners) {
      const Value* value = owner->find(limitField);
      const Day day = dayOf(value, limitEnd, options_);
      if (!(before ? own < day : own > day)) return false;
      const Day ownYear = dayWithoutSeason(&entry->value, ownEnd, options_);
      const Day year = dayWithoutSeason(value, limitEnd, options_);
      onlySeason |= !(before ? ownYear < year : ownYear > year);
      if (nearest != nullptr && !(before ? day < limit : day > limit)) continue;
      nearest = owner;
      limit = day;
    }
    report(treatment, *entry, owners, limitField, rule, before, own, limit, onlySeason);
    return true;
  }

  void report(const Record& treatment, const Entry& entry, const std::vector<const Record*>& owners,
              Field limitField, diagnostics::Rule rule, bool before, Day own, Day limit, bool onlySeason) {
    const std::string kind(name(owners[0]->kind));
    const std::string verb = before ? "introduced" : "withdrawn";
    const std::string typed(entry.value.text);
    std::vector<std::string> limits;
    for (const Record* owner : owners)
      limits.push_back((owners.size() == 1 ? "" : '`' + std::string(owner->id) + "` ") +
                       std::string(owner->find(limitField)->text));
    constexpr std::size_t kMostNamed = 6;
    if (limits.size() > kMostNamed) {
      limits.resize(kMostNamed - 1);
      limits.push_back(base::counted(owners.size() - limits.size(), "other"));
    }
    const std::string gap =
        before ? gapInWords(own, limit) + " too early" : gapInWords(limit, own) + " too late";
    diagnostics::Finding finding{
        .rule = rule,
        .span = treatment.span(entry.value.place),
        .message = '`' + std::string(treatment.id) +
                   (entry.field == "introduced"_f ? "` is dated " : "` was last offered ") + typed +
                   (before ? ", before " : ", after ") +
                   (owners.size() == 1 ? "its " + kind + " `" + std::string(owners[0]->id) + "` was "
                                       : "any of its " + kind + "s was ") +
                   verb + " (" + base::listedInWords(limits) + "): " + gap +
                   (onlySeason ? seasonInWords(options_) : std::string()),
        .hint = "one of the dates is wrong, or the " + kind +
                " is; a date that is in doubt takes `doubted: reason`",
        .record = treatment.reference(),
        .field = std::string(entry.key),
        .records = {treatment.reference()},
        .facts =
            {{treatment.reference(), std::string(entry.key), typed, {}, treatment.span(entry.value.place)}},
        .shortByDays = before ? gapInDays(own, limit) : gapInDays(limit, own)};
    for (const Record* owner : owners) {
      const Value& value = *owner->find(limitField);
      finding.records.push_back(owner->reference());
      finding.related.push_back(
          {owner->span(value.place), "`" + std::string(owner->id) + "` was " + verb + " here"});
      finding.facts.push_back({owner->reference(),
                               std::string(limitField.name()),
                               std::string(value.text),
                               {},
                               owner->span(value.place)});
    }
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
