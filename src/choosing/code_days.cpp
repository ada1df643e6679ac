#include <map>
#include <tuple>

#include "choosing/code_state.h"

// What codes say of days, as plain data.
namespace saggar::choosing {

using chronology::AllCodeDays;
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
    if (entry.key == std::to_string(bound.number)) return &entry.value;
  return table;
}

class Days {
 public:
  explicit Days(const CodeState& state) : state_(state) {}

  AllCodeDays run() {
    for (std::size_t i = 0; i < state_.all.size(); ++i) add(state_.all[i], static_cast<std::uint32_t>(i));
    return std::move(out_);
  }

 private:
  void add(const CodeOnRecord& code, std::uint32_t index) {
    if (code.field == "code-seen"_f || !code.applies) return;
    // A list of date codes is one code of which the eye allows several.
    const bool dateCode = code.field == "date-code"_f;
    const bool again = dateCode && !out_.codes.empty() && out_.codes.back().record == code.record &&
                       out_.codes.back().field == code.field;
    CodeDays fresh;
    CodeDays& days = again ? out_.codes.back() : fresh;
    if (!again) {
      days.record = code.record;
      days.field = code.field;
      days.value = code.value;
      const Value* codes = state_.collection[code.record].find(code.field);
      days.first = codes == nullptr || codes->each().data() == code.value;
    } else if (const Value* all = state_.collection[code.record].find(code.field)) {
      days.value = all;
    }
    days.more |= code.more;
    for (std::size_t i = 0; i < code.readings.size(); ++i) {
      if (!code.readings[i].possible) continue;
      days.maker = code.readings[i].rule->maker;
      days.readings.push_back(reading(code.readings[i], index, static_cast<std::uint32_t>(i)));
    }
    if (again || days.readings.empty()) {
      if (!again && dateCode && code.more) out_.codes.push_back(std::move(days));
      return;
    }
    if (const CodeReading* only = code.only(); only != nullptr && !dateCode && only->reading.number)
      count(days, *only);
    out_.codes.push_back(std::move(days));
  }

  CodeReadingDays reading(const CodeReading& one, std::uint32_t code, std::uint32_t place) const {
    CodeReadingDays days;
    days.code = code;
    days.reading = place;
    const CompiledRule& rule = state_.rules.of(*one.rule);
    if (one.reading.when) days.when = one.reading.when->opened();
    days.used = rule.usedValue;
    for (const PartTexts& table : rule.tables) {
      const codes::PartReading* part = one.reading.part(table.part);
      if (part != nullptr && part->row && table.texts[*part->row].used != nullptr)
        days.worksUsed = table.texts[*part->row].used;
    }
    return days;
  }

  void count(CodeDays& days, const CodeReading& only) {
    const codes::Rule& rule = *only.rule->rule;
    if (!rule.ordered() && rule.series().empty()) return;
    const auto key =
        std::make_tuple(only.rule->maker, std::string(rule.orderFrom()), only.reading.number->series);
    const auto [place, fresh] = series_.emplace(key, static_cast<std::uint32_t>(out_.series.size()));
    if (fresh)
      out_.series.push_back(
          {only.rule->maker, rule.ordered() ? orderOf(state_.rules.shown(), *only.rule) : nullptr});
    days.series = place->second;
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
  AllCodeDays out_;
  std::map<std::tuple<RecordIndex, std::string, std::string>, std::uint32_t> series_;
};

}  // namespace

AllCodeDays CodeReadings::days() const {
  return state_ ? Days(*state_).run() : AllCodeDays();
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
