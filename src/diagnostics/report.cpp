#include "diagnostics/report.h"

#include <algorithm>
#include <map>
#include <tuple>

#include "base/text.h"

namespace saggar::diagnostics {
namespace {

// What a waiver must name: the records of the finding's facts; of a finding that stands at no record, its file.
std::vector<std::string> subject(const Finding& finding, const source::SourceSet& sources) {
  std::vector<std::string> records = finding.records;
  if (records.empty() && !finding.record.empty()) records.push_back(finding.record);
  if (records.empty() && finding.span.known()) records.push_back(waivedFile(sources.path(finding.span.file)));
  std::sort(records.begin(), records.end());
  records.erase(std::unique(records.begin(), records.end()), records.end());
  return records;
}

std::vector<std::string> sortedRecords(const Waiver& waiver) {
  std::vector<std::string> records = waiver.records;
  std::sort(records.begin(), records.end());
  records.erase(std::unique(records.begin(), records.end()), records.end());
  return records;
}

std::string namesOf(const Waiver& waiver) {
  std::vector<std::string> names;
  for (const std::string& one : waiver.records) names.push_back('`' + one + '`');
  return base::listedInWords(names);
}

void waive(std::vector<Finding>& findings, const Settings& settings, const source::SourceSet& sources) {
  using Key = std::pair<std::uint8_t, std::vector<std::string>>;
  std::map<Key, std::size_t> byKey;
  for (std::size_t i = 0; i < settings.waivers.size(); ++i)
    byKey.emplace(Key{settings.waivers[i].rule.index, sortedRecords(settings.waivers[i])}, i);
  if (byKey.empty()) return;
  std::vector<bool> used(settings.waivers.size(), false);
  for (Finding& finding : findings) {
    if (!finding.rule.info().waivable) continue;
    const auto found = byKey.find(Key{finding.rule.index, subject(finding, sources)});
    if (found == byKey.end()) continue;
    const Waiver& waiver = settings.waivers[found->second];
    finding.waived = WaivedBy{waiver.because, waiver.span};
    used[found->second] = true;
  }
  for (std::size_t i = 0; i < used.size(); ++i) {
    const Waiver& waiver = settings.waivers[i];
    const bool looked = settings.only.empty() || std::find(settings.only.begin(), settings.only.end(),
                                                           waiver.rule) != settings.only.end();
    // What only `make` finds cannot be missed where nothing was made.
    if (used[i] || !waiver.rule.info().waivable || waiver.rule.info().whenMade || !looked) continue;
    findings.push_back(
        {.rule = "waiver-unused"_rule,
         .span = waiver.span,
         .message = "no `" + std::string(waiver.rule.id()) + "` finding is about exactly " + namesOf(waiver),
         .hint = "take the waiver out, or name all the records of the finding it is meant for"});
  }
}

}  // namespace

std::string waivedFile(std::string_view path) {
  return "file " + std::string(path);
}

void Findings::append(Findings other) {
  if (all_.empty()) {
    all_ = std::move(other.all_);
    return;
  }
  all_.insert(all_.end(), std::make_move_iterator(other.all_.begin()),
              std::make_move_iterator(other.all_.end()));
}

Report makeReport(Findings collected, const Settings& settings, const source::SourceSet& sources) {
  Report report;
  std::vector<Finding>& findings = collected.all();
  waive(findings, settings, sources);
  std::stable_sort(findings.begin(), findings.end(), [&](const Finding& a, const Finding& b) {
    auto key = [&](const Finding& f) {
      return std::tuple(f.span.known() ? sources.path(f.span.file) : std::string_view(), f.span.begin,
                        f.rule.index);
    };
    const auto ka = key(a);
    const auto kb = key(b);
    return ka != kb ? ka < kb : a.message < b.message;
  });
  for (Finding& finding : findings) {
    const bool wanted = settings.only.empty() || std::find(settings.only.begin(), settings.only.end(),
                                                           finding.rule) != settings.only.end();
    if (!wanted) continue;
    if (settings.changed[finding.rule.index]) finding.severity = settings.severity[finding.rule.index];
    if (finding.weight() == Severity::off) continue;
    if (!report.findings.empty()) {
      const Finding& last = report.findings.back();
      if (last.rule == finding.rule && last.span == finding.span && last.message == finding.message) continue;
    }
    if (finding.waived) {
      ++report.waived;
    } else {
      switch (finding.weight()) {
        case Severity::error: ++report.errors; break;
        case Severity::warning: ++report.warnings; break;
        default: ++report.notes;
      }
    }
    report.findings.push_back(std::move(finding));
  }
  return report;
}

std::vector<const Finding*> Report::shown() const {
  constexpr std::size_t kMostOfARule = 100;
  constexpr std::size_t kMostInAll = 1000;
  std::array<std::size_t, kRules.size()> ofRule[2] = {};  // waived ones take no room from the others
  std::size_t all[2] = {};
  std::vector<const Finding*> out;
  for (const Finding& finding : findings) {
    const std::size_t waivedOnes = finding.waived ? 1 : 0;
    if (all[waivedOnes] == kMostInAll || ofRule[waivedOnes][finding.rule.index] == kMostOfARule) continue;
    ++all[waivedOnes];
    ++ofRule[waivedOnes][finding.rule.index];
    out.push_back(&finding);
  }
  return out;
}

std::string countsInWords(const Report& report) {
  std::vector<std::string> parts;
  if (report.errors != 0) parts.push_back(base::counted(report.errors, "error"));
  if (report.warnings != 0) parts.push_back(base::counted(report.warnings, "warning"));
  if (report.notes != 0) parts.push_back(base::counted(report.notes, "note"));
  std::string out = parts.empty() ? "nothing found" : base::listedInWords(parts);
  if (report.waived == 0) return out;
  return out + "; " +
         (parts.empty() ? base::counted(report.waived, "finding") : std::to_string(report.waived) + " more") +
         " waived";
}

}  // namespace saggar::diagnostics
