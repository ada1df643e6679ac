#include <algorithm>
#include <unordered_map>

#include "choosing/code_state.h"
#include "choosing/parallel.h"
#include "codes/signs.h"

// The problem: a guide has a hundred thousand codes on a hundred thousand records, most of them the same few texts
// again on specimen after specimen, and each is asked of several rules. The choice: codes are gathered first, each text
// is read once by each group of rules, whether a reading can be meant is asked of every record that bears the text, and
// of the reading little is kept; in parallel shares, put together in order. The cost: what is kept of one text is
// shared, so that a reading is a reference, and its parts are read again where they are wanted.
namespace saggar::choosing {

using records::Field;
using records::Record;
using records::Value;
using records::ValueType;

namespace {

constexpr std::size_t kRecordsAShare = 4096;
constexpr std::size_t kTextsAShare = 512;

// What is read once: a text by those rules of one maker that read one field.
struct TextKey {
  std::string_view text;
  RecordIndex maker;
  CodeField on;
  bool operator==(const TextKey&) const = default;
};

struct TextHash {
  std::size_t operator()(const TextKey& key) const {
    return std::hash<std::string_view>()(key.text) * 31 + key.maker * 0x9E3779B97F4A7C15ULL +
           static_cast<std::size_t>(key.on);
  }
};

struct ReadText {
  TextKey key;
  std::uint32_t holders = 0;  // codes that are this text
  std::vector<KeptReading> readings;
  std::vector<std::uint32_t> rules;  // the rule of each, rising
  std::vector<bool> possible;        // of each holder, each reading
  const std::string* unlike = nullptr;
  bool more = false;
};

// A code as gathered: its place, and where its text is read.
struct Found {
  RecordIndex record;
  CodeField field;
  const Value* value;
  RecordIndex maker;  // whose rules: kNoRecord for all
};

void gather(const CodeState& state, RecordIndex record, std::vector<Found>& out) {
  const Record& one = state.collection[record];
  if (carrierOf(one.kind) == kCarriers.size()) return;
  std::optional<RecordIndex> maker;
  const std::size_t before = out.size();
  for (const records::Entry& entry : one.fields) {
    if (!entry.known) continue;
    const auto field = codeFieldOf(entry.field);
    if (!field) continue;
    for (const Value& value : entry.value.each()) {
      if (value.type != ValueType::text || value.text.empty()) continue;
      if (*field != CodeField::registered && !maker) maker = state.makerOf(record);
      out.push_back({record, *field, &value, *field == CodeField::registered ? records::kNoRecord : *maker});
    }
  }
  std::stable_sort(out.begin() + static_cast<std::ptrdiff_t>(before), out.end(),
                   [](const Found& a, const Found& b) { return a.field < b.field; });
}

// Which texts a code is read as: its own field's rules, and of a code seen on a piece also those of the treatments.
// Which of the text's holders it is stands beside each.
struct TextOf {
  std::uint32_t text = UINT32_MAX;
  std::uint32_t holder = 0;
};
struct Texts {
  TextOf own, booked;
};

KeptReading kept(const CompiledRule& rule, codes::Reading&& full) {
  KeptReading reading{full.date, std::move(full.number), std::move(full.key), std::move(full.alone), nullptr};
  for (const PartTexts& table : rule.tables) {
    const codes::PartReading* part = full.part(table.part);
    if (part != nullptr && part->row && table.texts[*part->row].used != nullptr)
      reading.worksUsed = table.texts[*part->row].used;
  }
  return reading;
}

class Reader {
 public:
  explicit Reader(CodeState& state) : state_(state) {}

  void run() {
    gatherAll();
    findTexts();
    listHolders();
    inShares(texts_.size(), kTextsAShare, [&](std::size_t begin, std::size_t end, std::size_t) {
      for (std::size_t i = begin; i < end; ++i) readText(i);
    });
    keepTexts();
    putTogether();
    keepLast();
  }

 private:
  void gatherAll() {
    const std::size_t count = state_.collection.size();
    std::vector<std::vector<Found>> shares(sharesOf(count, kRecordsAShare));
    inShares(count, kRecordsAShare, [&](std::size_t begin, std::size_t end, std::size_t share) {
      for (std::size_t i = begin; i < end; ++i) gather(state_, static_cast<RecordIndex>(i), shares[share]);
    });
    for (std::vector<Found>& share : shares) {
      found_.insert(found_.end(), share.begin(), share.end());
      std::vector<Found>().swap(share);
    }
    state_.all.resize(found_.size());
    for (std::size_t i = 0; i < found_.size(); ++i) {
      state_.all[i].record = found_[i].record;
      state_.all[i].field = kCodeFieldNames[static_cast<std::size_t>(found_[i].field)];
      state_.all[i].value = found_[i].value;
    }
  }

  TextOf textOf(const Found& found, CodeField on) {
    if (state_.rules.group(found.maker).by[static_cast<std::size_t>(on)].empty()) return {};
    const TextKey key{found.value->text, found.maker, on};
    const auto [place, fresh] = byKey_.emplace(key, static_cast<std::uint32_t>(texts_.size()));
    if (fresh) texts_.emplace_back().key = key;
    return {place->second, texts_[place->second].holders++};
  }

  void findTexts() {
    of_.reserve(found_.size());
    byKey_.reserve(found_.size());
    for (const Found& found : found_) {
      Texts texts{textOf(found, found.field), {}};
      if (found.field == CodeField::codeSeen) texts.booked = textOf(found, CodeField::code);
      of_.push_back(texts);
    }
    byKey_ = {};
  }

  // The codes that are a text are holders_[begins_[text] …], in their order.
  void listHolders() {
    begins_.reserve(texts_.size() + 1);
    begins_.push_back(0);
    for (const ReadText& text : texts_) begins_.push_back(begins_.back() + text.holders);
    holders_.resize(begins_.back());
    for (std::size_t i = 0; i < of_.size(); ++i)
      for (const TextOf& one : {of_[i].own, of_[i].booked})
        if (one.text != UINT32_MAX) holders_[begins_[one.text] + one.holder] = static_cast<std::uint32_t>(i);
  }

  // Every way in which a text can be read, and which of them each of its holders can mean.
  void readText(std::size_t index) {
    ReadText& text = texts_[index];
    std::vector<codes::Reading> full;
    for (std::uint32_t which : state_.rules.group(text.key.maker).by[static_cast<std::size_t>(text.key.on)]) {
      const CompiledRule& rule = state_.rules[which];
      if (rule.quick.mayFit(text.key.text)) {
        codes::Readings found = rule.rule.read(text.key.text, kMostKept);
        text.more |= found.more;
        for (codes::Reading& reading : found.all) {
          full.push_back(std::move(reading));
          text.rules.push_back(which);
        }
        if (found.notOfRule.empty()) continue;
      }
      // Few rules have such a list, and none of them is long.
      if (!rule.rule.spec().unlike) continue;
      for (const codes::UnlikeText& unlike : *rule.rule.spec().unlike)
        if (text.unlike == nullptr && codes::foldedKey(unlike.text) == codes::foldedKey(text.key.text))
          text.unlike = &unlike.because;
    }
    text.possible.reserve(text.holders * full.size());
    for (std::size_t holder = begins_[index]; holder < begins_[index + 1]; ++holder) {
      const Standing standing = state_.standingOf(state_.all[holders_[holder]]);
      for (std::size_t i = 0; i < full.size(); ++i)
        text.possible.push_back(state_.judge.possible(state_.rules[text.rules[i]], full[i], standing));
    }
    text.readings.reserve(full.size());
    for (std::size_t i = 0; i < full.size(); ++i)
      text.readings.push_back(kept(state_.rules[text.rules[i]], std::move(full[i])));
  }

  // One after the other; firstKept_ says where those of each text begin.
  void keepTexts() {
    std::size_t count = 0;
    for (const ReadText& text : texts_) count += text.readings.size();
    state_.kept.reserve(count);
    firstKept_.reserve(texts_.size());
    for (ReadText& text : texts_) {
      firstKept_.push_back(state_.kept.size());
      std::move(text.readings.begin(), text.readings.end(), std::back_inserter(state_.kept));
      std::vector<KeptReading>().swap(text.readings);
    }
  }

  void putTogether() {
    std::size_t count = 0;
    for (const ReadText& text : texts_) count += text.holders * text.rules.size();
    state_.readings.reserve(count);
    for (std::size_t i = 0; i < found_.size(); ++i) joinReadings(i);
  }

  // The readings of both texts of a code, in the order of the rules.
  void joinReadings(std::size_t i) {
    const Found& found = found_[i];
    CodeOnRecord& code = state_.all[i];
    const std::size_t first = state_.readings.size();
    bool any = false;
    const Texts texts = of_[i];
    auto rulesOf = [&](TextOf one) {
      return one.text == UINT32_MAX ? std::span<const std::uint32_t>()
                                    : std::span<const std::uint32_t>(texts_[one.text].rules);
    };
    auto add = [&](TextOf one, std::size_t reading) {
      const ReadText& text = texts_[one.text];
      const bool possible = text.possible[one.holder * text.rules.size() + reading];
      any |= possible;
      state_.readings.push_back(CodeReading{state_.rules[text.rules[reading]].shown,
                                            state_.kept[firstKept_[one.text] + reading], possible});
    };
    const auto ownRules = rulesOf(texts.own);
    const auto bookedRules = rulesOf(texts.booked);
    std::size_t own = 0;
    std::size_t booked = 0;
    while (own < ownRules.size() || booked < bookedRules.size()) {
      const bool takeOwn =
          booked == bookedRules.size() || (own < ownRules.size() && ownRules[own] < bookedRules[booked]);
      if (takeOwn) {
        add(texts.own, own++);
      } else {
        add(texts.booked, booked++);
      }
    }
    code.readings = std::span<const CodeReading>(state_.readings).subspan(first);
    for (const TextOf& one : {texts.own, texts.booked}) {
      if (one.text == UINT32_MAX) continue;
      code.applies = true;
      code.more |= texts_[one.text].more;
      if (code.unlike == nullptr) code.unlike = texts_[one.text].unlike;
    }
    // What could not be read of the rules or of the record may be what makes it possible.
    const Standing standing = state_.standingOf(code);
    const bool unsure =
        state_.rules.group(found.maker).incomplete || state_.collection[found.record].broken ||
        (standing.treatment != records::kNoRecord && state_.collection[standing.treatment].broken);
    if (!any && unsure) code.applies = false;
  }

  // The years of a works rule a reading out, but not the last that is left of all that the eye allows: that one binds,
  // and is told as a clash of dates.
  void keepLast() {
    for (std::size_t begin = 0; begin < state_.all.size();) {
      std::size_t end = begin + 1;
      while (end < state_.all.size() && state_.all[end].record == state_.all[begin].record &&
             state_.all[end].field == state_.all[begin].field)
        ++end;
      if (state_.all[begin].field == "date-code"_f) keepLastOf(begin, end);
      begin = end;
    }
  }

  void keepLastOf(std::size_t begin, std::size_t end) {
    const CodeReading* last = nullptr;
    CodeOnRecord* on = nullptr;
    for (std::size_t i = begin; i < end; ++i) {
      CodeOnRecord& code = state_.all[i];
      if (std::any_of(code.readings.begin(), code.readings.end(),
                      [](const auto& one) { return one.possible; }))
        return;
      const Standing standing = state_.standingOf(code);
      const std::vector<codes::Reading> full = state_.inFull(code);
      for (std::size_t r = 0; r < full.size(); ++r) {
        const CodeReading& reading = code.readings[r];
        if (!state_.judge.possibleButForWorks(state_.rules.of(*reading.rule), full[r], standing)) continue;
        if (last != nullptr) return;
        last = &reading;
        on = &code;
      }
    }
    if (last == nullptr) return;
    state_.readings[static_cast<std::size_t>(last - state_.readings.data())].possible = true;
    on->applies = true;
  }

  CodeState& state_;
  std::vector<Found> found_;
  std::vector<Texts> of_;
  std::vector<ReadText> texts_;
  std::unordered_map<TextKey, std::uint32_t, TextHash> byKey_;
  std::vector<std::uint32_t> holders_;
  std::vector<std::size_t> begins_;
  std::vector<std::size_t> firstKept_;
};

}  // namespace

void readCodes(CodeState& state) {
  Reader(state).run();
}

}  // namespace saggar::choosing
