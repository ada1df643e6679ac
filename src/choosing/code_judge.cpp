#include "choosing/code_judge.h"

#include <algorithm>

#include "base/text.h"
#include "choosing/flow.h"
#include "choosing/own_days.h"
#include "dates/print.h"
#include "linking/names.h"

namespace saggar::choosing {

using codes::PathNeed;
using dates::Day;
using linking::nameForAuthor;
using records::Entry;
using records::Field;
using records::Record;
using records::Value;
using records::ValueType;

namespace {

bool apart(const dates::Bounds& a, const dates::Bounds& b) {
  return a.latest < b.earliest || b.latest < a.earliest;
}

std::string inTicks(std::string_view text) {
  return '`' + base::shortened(text, 60) + '`';
}

// "supplier-number" of "motif.supplier-number" as a sentence has it.
std::string stepsInWords(std::string_view path) {
  std::string words(path.substr(path.find('.') + 1));
  std::replace(words.begin(), words.end(), '.', ' ');
  std::replace(words.begin(), words.end(), '-', ' ');
  return words;
}

// The words of a feature's value, dated or not.
void addWords(const Value& shown, std::vector<const Value*>& words) {
  for (const Value& one : shown.each()) {
    if (one.type != ValueType::mapping) {
      words.push_back(&one);
    } else if (const Value* is = one.find("is"_f)) {
      for (const Value& word : is->each()) words.push_back(&word);
    }
  }
}

}  // namespace

source::Span Judge::spanOf(RecordIndex record, const Value& value) const {
  return collection_[record].span(value.place);
}

const PartPaths& Judge::pathsOf(const CompiledRule& rule, std::string_view part) const {
  static const PartPaths kNone;
  for (const PartPaths& one : rule.paths)
    if (one.part == part) return one;
  return kNone;
}

bool Judge::look(const CompiledRule& rule, const codes::Reading& reading, const Standing& standing,
                 std::vector<Against>* all, bool works) const {
  bool possible = reads(rule, reading, all, works);
  if (!possible && all == nullptr) return false;
  possible &= dates(rule, standing, all);
  if (!possible && all == nullptr) return false;
  for (const PathNeed& need : reading.paths) {
    possible &= path(rule, reading, need, standing, all);
    if (!possible && all == nullptr) return false;
  }
  for (const codes::LookAsked& asked : reading.look) {
    possible &= feature(reading, asked, standing, all);
    if (!possible && all == nullptr) return false;
  }
  if (where(rule, standing) != Answer::no) return possible;
  if (all != nullptr) {
    all->push_back({.reason = Against::Reason::where,
                    .says = "the rule holds only where " + whereInWords(rule),
                    .span = {rule.whereFile, rule.whereValue->place.begin, rule.whereValue->place.end},
                    .record = rule.shown->maker,
                    .field = "codes"_f,
                    .value = rule.whereValue});
  }
  return false;
}

std::string Judge::whereInWords(const CompiledRule& rule) {
  constexpr std::size_t kMost = 200;
  return '`' + onOneLine(*rule.whereValue, kMost) + '`';
}

namespace {

std::string happenedWords(const Value& value) {
  return value.date() != nullptr ? dates::happened(*value.date()) : std::string(value.text);
}
std::string lastedWords(const Value& value) {
  return value.date() != nullptr ? dates::lasted(*value.date()) : std::string(value.text);
}

}  // namespace

// Whether its own date lies in the years of such codes, and of the works it names.
bool Judge::reads(const CompiledRule& rule, const codes::Reading& reading, std::vector<Against>* all,
                  bool works) const {
  if (!reading.when) return true;
  bool possible = true;
  auto against = [&](const std::string& who, const Value& used, Field field) {
    possible = false;
    if (all == nullptr) return;
    all->push_back({.reason = Against::Reason::used,
                    .says = "it would be of " + reading.dateInWords() + ", and " + who + lastedWords(used),
                    .span = spanOf(rule.shown->maker, used),
                    .record = rule.shown->maker,
                    .field = field,
                    .value = &used});
  };
  for (const PartTexts& table : rule.tables) {
    const codes::PartReading* part = reading.part(table.part);
    if (!works || part == nullptr || !part->row) continue;
    const MakerText& text = table.texts[*part->row];
    if (text.used != nullptr && apart(*reading.when, text.days))
      against((text.means.empty() ? inTicks(text.text) : text.means) + " was used ", *text.used, "works"_f);
  }
  if (rule.usedValue != nullptr && apart(*reading.when, rule.used))
    against("such codes were used ", *rule.usedValue, "codes"_f);
  return possible;
}

// The record's own dates against the years in which such codes were given. A code stays on the ware after it was
// given, so that a later piece says nothing against it.
bool Judge::dates(const CompiledRule& rule, const Standing& standing, std::vector<Against>* all) const {
  if (rule.usedValue == nullptr) return true;
  const dates::Options& options = collection_.settings().dates;
  bool possible = true;
  auto against = [&](RecordIndex record, Field field, std::string_view verb) {
    const Value* value = collection_[record].find(field);
    possible = false;
    if (all == nullptr) return;
    all->push_back({.reason = Against::Reason::used,
                    .says = nameForAuthor(collection_, record) + ' ' + std::string(verb) + ' ' +
                            happenedWords(*value) + ", and such codes were " +
                            (rule.on == CodeField::dateCode ? "used " : "given ") +
                            lastedWords(*rule.usedValue),
                    .span = spanOf(record, *value),
                    .record = record,
                    .field = field,
                    .value = value});
  };
  auto days = [&](RecordIndex record, Field field) {
    return momentDays(collection_[record].find(field), options);
  };
  const Record& own = collection_[standing.record];
  switch (rule.on) {
    case CodeField::code: {
      if (standing.treatment != records::kNoRecord) {
        const dates::Bounds booked = days(standing.treatment, "introduced"_f);
        if (booked.earliest > rule.used.latest) {
          against(standing.treatment, "introduced"_f, "was introduced");
        } else if (standing.booked && booked.latest < rule.used.earliest) {
          against(standing.treatment, "introduced"_f, "was introduced");
        } else if (!standing.booked && days(standing.treatment, "withdrawn"_f).latest < rule.used.earliest) {
          against(standing.treatment, "withdrawn"_f, "was last offered");
        }
      }
      if (own.kind == Kind::specimen && days(standing.record, "made"_f).latest < rule.used.earliest)
        against(standing.record, "made"_f, "was made");
      break;
    }
    case CodeField::codeSeen:
    case CodeField::dateCode:
      if (apart(days(standing.record, "made"_f), rule.used)) against(standing.record, "made"_f, "was made");
      break;
    case CodeField::registered:
      if (own.kind == Kind::specimen) {
        if (days(standing.record, "made"_f).latest < rule.used.earliest)
          against(standing.record, "made"_f, "was made");
      } else if (days(standing.record, "designed"_f).earliest > rule.used.latest) {
        against(standing.record, "designed"_f, "was designed");
      }
      break;
  }
  return possible;
}

bool Judge::path(const CompiledRule& rule, const codes::Reading& reading, const PathNeed& need,
                 const Standing& standing, std::vector<Against>* all) const {
  bool open = false;  // something is not known, and may be the text
  bool gave = false;  // some path gave a text
  std::vector<Against> said;
  std::string leftOut;
  const std::string_view part = reading.parts[need.part].name;
  auto note = [&](std::string says, RecordIndex record, const Value* value, Field field) {
    gave = true;
    if (all == nullptr) return;
    said.push_back({.reason = Against::Reason::path,
                    .says = std::move(says),
                    .span = value != nullptr ? spanOf(record, *value) : collection_[record].span(),
                    .record = record,
                    .field = field,
                    .value = value});
  };
  for (const PathChoice& choice : pathsOf(rule, part).paths) {
    if (choice.ofMaker) {
      if (makerPath(choice, rule, need, open, gave, said)) return true;
      continue;
    }
    RecordIndex from = standing.record;
    const Path* path = &choice.from[carrierOf(collection_[from].kind)];
    if (path->empty() && standing.treatment != records::kNoRecord) {
      from = standing.treatment;
      path = &choice.from[carrierOf(Kind::treatment)];
    }
    if (path->empty()) {
      open = true;
      continue;
    }
    const Value* reference = collection_[from].find(path->steps().front().field);
    open |= reference != nullptr && reference->isDoubted();
    std::vector<std::string> values;
    RecordIndex owner = records::kNoRecord;
    const Value* shown = nullptr;
    const Field lastField = path->steps().back().field;
    for (const Reached& reached : path->from(from, collection_)) {
      switch (reached.state) {
        case Reached::State::record:
          if (need.metBy(collection_[reached.record].id)) return true;
          owner = reached.record;
          values.emplace_back(collection_[reached.record].id);
          break;
        case Reached::State::value: {
          if (need.text == reached.value->text || need.metBy(reached.value->text)) return true;
          if (reached.value->isDoubted()) {
            open = true;
            break;
          }
          if (shown == nullptr) shown = reached.value;
          owner = reached.record;
          values.emplace_back(reached.value->text);
          break;
        }
        case Reached::State::unknown: open = true; break;
        case Reached::State::absent: {
          // A reference that the treatment itself leaves out is none; anything else may yet turn up.
          const bool first =
              !reached.whole && (reached.record == standing.record || reached.record == standing.treatment) &&
              records::specOf(collection_[reached.record].kind, path->steps().front().field) != nullptr;
          if (first) {
            leftOut = path->steps().front().field.name();
          } else {
            open = true;
          }
          break;
        }
        case Reached::State::none:
          if (reached.value == nullptr) {
            open |= !reached.whole;
          } else {
            note(nameForAuthor(collection_, reached.record) + " has no " +
                     (reached.whole ? stepsInWords(choice.text)
                                    : std::string(path->steps().front().field.name())),
                 reached.record, reached.value, lastField);
          }
          break;
      }
    }
    if (values.empty()) continue;
    gave = true;
    if (all == nullptr) continue;
    for (std::string& value : values) value = inTicks(value);
    if (values.size() > 4) {
      values.resize(4);
      values.back() = "…";
    }
    const std::string whose = "the " + stepsInWords(choice.text) + " of " +
                              nameForAuthor(collection_, owner) + " is " + base::listedInWords(values, "or");
    note(need.last == 0 ? whose + ", not " + inTicks(need.text)
                        : whose + ", which does not end in " + inTicks(need.text),
         owner, shown, lastField);
  }
  if (!gave || open) return true;
  if (all != nullptr) {
    if (!leftOut.empty() && !said.empty())
      said.back().says += ", and no other (`" + leftOut + "`) is recorded";
    all->insert(all->end(), std::make_move_iterator(said.begin()), std::make_move_iterator(said.end()));
  }
  return false;
}

// A path from the rule's own maker.
bool Judge::makerPath(const PathChoice& choice, const CompiledRule& rule, const PathNeed& need, bool& open,
                      bool& gave, std::vector<Against>& said) const {
  open |= choice.open;
  std::vector<std::string> texts;
  for (const MakerText& text : choice.texts) {
    if (need.metBy(text.text)) return true;
    if (texts.size() < 8) texts.push_back(inTicks(text.text));
  }
  if (texts.empty()) return false;
  gave = true;
  said.push_back({.reason = Against::Reason::path,
                  .says = "the " + stepsInWords(choice.text) + " of " +
                          nameForAuthor(collection_, rule.shown->maker) + " is " +
                          base::listedInWords(texts, "or") +
                          (need.last == 0 ? ", not " : ", which does not end in ") + inTicks(need.text),
                  .span = spanOf(rule.shown->maker, *choice.texts[0].value),
                  .record = rule.shown->maker,
                  .field = "codes"_f,
                  .value = choice.texts[0].value});
  return false;
}

bool Judge::feature(const codes::Reading& reading, const codes::LookAsked& asked, const Standing& standing,
                    std::vector<Against>* all) const {
  const Entry* entry = nullptr;
  RecordIndex owner = records::kNoRecord;
  for (RecordIndex record : {standing.record, standing.treatment}) {
    if (record == records::kNoRecord || entry != nullptr) continue;
    const Value* look = collection_[record].find("look"_f);
    if (look == nullptr) continue;
    for (const Entry& one : look->entries())
      if (one.key == asked.need->feature) entry = &one;
    owner = record;
  }
  if (entry == nullptr || entry->value.isDoubted()) return true;
  std::vector<const Value*> words;
  addWords(entry->value, words);
  std::vector<std::string> shown;
  for (const Value* word : words) {
    if (word->type != ValueType::text && word->type != ValueType::none) return true;
    if (word->isDoubted()) return true;
    const std::string folded = base::folded(word->text);
    for (const std::string& wanted : asked.need->values)
      if (word->text == wanted || folded == base::folded(wanted)) return true;
    shown.push_back(inTicks(word->text));
  }
  if (words.empty()) return true;
  if (all != nullptr) {
    const codes::PartReading& part = reading.parts[asked.part];
    std::vector<std::string> wanted;
    for (const std::string& value : asked.need->values) wanted.push_back(inTicks(value));
    all->push_back({.reason = Against::Reason::look,
                    .says = inTicks(part.text) + " (" + std::string(part.name) + ") means the " +
                            asked.need->feature + " is " + base::listedInWords(wanted, "or") + ", but " +
                            (collection_[owner].kind == Kind::specimen ? "the piece" : "the look") + " has " +
                            base::listedInWords(shown, "or"),
                    .span = spanOf(owner, entry->value),
                    .record = owner,
                    .field = "look"_f,
                    .value = &entry->value});
  }
  return false;
}

Answer Judge::where(const CompiledRule& rule, const Standing& standing) const {
  if (rule.whereValue == nullptr) return Answer::yes;
  const bool ofTreatment = rule.on == CodeField::code && standing.treatment != records::kNoRecord;
  const RecordIndex asked = ofTreatment ? standing.treatment : standing.record;
  const WhereOf& where = rule.where[carrierOf(collection_[asked].kind)];
  if (!where.asked) return Answer::maybe;
  const Answer answer = where.condition.agrees(asked, collection_, bounds_);
  return answer == Answer::no && where.partly ? Answer::maybe : answer;
}

}  // namespace saggar::choosing
