#include <algorithm>
#include <unordered_map>

#include "base/text.h"
#include "checks/rules.h"
#include "codes/signs.h"
#include "linking/names.h"

// One number on two different decorations. Only what is recorded of both tells them apart.
namespace saggar::checks {

using choosing::CodeOnRecord;
using choosing::CodeReading;
using records::Entry;
using records::Record;
using records::RecordIndex;
using records::Value;
using records::ValueType;

namespace {

struct Holder {
  RecordIndex record;
  const Value* code;
};

// What shares a number: all codes that are the same under one maker, or whose part that may stand alone is.
struct Number {
  bool alone = false;
  std::string text;
  std::vector<Holder> holders;
};

bool certain(const Value* value) {
  return value != nullptr && (value->said() || value->type == ValueType::none) && !value->isDoubted();
}

// The targets of a reference; `none` is one of its own. Empty if it is not known.
std::vector<RecordIndex> targets(const Value* value) {
  std::vector<RecordIndex> all;
  if (!certain(value)) return all;
  for (const Value& one : value->each()) {
    if (one.type != ValueType::none && one.target() == records::kNoRecord) return {};
    if (!certain(&one)) return {};
    all.push_back(one.target());
  }
  return all;
}

template <class T>
bool disjoint(const std::vector<T>& a, const std::vector<T>& b) {
  if (a.empty() || b.empty()) return false;
  return std::none_of(a.begin(), a.end(),
                      [&](const T& one) { return std::find(b.begin(), b.end(), one) != b.end(); });
}

std::vector<std::string> words(const Value& shown) {
  std::vector<std::string> all;
  for (const Value& one : shown.each()) {
    const Value* is = one.type == ValueType::mapping ? one.find("is"_f) : &one;
    if (is == nullptr) return {};
    for (const Value& word : is->each()) {
      if (!certain(&word) || (word.type != ValueType::text && word.type != ValueType::none)) return {};
      all.push_back(base::folded(word.text));
    }
  }
  return all;
}

class Look {
 public:
  Look(const Context& context, diagnostics::Findings& findings)
      : all_(context.collection), codes_(context.codes), findings_(findings) {}

  void run() {
    for (const CodeOnRecord& code : codes_.all())
      if (code.field == "code"_f && !all_[code.record].broken) add(code);
    std::vector<std::vector<RecordIndex>> reported;
    for (const bool alone : {true, false}) {
      for (const Number& number : numbers_) {
        if (number.alone != alone || number.holders.size() < 2) continue;
        std::vector<RecordIndex> holders;
        for (const Holder& holder : number.holders) holders.push_back(holder.record);
        std::sort(holders.begin(), holders.end());
        const bool known = std::any_of(reported.begin(), reported.end(), [&](const auto& other) {
          return std::includes(other.begin(), other.end(), holders.begin(), holders.end());
        });
        if (known) continue;
        const std::string how = difference(number);
        if (how.empty()) continue;
        report(number, how);
        reported.push_back(std::move(holders));
      }
    }
  }

 private:
  void add(const CodeOnRecord& code) {
    const RecordIndex maker = codes_.makerOf(code.record);
    if (maker == records::kNoRecord) return;
    const bool possible = code.possibleCount() != 0;
    std::vector<std::string> keys;
    std::vector<std::string> alones;
    for (const CodeReading& reading : code.readings) {
      if (possible && !reading.possible) continue;
      keys.push_back(reading.reading.key);
      if (!reading.reading.alone.empty()) alones.push_back(reading.reading.alone);
    }
    if (keys.empty()) keys.push_back(codes::foldedKey(code.value->text));
    for (auto* list : {&keys, &alones}) {
      std::sort(list->begin(), list->end());
      list->erase(std::unique(list->begin(), list->end()), list->end());
      for (const std::string& key : *list) {
        if (key.find('?') == std::string::npos) hold(list == &alones, maker, key, code);
      }
    }
  }

  void hold(bool alone, RecordIndex maker, const std::string& key, const CodeOnRecord& code) {
    const auto [place, fresh] =
        byKey_.emplace((alone ? "a" : "c") + std::to_string(maker) + ' ' + key, numbers_.size());
    if (fresh)
      numbers_.push_back({alone, alone ? asTyped(key, code.value->text) : std::string(code.value->text), {}});
    std::vector<Holder>& holders = numbers_[place->second].holders;
    if (holders.empty() || holders.back().record != code.record) holders.push_back({code.record, code.value});
  }

  // The part of a code as it is typed in it.
  static std::string asTyped(const std::string& key, std::string_view typed) {
    auto small = [](char c) { return base::isUpper(c) ? static_cast<char>(c - 'A' + 'a') : c; };
    const auto found = std::search(typed.begin(), typed.end(), key.begin(), key.end(),
                                   [&](char a, char b) { return small(a) == small(b); });
    return found == typed.end()
               ? key
               : std::string(typed.substr(static_cast<std::size_t>(found - typed.begin()), key.size()));
  }

  // In what two of the holders certainly differ; empty if no two do.
  std::string difference(const Number& number) const {
    constexpr std::size_t kMostCompared = 50;  // a number on more than that differs at once or not at all
    const std::size_t count = std::min(number.holders.size(), kMostCompared);
    for (std::size_t i = 0; i < count; ++i) {
      for (std::size_t j = i + 1; j < count; ++j) {
        const Record& a = all_[number.holders[i].record];
        const Record& b = all_[number.holders[j].record];
        if (disjoint(targets(a.find("motif"_f)), targets(b.find("motif"_f)))) return "motif";
        if (number.alone) continue;
        if (disjoint(targets(a.find("shape"_f)), targets(b.find("shape"_f)))) return "shape";
        const Value* look = a.find("look"_f);
        const Value* other = b.find("look"_f);
        if (!certain(look) || !certain(other)) continue;
        for (const Entry& entry : look->entries()) {
          const Value* same = other->find(entry.key);
          if (same != nullptr && certain(same) && certain(&entry.value) &&
              disjoint(words(entry.value), words(*same)))
            return std::string(entry.key);
        }
      }
    }
    return {};
  }

  std::string called(const Holder& holder) const {
    const Record& record = all_[holder.record];
    std::string words = '`' + std::string(record.id) + '`';
    const Value* motif = record.find("motif"_f);
    if (motif == nullptr) return words;
    if (motif->type == ValueType::none) return words + " (no motif)";
    if (motif->target() == records::kNoRecord) return words;
    return words + " (" + linking::plainName(all_, motif->target()) + ")";
  }

  void report(const Number& number, const std::string& how) {
    std::vector<Holder> holders = number.holders;
    constexpr std::size_t kMostNamed = 6;
    std::vector<std::string> names;
    for (const Holder& holder : holders) {
      if (names.size() == kMostNamed) break;
      names.push_back(called(holder));
    }
    std::string listed = base::listedInWords(names);
    if (holders.size() > kMostNamed)
      listed = base::joined(names, ", ") + " and " + std::to_string(holders.size() - kMostNamed) + " more";
    const Holder& last = holders.back();
    const Record& record = all_[last.record];
    diagnostics::Finding finding{
        .rule = "code-shared"_rule,
        .span = record.span(last.code->place),
        .message = '`' + number.text + "` stands for " +
                   (number.alone ? "more than one motif: " : "more than one decoration: ") + listed +
                   (number.alone ? std::string() : ", which differ in " + how),
        .hint =
            "one of the codes is mistyped, or these records are one; if the maker did use a number twice, "
            "say so under `waivers` in guide.yaml",
        .record = record.reference(),
        .field = "code"};
    for (const Holder& holder : holders) {
      const Record& one = all_[holder.record];
      finding.records.push_back(one.reference());
      finding.facts.push_back(
          {one.reference(), "code", std::string(holder.code->text), {}, one.span(holder.code->place)});
      if (holder.record != last.record)
        finding.related.push_back({one.span(holder.code->place), "the same number stands here"});
    }
    findings_.add(std::move(finding));
  }

  const linking::Collection& all_;
  const choosing::CodeReadings& codes_;
  diagnostics::Findings& findings_;
  std::vector<Number> numbers_;
  std::unordered_map<std::string, std::size_t> byKey_;
};

}  // namespace

void codeShared(const Context& context, diagnostics::Findings& findings) {
  Look(context, findings).run();
}

}  // namespace saggar::checks
