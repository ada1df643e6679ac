#include <algorithm>
#include <deque>
#include <tuple>

#include "base/text.h"
#include "checks/rules.h"
#include "codes/signs.h"
#include "linking/names.h"
#include "study/looks.h"

// One number on two different decorations. Only what is recorded of both tells them apart.
//
// Numbers are sorted, not looked up: nearly all of a hundred thousand stand on one decoration and are never looked at
// again.
namespace saggar::checks {

using choosing::CodeOnRecord;
using choosing::CodeReading;
using records::Record;
using records::RecordIndex;
using records::Value;
using records::ValueType;

namespace {

struct Holder {
  RecordIndex record;
  const Value* code;
};

// A number on one decoration. Sorted by its hash, so that texts are compared only where they are the same.
struct Held {
  std::size_t hash;
  std::string_view text;  // folded
  RecordIndex maker;
  std::uint32_t code;  // in all()
  bool alone;
  auto same() const { return std::tie(hash, text, maker, alone); }
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

bool differ(const std::vector<RecordIndex>& a, const std::vector<RecordIndex>& b) {
  if (a.empty() || b.empty()) return false;
  return std::none_of(a.begin(), a.end(),
                      [&](RecordIndex one) { return std::find(b.begin(), b.end(), one) != b.end(); });
}

class Look {
 public:
  Look(const Context& context, diagnostics::Findings& findings)
      : all_(context.collection), codes_(context.codes), looks_(context.collection), findings_(findings) {}

  void run() {
    gather();
    std::vector<std::vector<RecordIndex>> reported;
    for (const Number& number : shared()) {
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

 private:
  void gather() {
    const auto all = codes_.all();
    held_.reserve(all.size());
    for (std::size_t i = 0; i < all.size(); ++i)
      if (all[i].field == "code"_f && !all_[all[i].record].broken) add(all[i], static_cast<std::uint32_t>(i));
    std::sort(held_.begin(), held_.end(), [](const Held& a, const Held& b) {
      return a.same() != b.same() ? a.same() < b.same() : a.code < b.code;
    });
  }

  void add(const CodeOnRecord& code, std::uint32_t index) {
    const RecordIndex maker = codes_.makerOf(code.record);
    if (maker == records::kNoRecord) return;
    const bool possible = code.possibleCount() != 0;
    bool any = false;
    for (const CodeReading& reading : code.readings) {
      if (possible && !reading.possible) continue;
      any = true;
      hold(false, reading.reading.key, maker, index);
      if (!reading.reading.alone.empty()) hold(true, reading.reading.alone, maker, index);
    }
    if (!any) hold(false, unread_.emplace_back(codes::foldedKey(code.value->text)), maker, index);
  }

  void hold(bool alone, std::string_view text, RecordIndex maker, std::uint32_t code) {
    if (text.find('?') == std::string_view::npos)
      held_.push_back({std::hash<std::string_view>()(text), text, maker, code, alone});
  }

  // What stands on several records: those that stand for a motif first, then as they turn up.
  std::vector<Number> shared() const {
    std::vector<std::pair<std::uint32_t, Number>> found;
    for (auto first = held_.begin(); first != held_.end();) {
      const auto end =
          std::find_if(first, held_.end(), [&](const Held& other) { return other.same() != first->same(); });
      Number number{first->alone, {}, {}};
      for (auto held = first; held != end; ++held) {
        const CodeOnRecord& code = codes_.all()[held->code];
        if (number.holders.empty() || number.holders.back().record != code.record)
          number.holders.push_back({code.record, code.value});
      }
      if (number.holders.size() > 1) {
        const std::string_view typed = number.holders[0].code->text;
        number.text = first->alone ? asTyped(first->text, typed) : std::string(typed);
        found.emplace_back(first->code, std::move(number));
      }
      first = end;
    }
    std::sort(found.begin(), found.end(), [](const auto& a, const auto& b) {
      return std::tuple(!a.second.alone, a.first, std::string_view(a.second.text)) <
             std::tuple(!b.second.alone, b.first, std::string_view(b.second.text));
    });
    std::vector<Number> numbers;
    for (auto& one : found) numbers.push_back(std::move(one.second));
    return numbers;
  }

  // The part of a code as it is typed in it.
  static std::string asTyped(std::string_view key, std::string_view typed) {
    auto small = [](char c) { return base::isUpper(c) ? static_cast<char>(c - 'A' + 'a') : c; };
    const auto found = std::search(typed.begin(), typed.end(), key.begin(), key.end(),
                                   [&](char a, char b) { return small(a) == small(b); });
    return found == typed.end()
               ? std::string(key)
               : std::string(typed.substr(static_cast<std::size_t>(found - typed.begin()), key.size()));
  }

  // In what two of the holders certainly differ; empty if no two do.
  std::string difference(const Number& number) {
    constexpr std::size_t kMostCompared = 50;  // a number on more than that differs at once or not at all
    const std::size_t count = std::min(number.holders.size(), kMostCompared);
    for (std::size_t i = 0; i < count; ++i) {
      for (std::size_t j = i + 1; j < count; ++j) {
        const Record& a = all_[number.holders[i].record];
        const Record& b = all_[number.holders[j].record];
        if (differ(targets(a.find("motif"_f)), targets(b.find("motif"_f)))) return "motif";
        if (number.alone) continue;
        if (differ(targets(a.find("shape"_f)), targets(b.find("shape"_f)))) return "shape";
        const study::Row look = looks_.rowOf(number.holders[i].record);
        const study::Row other = looks_.rowOf(number.holders[j].record);
        for (const study::Recorded& one : look) {
          const study::Recorded* same = study::find(other, one.feature);
          if (same != nullptr && study::disjoint(one.values, same->values))
            return std::string(all_[one.feature].id);
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
  study::Looks looks_;
  diagnostics::Findings& findings_;
  std::vector<Held> held_;
  std::deque<std::string> unread_;  // texts of codes that cannot be read
};

}  // namespace

void codeShared(const Context& context, diagnostics::Findings& findings) {
  Look(context, findings).run();
}

}  // namespace saggar::checks
