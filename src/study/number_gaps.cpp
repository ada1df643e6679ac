#include "study/number_gaps.h"

#include <algorithm>
#include <map>
#include <tuple>
#include <unordered_map>

#include "codes/signs.h"

namespace saggar::study {

using choosing::CodeOnRecord;
using choosing::CodeReading;
using choosing::MakerRule;
using dates::Day;
using records::Kind;

namespace {

constexpr dates::Bounds kOpen{Day::minusInfinity(), Day::plusInfinity()};

// A number on record, with the days of its booking as far as it has any.
struct Known {
  std::int64_t number = 0;
  RecordIndex record = records::kNoRecord;
  dates::Bounds booked = kOpen;
};

struct Collected {
  const MakerRule* rule = nullptr;
  std::string series;
  NumberForm form;
  std::vector<Known> numbers;
  dates::Bounds used{Day::plusInfinity(), Day::minusInfinity()};  // of all rules that give its numbers
};

// The missing and lost numbers of one series.
class Series {
 public:
  explicit Series(Collected& own) : own_(own), table_(own.rule->rule->series()) {
    auto& numbers = own.numbers;
    std::stable_sort(numbers.begin(), numbers.end(),
                     [](const Known& a, const Known& b) { return a.number < b.number; });
    notBefore_.assign(numbers.size() + 1, own.used.earliest);
    notAfter_.assign(numbers.size() + 1, own.used.latest);
    for (std::size_t i = 0; i < numbers.size(); ++i)
      notBefore_[i + 1] = std::max(notBefore_[i], numbers[i].booked.earliest);
    for (std::size_t i = numbers.size(); i-- > 0;)
      notAfter_[i] = std::min(notAfter_[i + 1], numbers[i].booked.latest);
  }

  void tell(NumberGaps& gaps) const {
    const auto lost = table_.lostOf(own_.series);
    std::size_t passed = 0;  // of what is lost: those that end before what comes next
    const auto between = [&](std::int64_t first, std::int64_t last) {
      while (passed < lost.size() && lost[passed].last < first) ++passed;
      for (std::size_t i = passed; i < lost.size() && lost[i].first <= last; ++i) {
        if (lost[i].first > first) addApart(gaps.missing, first, lost[i].first - 1);
        first = std::max(first, lost[i].last + 1);
      }
      if (first <= last) addApart(gaps.missing, first, last);
    };
    std::int64_t next = std::min(own_.numbers.front().number, firstAllowed());
    for (const Known& one : own_.numbers) {
      if (one.number < next) continue;  // the same number once more
      if (next < one.number) between(next, one.number - 1);
      next = one.number + 1;
      ++gaps.known;
    }
    if (const auto last = table_.lastOf(own_.series); last && next <= *last) between(next, *last);
    for (const codes::MissingRange& one : lost) {
      add(gaps.tornOut, one.first, one.last);
      gaps.tornOut.back().because = one.because;
    }
  }

 private:
  // The least number of a rule that gives a range.
  std::int64_t firstAllowed() const {
    const codes::RuleSpec& spec = own_.rule->rule->spec();
    const codes::NamedPart* part = spec.order ? spec.part(spec.order->number) : nullptr;
    const auto* range = part == nullptr ? nullptr : std::get_if<codes::RangePart>(&part->spec);
    return range == nullptr ? INT64_MAX : range->low;
  }

  // A number that a table dates parts what comes before it from what comes after.
  void addApart(std::vector<NumberRun>& runs, std::int64_t first, std::int64_t last) const {
    const auto entries = table_.entriesOf(own_.series);
    auto at = std::lower_bound(
        entries.begin(), entries.end(), first,
        [](const codes::Series::Entry& one, std::int64_t wanted) { return one.at.number < wanted; });
    for (; at != entries.end() && at->at.number <= last && first <= last; ++at) {
      const std::int64_t number = at->at.number;
      if (number < first || at->table == codes::SeriesTable::lastOf) continue;
      if (first < number) add(runs, first, number - 1);
      add(runs, number, number);
      first = number + 1;
    }
    if (first <= last) add(runs, first, last);
  }

  void add(std::vector<NumberRun>& runs, std::int64_t first, std::int64_t last) const {
    const auto at = [&](std::int64_t number) {
      return static_cast<std::size_t>(
          std::lower_bound(own_.numbers.begin(), own_.numbers.end(), number,
                           [](const Known& one, std::int64_t wanted) { return one.number < wanted; }) -
          own_.numbers.begin());
    };
    dates::Bounds when{notBefore_[at(first)], notAfter_[at(last + 1)]};
    if (!table_.empty()) {
      const auto from = table_.bounds({own_.series, first}, true);
      const auto to = table_.bounds({own_.series, last}, true);
      if (from.earliest) when.earliest = std::max(when.earliest, from.earliest->day);
      if (to.latest) when.latest = std::min(when.latest, to.latest->day);
    }
    runs.push_back({first, last, when.earliest > when.latest ? kOpen : when, {}});
  }

  const Collected& own_;
  const codes::Series& table_;
  std::vector<Day> notBefore_;  // a number that comes behind so many of those on record
  std::vector<Day> notAfter_;   // a number that comes before all of them but so many
};

class Search {
 public:
  Search(const choosing::Chooser& chooser, const choosing::CodeReadings& codes)
      : chooser_(chooser), all_(chooser.collection()), codes_(codes) {}

  std::vector<NumberGaps> run() {
    for (const CodeOnRecord& code : codes_.all()) collect(code);
    std::vector<NumberGaps> out;
    for (auto& [key, own] : series_) {
      NumberGaps gaps;
      gaps.rule = own.rule;
      gaps.series = own.series;
      gaps.form = own.form;
      Series(own).tell(gaps);
      for (const Known& one : own.numbers)
        if (all_[one.record].kind == Kind::treatment) gaps.holders.push_back(one.record);
      if (!gaps.missing.empty() || !gaps.tornOut.empty()) out.push_back(std::move(gaps));
    }
    return out;
  }

 private:
  // A number of which it is not sure how it is to be read is on record all the same, though without a day.
  void collect(const CodeOnRecord& code) {
    if (code.field != "code"_f && code.field != "code-seen"_f) return;
    const bool anyPossible = code.possibleCount() != 0;
    for (const CodeReading& reading : code.readings) {
      if (!reading.reading.number || !reading.rule->rule->ordered()) continue;
      if (anyPossible && !reading.possible) continue;
      add(code, reading, &reading == code.only());
    }
  }

  void add(const CodeOnRecord& code, const CodeReading& reading, bool sure) {
    const MakerRule& rule = *reading.rule;
    const std::size_t place = placeOf(rule);
    Collected& own = series_[{rule.maker, place, reading.reading.number->series}];
    if (own.rule == nullptr) {
      own.rule = place < codes_.rules().size() ? &codes_.rules()[place] : &rule;
      own.series = reading.reading.number->series;
      own.form = formOf(code, reading);
    }
    const dates::Bounds used = withinShapes(usedBy(rule), rule, own.series);
    own.used = {std::min(own.used.earliest, used.earliest), std::max(own.used.latest, used.latest)};
    own.numbers.push_back({reading.reading.number->number, code.record, sure ? bookedOf(code) : kOpen});
  }

  // Where the rule that states the order stands among all.
  std::size_t placeOf(const MakerRule& rule) {
    const auto rules = codes_.rules();
    const auto [known, fresh] = places_.emplace(&rule, rules.size());
    if (!fresh) return known->second;
    for (std::size_t i = 0; i < rules.size(); ++i)
      if (rules[i].maker == rule.maker && rules[i].name == rule.rule->orderFrom()) return known->second = i;
    return known->second;
  }

  NumberForm formOf(const CodeOnRecord& code, const CodeReading& reading) const {
    const codes::RuleSpec& spec = reading.rule->rule->spec();
    if (!spec.order) return {};
    const codes::Reading full =
        codes_.inFull(code)[static_cast<std::size_t>(&reading - code.readings.data())];
    const codes::PartReading* part = full.part(spec.order->number);
    if (part == nullptr) return {};
    NumberForm form{std::string(code.value->text.substr(0, part->offset)), 0};
    if (const codes::NamedPart* counts = spec.part(spec.order->number)) {
      if (const auto* digits = std::get_if<codes::DigitsPart>(&counts->spec))
        form.figures = static_cast<std::size_t>(digits->counts.least());
      if (const auto* range = std::get_if<codes::RangePart>(&counts->spec))
        form.figures = static_cast<std::size_t>(range->width);
    }
    return form;
  }

  dates::Bounds usedBy(const MakerRule& rule) const {
    if (rule.used == nullptr) return kOpen;
    return dates::spanOf(*rule.used, dates::Reading::Plain, all_.settings().dates).hull().opened();
  }

  // Numbers that run within a shape's prefix were given while some shape of that prefix was offered. Open where another
  // prefix than a shape's may be meant.
  dates::Bounds withinShapes(dates::Bounds used, const MakerRule& rule, const std::string& series) const {
    const codes::RuleSpec& spec = rule.rule->spec();
    if (!spec.order || spec.order->within.size() != 1) return used;
    const codes::NamedPart* part = spec.part(spec.order->within[0]);
    const auto* path = part == nullptr ? nullptr : std::get_if<codes::PathPart>(&part->spec);
    if (path == nullptr || path->last != 0) return used;
    dates::Bounds offered{Day::plusInfinity(), Day::minusInfinity()};
    for (const std::string& text : path->paths) {
      const bool ofShape = text == "shape.prefix" || text == "treatment.shape.prefix";
      for (const Kind kind : {Kind::shape, Kind::maker}) {
        if (ofShape != (kind == Kind::shape)) continue;
        for (const RecordIndex record : all_.ofKind(kind)) {
          if (!hasPrefix(record, series)) continue;
          if (!ofShape) return used;
          const auto day = [&](records::Field field) {
            return chooser_.bounds().of(record, field, choosing::Bounds::End::moment);
          };
          offered = {std::min(offered.earliest, day("introduced"_f).earliest),
                     std::max(offered.latest, day("withdrawn"_f).latest)};
        }
      }
    }
    const dates::Bounds both{std::max(used.earliest, offered.earliest),
                             std::min(used.latest, offered.latest)};
    return both.earliest <= both.latest ? both : used;
  }

  bool hasPrefix(RecordIndex record, const std::string& series) const {
    const records::Value* prefix = all_[record].find("prefix"_f);
    if (prefix == nullptr || !prefix->said()) return false;
    const auto all = prefix->each();
    return std::any_of(all.begin(), all.end(),
                       [&](const records::Value& one) { return codes::foldedKey(one.text) == series; });
  }

  // A treatment is booked under its only or first code.
  dates::Bounds bookedOf(const CodeOnRecord& code) const {
    if (all_[code.record].kind != Kind::treatment) return kOpen;
    const records::Value* codes = all_[code.record].find("code"_f);
    if (codes == nullptr || codes->each().data() != code.value) return kOpen;
    return chooser_.bounds().of(code.record, "introduced"_f, choosing::Bounds::End::moment);
  }

  const choosing::Chooser& chooser_;
  const linking::Collection& all_;
  const choosing::CodeReadings& codes_;
  std::unordered_map<const MakerRule*, std::size_t> places_;
  std::map<std::tuple<RecordIndex, std::size_t, std::string>, Collected> series_;
};

}  // namespace

std::string NumberForm::of(std::int64_t number) const {
  std::string digits = std::to_string(number);
  if (digits.size() < figures) digits.insert(0, figures - digits.size(), '0');
  return before + digits;
}

std::vector<NumberGaps> numberGaps(const choosing::Chooser& chooser, const choosing::CodeReadings& codes) {
  return Search(chooser, codes).run();
}

}  // namespace saggar::study
