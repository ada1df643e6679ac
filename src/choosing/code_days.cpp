#include <map>
#include <tuple>

#include "choosing/code_state.h"

// What codes say of days.
namespace saggar::choosing {

using chronology::CodeDays;
using chronology::CodeReadingDays;
using records::Value;

namespace {

// The rule that states the order: this one's own, or the one that it takes it from.
const Value* orderOf(std::span<const MakerRule> rules, const MakerRule& rule) {
  for (const MakerRule& one : rules) {
    if (one.maker != rule.maker || one.name != rule.rule->orderFrom() || one.source == nullptr) continue;
    if (const Value* order = one.source->find("order"_f)) return order;
  }
  return rule.source == nullptr                    ? nullptr
         : rule.source->find("order"_f) != nullptr ? rule.source->find("order"_f)
                                                   : rule.source;
}

// The entry of a table of the rule, else the table, else the rule.
const Value* entryOf(const MakerRule& rule, const codes::NumberBound& bound) {
  const Value* table = rule.source == nullptr ? nullptr : rule.source->find(codes::tableName(bound.table));
  if (table == nullptr) return rule.source;
  for (const records::Entry& entry : table->entries())
    if (entry.key == bound.code) return &entry.value;
  return table;
}

class Days final : public chronology::CodeDates {
 public:
  explicit Days(const CodeState& state) : state_(state) {}

  void each(const std::function<void(const CodeDays&)>& take) const override {
    SeriesNumbers series;
    for (std::size_t i = 0; i < state_.all.size();) {
      // A list of date codes is one code of which the eye allows several.
      std::size_t end = i + 1;
      if (state_.all[i].field == "date-code"_f)
        while (end < state_.all.size() && state_.all[end].record == state_.all[i].record &&
               state_.all[end].field == state_.all[i].field)
          ++end;
      CodeDays days;
      if (gather(i, end, days, series)) take(days);
      i = end;
    }
  }

 private:
  using SeriesNumbers = std::map<std::tuple<RecordIndex, std::string, std::string>, std::uint32_t>;

  // Whether the codes from `begin` to `end`, which are one, say anything.
  bool gather(std::size_t begin, std::size_t end, CodeDays& days, SeriesNumbers& series) const {
    const CodeOnRecord& first = state_.all[begin];
    if (first.field == "code-seen"_f) return false;
    const Value* codes = state_.collection[first.record].find(first.field);
    days.record = first.record;
    days.field = first.field;
    days.value = end - begin > 1 && codes != nullptr ? codes : first.value;
    days.first = codes == nullptr || codes->each().data() == first.value;
    for (std::size_t i = begin; i < end; ++i) {
      const CodeOnRecord& code = state_.all[i];
      if (!code.applies) continue;
      days.more |= code.more;
      for (std::size_t r = 0; r < code.readings.size(); ++r) {
        if (!code.readings[r].possible) {
          if (first.field == "date-code"_f && code.readings[r].reading.when())
            days.ruledOut.push_back(
                reading(code.readings[r], static_cast<std::uint32_t>(i), static_cast<std::uint32_t>(r)));
          continue;
        }
        days.maker = code.readings[r].rule->maker;
        days.readings.push_back(
            reading(code.readings[r], static_cast<std::uint32_t>(i), static_cast<std::uint32_t>(r)));
      }
    }
    if (days.readings.empty()) return days.more;
    if (first.field == "date-code"_f) return true;
    if (const CodeReading* only = first.only(); only != nullptr && only->reading.number)
      count(days, *only, series);
    return true;
  }

  CodeReadingDays reading(const CodeReading& one, std::uint32_t code, std::uint32_t place) const {
    CodeReadingDays days;
    days.code = code;
    days.reading = place;
    if (const auto when = one.reading.when()) days.when = when->opened();
    days.used = state_.rules.of(*one.rule).usedValue;
    days.worksUsed = one.reading.worksUsed;
    return days;
  }

  void count(CodeDays& days, const CodeReading& only, SeriesNumbers& series) const {
    const codes::Rule& rule = *only.rule->rule;
    if (!rule.ordered() && rule.series().empty()) return;
    const auto key =
        std::make_tuple(only.rule->maker, std::string(rule.orderFrom()), only.reading.number->series);
    days.series = series.emplace(key, static_cast<std::uint32_t>(series.size())).first->second;
    if (rule.ordered()) days.order = orderOf(state_.rules.shown(), *only.rule);
    days.number = only.reading.number->number;
    if (rule.series().empty()) return;
    const codes::NumberBounds bounds = rule.series().bounds(*only.reading.number, rule.ordered());
    if (bounds.earliest) {
      days.table.when.earliest = bounds.earliest->day;
      days.table.early = entryOf(*only.rule, *bounds.earliest);
      days.table.earlyByOrder = bounds.earliest->byOrder;
    }
    if (bounds.latest) {
      days.table.when.latest = bounds.latest->day;
      days.table.late = entryOf(*only.rule, *bounds.latest);
      days.table.lateByOrder = bounds.latest->byOrder;
    }
  }

  const CodeState& state_;
};

}  // namespace

std::unique_ptr<chronology::CodeDates> CodeReadings::days() const {
  if (!state_) return std::make_unique<chronology::NoCodeDates>();
  return std::make_unique<Days>(*state_);
}

void CodeReadings::strikeOut(std::vector<StruckOut> struck) {
  if (!state_) return;
  for (const StruckOut& one : struck) {
    const CodeReading& reading = state_->all[one.code].readings[one.reading];
    state_->readings[static_cast<std::size_t>(&reading - state_->readings.data())].possible = false;
  }
  state_->struckOut = std::move(struck);
}

}  // namespace saggar::choosing
