#include <algorithm>
#include <map>

#include "base/text.h"
#include "checks/own_days.h"
#include "checks/rules.h"
#include "dates/print.h"

// Numbers were given out in order: a higher one was never booked before a lower one.
//
// The problem: one wrong date or number in a long series contradicts hundreds of right ones, and to report every pair
// buries the one that is wrong. The choice: a series is gone through once by number; where two contradict each other,
// the one that contradicts more of the others is set aside, of equals the one with the weaker evidence, then the later;
// whatever then fits after all is taken back. Each that stays set aside is one finding, the others as related places.
// The cost: in a series that is wrong all over, which of two is set aside is a guess.
namespace saggar::checks {

using choosing::CodeOnRecord;
using choosing::CodeReading;
using choosing::MakerRule;
using dates::Bounds;
using dates::Day;
using records::Kind;
using records::Record;
using records::RecordIndex;
using records::Value;

namespace {

constexpr std::size_t kMostRelated = 10;
constexpr std::size_t kFurthestLook = 5000;

struct Booking {
  RecordIndex record = records::kNoRecord;
  const Value* code = nullptr;
  const MakerRule* rule = nullptr;
  std::int64_t number = 0;
  Bounds days;
  std::size_t conflicts = 0;
  std::size_t citations = 0;
  bool kept = true;
};

// The greatest of what stands before a place, or the least of what stands after one, with its holder.
class Extremes {
 public:
  explicit Extremes(std::size_t size) : before_(size + 1, kNone), after_(size + 1, kNone) {}

  void add(const std::vector<Booking>& all, std::size_t i, std::size_t rank) {
    for (std::size_t at = rank + 1; at < before_.size(); at += at & (~at + 1))
      if (before_[at] == kNone || all[i].days.earliest > all[before_[at]].days.earliest) before_[at] = i;
    for (std::size_t at = after_.size() - rank - 1; at < after_.size(); at += at & (~at + 1))
      if (after_[at] == kNone || all[i].days.latest < all[after_[at]].days.latest) after_[at] = i;
  }

  // Of ranks below `rank`, the one with the latest earliest day.
  std::size_t latestBefore(const std::vector<Booking>& all, std::size_t rank) const {
    std::size_t found = kNone;
    for (std::size_t at = rank; at > 0; at -= at & (~at + 1))
      if (before_[at] != kNone &&
          (found == kNone || all[before_[at]].days.earliest > all[found].days.earliest))
        found = before_[at];
    return found;
  }
  // Of ranks above `rank`, the one with the earliest latest day.
  std::size_t earliestAfter(const std::vector<Booking>& all, std::size_t rank) const {
    std::size_t found = kNone;
    for (std::size_t at = after_.size() - rank - 2; at > 0; at -= at & (~at + 1))
      if (after_[at] != kNone && (found == kNone || all[after_[at]].days.latest < all[found].days.latest))
        found = after_[at];
    return found;
  }

  static constexpr std::size_t kNone = static_cast<std::size_t>(-1);

 private:
  std::vector<std::size_t> before_;
  std::vector<std::size_t> after_;
};

// How many of the days added lie beyond a day.
class Counter {
 public:
  explicit Counter(std::vector<Day> days) : days_(std::move(days)), counts_(days_.size() + 1, 0) {
    std::sort(days_.begin(), days_.end());
  }

  void add(Day day) {
    ++all_;
    for (std::size_t at = placeOf(day) + 1; at < counts_.size(); at += at & (~at + 1)) ++counts_[at];
  }
  std::size_t below(Day day) const {
    std::size_t count = 0;
    for (std::size_t at = placeOf(day); at > 0; at -= at & (~at + 1)) count += counts_[at];
    return count;
  }
  std::size_t above(Day day) const {
    const auto place =
        static_cast<std::size_t>(std::upper_bound(days_.begin(), days_.end(), day) - days_.begin());
    std::size_t count = 0;
    for (std::size_t at = place; at > 0; at -= at & (~at + 1)) count += counts_[at];
    return all_ - count;
  }

 private:
  std::size_t placeOf(Day day) const {
    return static_cast<std::size_t>(std::lower_bound(days_.begin(), days_.end(), day) - days_.begin());
  }
  std::vector<Day> days_;
  std::vector<std::size_t> counts_;
  std::size_t all_ = 0;
};

class Series {
 public:
  Series(const Context& context, std::vector<Booking>& all, diagnostics::Findings& findings)
      : records_(context.collection), all_(all), findings_(findings) {}

  void check() {
    std::stable_sort(all_.begin(), all_.end(),
                     [](const Booking& a, const Booking& b) { return a.number < b.number; });
    ranks_.resize(all_.size());
    for (std::size_t i = 0; i < all_.size(); ++i)
      ranks_[i] = i == 0 ? 0 : ranks_[i - 1] + (all_[i].number != all_[i - 1].number);
    if (inOrder()) return;
    countConflicts();
    setAside();
    takeBack();
    for (std::size_t i = 0; i < all_.size(); ++i)
      if (!all_[i].kept) report(i);
  }

 private:
  // The end of the run of equal numbers that begins here.
  std::size_t endOfRun(std::size_t i) const {
    std::size_t end = i + 1;
    while (end < all_.size() && ranks_[end] == ranks_[i]) ++end;
    return end;
  }

  bool inOrder() const {
    Day latest = Day::minusInfinity();
    for (std::size_t i = 0; i < all_.size();) {
      const std::size_t end = endOfRun(i);
      for (std::size_t j = i; j < end; ++j)
        if (all_[j].days.latest < latest) return false;
      for (std::size_t j = i; j < end; ++j) latest = std::max(latest, all_[j].days.earliest);
      i = end;
    }
    return true;
  }

  bool contradict(const Booking& lower, const Booking& higher) const {
    return higher.days.latest < lower.days.earliest;
  }

  void countConflicts() {
    std::vector<Day> begins;
    std::vector<Day> ends;
    for (const Booking& one : all_) {
      begins.push_back(one.days.earliest);
      ends.push_back(one.days.latest);
    }
    Counter lower(std::move(begins));
    for (std::size_t i = 0; i < all_.size();) {
      const std::size_t end = endOfRun(i);
      for (std::size_t j = i; j < end; ++j) all_[j].conflicts += lower.above(all_[j].days.latest);
      for (std::size_t j = i; j < end; ++j) lower.add(all_[j].days.earliest);
      i = end;
    }
    Counter higher(std::move(ends));
    for (std::size_t end = all_.size(); end > 0;) {
      std::size_t begin = end - 1;
      while (begin > 0 && ranks_[begin - 1] == ranks_[begin]) --begin;
      for (std::size_t j = begin; j < end; ++j) all_[j].conflicts += higher.below(all_[j].days.earliest);
      for (std::size_t j = begin; j < end; ++j) higher.add(all_[j].days.latest);
      end = begin;
    }
  }

  // The one that is wrong rather than the other.
  bool weaker(const Booking& a, const Booking& b) const {
    if (a.conflicts != b.conflicts) return a.conflicts > b.conflicts;
    if (a.citations != b.citations) return a.citations < b.citations;
    return a.record != b.record ? a.record > b.record : a.code > b.code;
  }

  void setAside() {
    std::multimap<Day, std::size_t> begins;  // of those kept with a lower number
    for (std::size_t i = 0; i < all_.size();) {
      const std::size_t end = endOfRun(i);
      for (std::size_t j = i; j < end; ++j) {
        while (!begins.empty()) {
          const auto last = std::prev(begins.end());
          if (!contradict(all_[last->second], all_[j])) break;
          if (weaker(all_[j], all_[last->second])) {
            all_[j].kept = false;
            break;
          }
          all_[last->second].kept = false;
          begins.erase(last);
        }
      }
      for (std::size_t j = i; j < end; ++j)
        if (all_[j].kept) begins.emplace(all_[j].days.earliest, j);
      i = end;
    }
  }

  std::size_t partner(const Extremes& kept, std::size_t i) const {
    const std::size_t lower = kept.latestBefore(all_, ranks_[i]);
    if (lower != Extremes::kNone && contradict(all_[lower], all_[i])) return lower;
    const std::size_t higher = kept.earliestAfter(all_, ranks_[i]);
    if (higher != Extremes::kNone && contradict(all_[i], all_[higher])) return higher;
    return Extremes::kNone;
  }

  void takeBack() {
    Extremes kept(ranks_.back() + 1);
    std::vector<std::size_t> aside;
    for (std::size_t i = 0; i < all_.size(); ++i) {
      if (all_[i].kept) {
        kept.add(all_, i, ranks_[i]);
      } else {
        aside.push_back(i);
      }
    }
    std::stable_sort(aside.begin(), aside.end(),
                     [&](std::size_t a, std::size_t b) { return weaker(all_[b], all_[a]); });
    for (std::size_t i : aside) {
      if (partner(kept, i) != Extremes::kNone) continue;
      all_[i].kept = true;
      kept.add(all_, i, ranks_[i]);
    }
    partners_.assign(all_.size(), Extremes::kNone);
    for (std::size_t i : aside)
      if (!all_[i].kept) partners_[i] = partner(kept, i);
  }

  // What it contradicts, the nearest numbers first.
  std::vector<std::size_t> contradicted(std::size_t i) const {
    std::vector<std::size_t> found;
    for (std::size_t step = 1; step <= kFurthestLook && found.size() < kMostRelated; ++step) {
      const bool below = step <= i;
      const bool above = i + step < all_.size();
      if (!below && !above) break;
      if (below && all_[i - step].kept && ranks_[i - step] < ranks_[i] && contradict(all_[i - step], all_[i]))
        found.push_back(i - step);
      if (above && all_[i + step].kept && ranks_[i + step] > ranks_[i] && contradict(all_[i], all_[i + step]))
        found.push_back(i + step);
    }
    if (found.empty()) found.push_back(partners_[i]);
    if (found.size() > kMostRelated) found.resize(kMostRelated);
    return found;
  }

  std::string dated(const Booking& one) const {
    const Value* introduced = records_[one.record].find("introduced"_f);
    if (introduced != nullptr && introduced->said()) return std::string(introduced->text);
    return dates::describeBounds(one.days);
  }

  void report(std::size_t i) {
    const Booking& own = all_[i];
    const std::vector<std::size_t> others = contradicted(i);
    const Booking& other = all_[others[0]];
    const Record& record = records_[own.record];
    const bool early = other.number < own.number;
    const Day from = early ? own.days.latest : other.days.latest;
    const Day until = early ? other.days.earliest : own.days.earliest;
    diagnostics::Finding finding{
        .rule = "code-out-of-order"_rule,
        .span = record.span(own.code->place),
        .message = '`' + std::string(own.code->text) + "` was booked " + dated(own) +
                   (early ? ", before the lower number `" : ", after the higher number `") +
                   std::string(other.code->text) + "` (" + dated(other) + "): " + gapInWords(from, until) +
                   (early ? " too early" : " too late"),
        .hint = "numbers by `" + own.rule->name +
                "` were given in order: a number or one of the dates is wrong; a date that is in doubt takes "
                "`doubted: reason`",
        .record = record.reference(),
        .field = "code",
        .shortByDays = static_cast<std::int64_t>(until.number() - from.number())};
    if (own.conflicts > others.size())
      finding.message += " (" + base::counted(own.conflicts, "number") + " in all contradict it)";
    add(finding, own);
    for (std::size_t at : others) {
      const Booking& one = all_[at];
      finding.related.push_back({records_[one.record].span(one.code->place),
                                 "`" + std::string(one.code->text) + "` was booked " + dated(one)});
      add(finding, one);
    }
    findings_.add(std::move(finding));
  }

  void add(diagnostics::Finding& finding, const Booking& one) const {
    const Record& record = records_[one.record];
    const std::string reference = record.reference();
    if (std::find(finding.records.begin(), finding.records.end(), reference) == finding.records.end())
      finding.records.push_back(reference);
    finding.facts.push_back(
        {reference, "code", std::string(one.code->text), {}, record.span(one.code->place)});
    if (const Value* introduced = record.find("introduced"_f))
      finding.facts.push_back(
          {reference, "introduced", std::string(introduced->text), {}, record.span(introduced->place)});
  }

  const linking::Collection& records_;
  std::vector<Booking>& all_;
  diagnostics::Findings& findings_;
  std::vector<std::size_t> ranks_;  // equal for equal numbers
  std::vector<std::size_t> partners_;
};

// The day a code was booked on. A further code of a treatment was booked at some time while that was offered.
Bounds bookedOn(const Record& treatment, const CodeOnRecord& code, const dates::Options& options) {
  const Value* codes = treatment.find("code"_f);
  Bounds days = momentDays(treatment.find("introduced"_f), options);
  if (codes->each().data() != code.value)
    days.latest = momentDays(treatment.find("withdrawn"_f), options).latest;
  return days;
}

std::size_t citationsOf(const Record& record) {
  const Value* introduced = record.find("introduced"_f);
  if (introduced != nullptr && introduced->evidence != nullptr && !introduced->evidence->cite.empty())
    return introduced->evidence->cite.size();
  return record.evidence == nullptr ? 0 : record.evidence->cite.size();
}

// A number whose own date the rule's tables (`first-of`, `on-date`, `last-of`) contradict. Gives true if nothing does.
bool fitsTables(const Record& record, const CodeOnRecord& code, const CodeReading& reading,
                records::Field field, const Bounds& days, const linking::Collection& all,
                diagnostics::Findings& findings) {
  const codes::Rule& rule = *reading.rule->rule;
  const codes::NumberBounds bounds = rule.series().bounds(*reading.reading.number, rule.ordered());
  const Value* dated = record.find(field);
  const source::Span rulePlace = all[reading.rule->maker].span(reading.rule->source->place);
  diagnostics::Finding finding{.rule = "code-out-of-order"_rule,
                               .span = record.span(code.value->place),
                               .message = {},
                               .record = record.reference(),
                               .field = std::string(code.field.name()),
                               .records = {record.reference()},
                               .related = {{rulePlace, "the rule `" + reading.rule->name + "` stands here"}},
                               .facts = {{record.reference(),
                                          std::string(code.field.name()),
                                          std::string(code.value->text),
                                          {},
                                          record.span(code.value->place)}}};
  const std::string own = '`' + std::string(code.value->text) + '`';
  if (bounds.beyondLast) {
    finding.message = own + " is above " + std::to_string(*bounds.beyondLast) + ", the last number by `" +
                      reading.rule->name + '`';
    finding.hint = "put the code right, or `last-of` of the rule";
    findings.add(std::move(finding));
    return false;
  }
  const bool early = bounds.earliest && days.latest < bounds.earliest->day;
  const bool late = bounds.latest && days.earliest > bounds.latest->day;
  if (dated == nullptr || (!early && !late)) return true;
  const codes::NumberBound& bound = early ? *bounds.earliest : *bounds.latest;
  const Day from = early ? days.latest : bound.day;
  const Day until = early ? bound.day : days.earliest;
  std::string why = '`' + std::string(tableName(bound.table)) + "` of `" + reading.rule->name + "` dates ";
  why += bound.number == reading.reading.number->number ? "it" : "number " + std::to_string(bound.number);
  finding.message = own + " is dated " + std::string(dated->text) + " (" + std::string(field.name()) +
                    "), but " + why + " so that it was booked " + (early ? "from " : "by ") +
                    dates::describeDay(bound.day) + (early ? " on: " : ": ") + gapInWords(from, until) +
                    (early ? " too early" : " too late");
  finding.hint =
      "the code, the date or the table of the rule is wrong; a date that is in doubt takes `doubted: reason`";
  finding.related.push_back({record.span(dated->place), "it is dated here"});
  finding.facts.push_back({record.reference(),
                           std::string(field.name()),
                           std::string(dated->text),
                           {},
                           record.span(dated->place)});
  finding.shortByDays = static_cast<std::int64_t>(until.number() - from.number());
  findings.add(std::move(finding));
  return false;
}

}  // namespace

void codeOutOfOrder(const Context& context, diagnostics::Findings& findings) {
  const linking::Collection& all = context.collection;
  const dates::Options& options = all.settings().dates;
  std::map<std::tuple<RecordIndex, std::string_view, std::string_view>, std::vector<Booking>> series;
  for (const CodeOnRecord& code : context.codes.all()) {
    const CodeReading* only = code.only();
    if (only == nullptr || !only->reading.number) continue;
    const Record& record = all[code.record];
    if (record.broken) continue;
    const codes::Rule& rule = *only->rule->rule;
    if (code.field == "registered"_f) {
      // What bears a number was designed by the day that was given out, and made from then on.
      const bool piece = record.kind == Kind::specimen;
      Bounds days = momentDays(record.find(piece ? "made"_f : "designed"_f), options);
      (piece ? days.earliest : days.latest) = piece ? Day::minusInfinity() : Day::plusInfinity();
      if (!rule.series().empty())
        fitsTables(record, code, *only, piece ? "made"_f : "designed"_f, days, all, findings);
      continue;
    }
    if (code.field != "code"_f) continue;
    const Bounds days = bookedOn(record, code, options);
    if (!rule.series().empty() && !fitsTables(record, code, *only, "introduced"_f, days, all, findings))
      continue;
    if (!rule.ordered() || (!days.earliest.isFinite() && !days.latest.isFinite())) continue;
    series[{only->rule->maker, rule.orderFrom(), only->reading.number->series}].push_back(
        {code.record, code.value, only->rule, only->reading.number->number, days, 0, citationsOf(record),
         true});
  }
  for (auto& [which, bookings] : series)
    if (bookings.size() > 1) Series(context, bookings, findings).check();
}

}  // namespace saggar::checks
