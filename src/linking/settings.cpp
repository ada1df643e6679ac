#include <algorithm>

#include "base/edit_distance.h"
#include "base/text.h"
#include "dates/length.h"
#include "linking/linker.h"

// What guide.yaml sets: title, authors, how dates are read, severities, waivers.
namespace saggar::linking {

using records::Entry;
using records::Value;
using records::ValueType;

namespace {

std::string ruleHint(std::string_view typed) {
  const auto near = base::nearest(typed, diagnostics::ruleIds());
  return near ? "did you mean `" + std::string(*near) + "`?"
              : "the rule of a finding stands in brackets behind its message";
}

}  // namespace

void Linker::readSettings(diagnostics::Findings& findings, diagnostics::Settings& rules) {
  const Record* guide = collection_.guide();
  if (guide == nullptr) return;
  GuideSettings& settings = collection_.settings_;
  settings.title = std::string(guide->id);
  if (const Value* by = guide->find("by"_f))
    for (const Value& one : by->each())
      if (one.said()) settings.authors.emplace_back(one.text);
  if (const Value* edition = guide->find("edition"_f)) settings.edition = edition->number();
  if (const Value* own = guide->find("settings"_f)) {
    if (const Value* circa = own->find("circa"_f); circa && circa->type == ValueType::length)
      if (const auto length = dates::parseLength(circa->text).length) settings.dates.circa = *length;
    if (const Value* value = own->find("hemisphere"_f); value && value->text == "south")
      settings.dates.hemisphere = dates::Hemisphere::South;
    if (const Value* value = own->find("language"_f); value && value->said())
      settings.language = std::string(value->text);
    if (const Value* value = own->find("units"_f))
      settings.units = value->text == "inches"   ? GuideSettings::Units::inches
                       : value->text == "metric" ? GuideSettings::Units::metric
                                                 : GuideSettings::Units::both;
    if (const Value* value = own->find("pace"_f); value && value->type == ValueType::number) {
      if (value->number() > 0) {
        settings.pace = value->number();
      } else {
        findings.add({.rule = "value-unfit"_rule,
                      .span = guide->span(value->place),
                      .message = "nobody speaks 0 words a minute",
                      .hint = "write how many words you speak in a minute, as `pace: 130`"});
      }
    }
    if (const Value* value = own->find("layout"_f); value && value->said())
      settings.layout = std::string(value->text);
  }
  auto report = [&](diagnostics::Rule rule, records::Extent place, std::string message, std::string hint) {
    findings.add(
        {.rule = rule, .span = guide->span(place), .message = std::move(message), .hint = std::move(hint)});
  };
  if (const Value* own = guide->find("rules"_f)) {
    for (const Entry& entry : own->entries()) {
      const auto rule = diagnostics::ruleNamed(entry.key);
      if (!rule) {
        report("value-unfit"_rule, entry.keyPlace, "there is no rule `" + std::string(entry.key) + "`",
               ruleHint(entry.key));
        continue;
      }
      if (entry.value.type == ValueType::unfit) continue;
      bool known = false;
      for (auto severity : {diagnostics::Severity::off, diagnostics::Severity::note,
                            diagnostics::Severity::warning, diagnostics::Severity::error}) {
        if (toString(severity) != entry.value.text) continue;
        known = true;
        if (!rule->info().waivable && severity < rule->info().severity) {
          report("value-unfit"_rule, entry.value.place, "`" + std::string(entry.key) + "` cannot be lowered",
                 "mend what it finds; take this line out");
        } else {
          rules.severity[rule->index] = severity;
          rules.changed[rule->index] = true;
        }
      }
      if (!known)
        report("value-unfit"_rule, entry.value.place,
               entry.value.text.empty()
                   ? "`" + std::string(entry.key) + "` takes one word"
                   : "`" + base::shortened(entry.value.text, 40) + "` is no weight of a finding",
               "write `off`, `note`, `warning` or `error`");
    }
  }
  const Value* waivers = guide->find("waivers"_f);
  if (waivers == nullptr) return;
  Resolved resolved;
  Record copy = *guide;
  Walk walk{records::kNoRecord, &copy, "waivers"_f, resolved};
  for (const Value& one : waivers->each()) {
    const Value* named = one.find("rule"_f);
    if (named == nullptr || named->type == ValueType::unfit) continue;
    const auto rule = diagnostics::ruleNamed(named->text);
    if (!rule) {
      report("waiver-unfit"_rule, named->place, "there is no rule `" + base::shortened(named->text, 40) + "`",
             ruleHint(named->text));
      continue;
    }
    if (!rule->info().waivable) {
      report("waiver-unfit"_rule, named->place, "`" + std::string(named->text) + "` cannot be waived",
             "mend what it finds; take the waiver out");
      continue;
    }
    diagnostics::Waiver waiver{
        .rule = *rule, .records = {}, .because = {}, .span = guide->span(named->place)};
    if (const Value* because = one.find("because"_f)) waiver.because = std::string(because->text);
    bool all = true;
    for (auto field : {"record"_f, "records"_f}) {
      const Value* references = one.find(field);
      if (references == nullptr) continue;
      for (const Value& reference : references->each()) {
        Value resolvedReference = reference;
        if (reference.type != ValueType::reference) continue;
        resolveReference(resolvedReference, records::KindSet::any(), walk);
        if (resolvedReference.target_ == records::kNoRecord) {
          all = false;
          continue;
        }
        waiver.records.push_back(collection_[resolvedReference.target_].reference());
      }
    }
    if (const Value* file = one.find("file"_f); file != nullptr && file->said()) {
      if (!waiver.records.empty() || !all) {
        report("waiver-unfit"_rule, file->place, "this waiver names records and a file",
               "name the records; a file only for what stands at no record, in prose");
        continue;
      }
      std::vector<std::string_view> paths;
      for (const records::ProseFile& prose : collection_.read().prose) paths.push_back(prose.path);
      if (std::find(paths.begin(), paths.end(), file->text) == paths.end()) {
        const auto near = base::nearest(file->text, paths);
        report("waiver-unfit"_rule, file->place,
               "there is no file of prose `" + base::shortened(file->text, 60) + "`",
               near ? "did you mean `" + std::string(*near) + "`?"
                    : "name it from the guide's folder, as `prose/the-firm.md`");
        continue;
      }
      waiver.records.push_back(diagnostics::waivedFile(file->text));
    }
    if (waiver.records.empty() && all) {
      report("waiver-unfit"_rule, one.place, "this waiver does not say which finding it is for",
             "add `record: kind:id` or `records: [one, two]`, those of the finding; for one that stands in "
             "prose, `file: prose/the-firm.md`");
      continue;
    }
    if (all) rules.waivers.push_back(std::move(waiver));
  }
  suggestAll(resolved);
  findings.append(std::move(resolved.findings));
}

}  // namespace saggar::linking
