#include "choosing/code_readings.h"

#include <algorithm>

#include "choosing/code_state.h"

namespace saggar::choosing {

using records::Field;
using records::Record;
using records::Value;
using records::ValueType;

std::optional<CodeField> codeFieldOf(Field field) {
  for (std::size_t i = 0; i < kCodeFields; ++i)
    if (kCodeFieldNames[i] == field) return static_cast<CodeField>(i);
  return std::nullopt;
}

std::size_t CodeOnRecord::possibleCount() const {
  return static_cast<std::size_t>(
      std::count_if(readings.begin(), readings.end(), [](const CodeReading& one) { return one.possible; }));
}

const CodeReading* CodeOnRecord::only() const {
  const CodeReading* found = nullptr;
  for (const CodeReading& one : readings) {
    if (!one.possible) continue;
    if (found != nullptr) return nullptr;
    found = &one;
  }
  return more ? nullptr : found;
}

RecordIndex CodeState::treatmentOf(RecordIndex record) const {
  const Record& one = collection[record];
  if (one.kind == Kind::treatment) return record;
  if (one.kind != Kind::specimen) return records::kNoRecord;
  const Value* treatment = one.find("treatment"_f);
  return treatment == nullptr ? records::kNoRecord : treatment->target();
}

RecordIndex CodeState::makerOf(RecordIndex record) const {
  auto ofShape = [&](RecordIndex shape) {
    const Value* maker = collection[shape].find("maker"_f);
    return maker == nullptr ? records::kNoRecord : maker->target();
  };
  const Record& one = collection[record];
  if (one.kind == Kind::shape) return ofShape(record);
  const Value* shape = one.find("shape"_f);
  if (shape == nullptr && one.kind == Kind::specimen) {
    const RecordIndex treatment = treatmentOf(record);
    if (treatment != records::kNoRecord) shape = collection[treatment].find("shape"_f);
  }
  if (shape == nullptr) return records::kNoRecord;
  RecordIndex maker = records::kNoRecord;
  for (const Value& each : shape->each()) {
    const RecordIndex next =
        each.target() == records::kNoRecord ? records::kNoRecord : ofShape(each.target());
    if (next == records::kNoRecord || (maker != records::kNoRecord && next != maker))
      return records::kNoRecord;
    maker = next;
  }
  return maker;
}

Standing CodeState::standingOf(const CodeOnRecord& code) const {
  Standing standing{code.record, treatmentOf(code.record), codeFieldOf(code.field).value_or(CodeField::code),
                    code.value, true};
  if (standing.treatment == records::kNoRecord) return standing;
  // A piece may bear a later number of its treatment.
  const Value* codes = collection[standing.treatment].find("code"_f);
  const Value* first = codes == nullptr || codes->each().empty() ? nullptr : codes->each().data();
  standing.booked = first != nullptr && (first == code.value || first->text == code.value->text);
  return standing;
}

// Reading the same text by the same rule again gives the same readings in the same order.
std::vector<codes::Reading> CodeState::inFull(const CodeOnRecord& code) const {
  std::vector<codes::Reading> full;
  full.reserve(code.readings.size());
  const MakerRule* last = nullptr;
  for (const CodeReading& one : code.readings) {
    if (one.rule == last) continue;
    last = one.rule;
    codes::Readings read = last->rule->read(code.value->text, kMostKept);
    std::move(read.all.begin(), read.all.end(), std::back_inserter(full));
  }
  return full;
}

const RuleGroup& CodeState::groupOf(RecordIndex record, CodeField field) const {
  return rules.group(field == CodeField::registered ? records::kNoRecord : makerOf(record));
}

std::vector<std::uint32_t> CodeState::rulesFor(RecordIndex record, CodeField field) const {
  const RuleGroup& group = groupOf(record, field);
  std::vector<std::uint32_t> these = group.by[static_cast<std::size_t>(field)];
  if (field == CodeField::codeSeen) {
    const auto& booked = group.by[static_cast<std::size_t>(CodeField::code)];
    these.insert(these.end(), booked.begin(), booked.end());
    std::sort(these.begin(), these.end());
  }
  return these;
}

CodeReadings CodeReadings::read(const Chooser& chooser, diagnostics::Findings& findings) {
  auto state = std::make_shared<CodeState>(chooser);
  state->rules.compile(chooser.collection(), findings);
  checkMarkCodes(chooser.collection(), findings);
  readCodes(*state);
  CodeReadings readings;
  readings.state_ = std::move(state);
  return readings;
}

std::span<const MakerRule> CodeReadings::rules() const {
  return state_ ? state_->rules.shown() : std::span<const MakerRule>();
}

std::span<const CodeOnRecord> CodeReadings::all() const {
  return state_ ? std::span<const CodeOnRecord>(state_->all) : std::span<const CodeOnRecord>();
}

std::span<const CodeOnRecord> CodeReadings::of(RecordIndex record) const {
  const auto codes = all();
  const auto [begin, end] =
      std::equal_range(codes.begin(), codes.end(),
                       CodeOnRecord{.record = record, .value = nullptr, .readings = {}, .unlike = nullptr},
                       [](const CodeOnRecord& a, const CodeOnRecord& b) { return a.record < b.record; });
  return {begin, end};
}

std::vector<codes::Reading> CodeReadings::inFull(const CodeOnRecord& code) const {
  return state_ ? state_->inFull(code) : std::vector<codes::Reading>();
}

std::vector<Against> CodeReadings::against(const CodeOnRecord& code, const CodeReading& reading) const {
  if (reading.possible) return {};
  const auto which = static_cast<std::size_t>(&code - state_->all.data());
  const auto place = static_cast<std::size_t>(&reading - code.readings.data());
  for (const StruckOut& one : state_->struckOut)
    if (one.code == which && one.reading == place) return one.because;
  return state_->judge.against(state_->rules.of(*reading.rule), state_->inFull(code)[place],
                               state_->standingOf(code));
}

std::vector<const MakerRule*> CodeReadings::rulesFor(RecordIndex record, Field field) const {
  std::vector<const MakerRule*> rules;
  const auto which = codeFieldOf(field);
  if (!state_ || !which) return rules;
  for (std::uint32_t index : state_->rulesFor(record, *which)) rules.push_back(state_->rules[index].shown);
  return rules;
}

codes::Explanation CodeReadings::whyUnread(const CodeOnRecord& code, const MakerRule** rule) const {
  const Standing standing = state_->standingOf(code);
  std::vector<const MakerRule*> shown = rulesFor(code.record, code.field);
  std::erase_if(shown, [&](const MakerRule* one) {
    return std::any_of(code.readings.begin(), code.readings.end(),
                       [&](const CodeReading& reading) { return reading.rule == one; });
  });
  // Rules that hold for this record explain; those that may hold if none does.
  Answer best = Answer::no;
  for (const MakerRule* one : shown)
    best = either(best, state_->judge.where(state_->rules.of(*one), standing));
  std::erase_if(shown, [&](const MakerRule* one) {
    return state_->judge.where(state_->rules.of(*one), standing) != best;
  });
  std::vector<const codes::Rule*> rules;
  for (const MakerRule* one : shown) rules.push_back(&state_->rules.of(*one).explaining());
  const codes::Rule* which = nullptr;
  codes::Explanation told = codes::furthest(rules, code.value->text, &which);
  const auto found = std::find(rules.begin(), rules.end(), which);
  if (rule != nullptr && found != rules.end()) *rule = shown[static_cast<std::size_t>(found - rules.begin())];
  return told;
}

RecordIndex CodeReadings::makerOf(RecordIndex record) const {
  return state_ ? state_->makerOf(record) : records::kNoRecord;
}

RecordIndex CodeReadings::treatmentOf(RecordIndex record) const {
  return state_ ? state_->treatmentOf(record) : records::kNoRecord;
}

}  // namespace saggar::choosing
