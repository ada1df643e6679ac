#include <algorithm>

#include "base/text.h"
#include "compose/phrases.h"
#include "compose/words.h"

// Numbers and codes read out.
namespace saggar::compose {

using choosing::CodeOnRecord;
using choosing::CodeReading;
using records::Value;

namespace {

// Small letters for a part's name, which authors like to type in capitals.
std::string partName(std::string_view name) {
  std::string out(name);
  for (char& c : out)
    if (base::isUpper(c)) c = static_cast<char>(c - 'A' + 'a');
  return out;
}

bool saysText(const PublishedRecord& record, records::Field field, std::string_view wanted) {
  const Value* value = record.find(field);
  if (value == nullptr || !value->said()) return false;
  const auto each = value->each();
  return std::any_of(each.begin(), each.end(), [&](const Value& one) { return one.text == wanted; });
}

class Reader {
 public:
  Reader(const Words& words, const CodeOnRecord& code) : words_(words), records_(words.materials().records), code_(code) {}

  std::string reading(const CodeReading& one) const {
    std::vector<std::string> parts;
    const std::string date = one.reading.dateInWords();
    for (std::size_t i = 0; i < one.reading.parts.size(); ++i) {
      std::string part = partInWords(one, i);
      if (!part.empty()) parts.push_back(std::move(part));
    }
    if (!date.empty()) parts.push_back(date);
    return base::joined(parts, ", ");
  }

 private:
  // The records that a path such as shape.prefix, for.prefix or maker.works.letter starts from.
  std::string prefixHolder(std::string_view prefix) const {
    const PublishedRecord carrier = records_[code_.record];
    std::vector<RecordIndex> candidates;
    auto take = [&](const PublishedRecord& record, records::Field field) {
      if (const Value* value = record.find(field); value != nullptr && value->said())
        for (const Value& one : value->each())
          if (one.target() != records::kNoRecord) candidates.push_back(one.target());
    };
    auto all = [&](const PublishedRecord& record) {
      take(record, "shape"_f);
      take(record, "for"_f);
    };
    all(carrier);
    if (const Value* treatment = carrier.find("treatment"_f); treatment != nullptr && treatment->target() != records::kNoRecord)
      all(records_[treatment->target()]);
    for (RecordIndex one : candidates)
      if (saysText(records_[one], "prefix"_f, prefix)) return words_.plainName(one);
    return {};
  }

  std::string worksNamed(std::string_view letter) const {
    const RecordIndex maker = words_.materials().codes.makerOf(code_.record);
    if (maker == records::kNoRecord) return {};
    const Value* works = records_[maker].find("works"_f);
    if (works == nullptr || !works->said()) return {};
    for (const Value& one : works->each()) {
      const Value* own = one.find("letter"_f);
      if (own == nullptr || own->text != letter) continue;
      const Value* name = one.find("name"_f);
      if (name == nullptr || !name->said()) name = one.find("works"_f);
      return name == nullptr ? std::string() : std::string(name->text);
    }
    return {};
  }

  std::string partInWords(const CodeReading& one, std::size_t index) const {
    const codes::PartReading& part = one.reading.parts[index];
    for (const codes::PathNeed& need : one.reading.paths) {
      if (need.part != index) continue;
      if (need.last != 0) return part.text + " copied from the end of the supplier's number";
      std::string holder;
      for (const std::string& path : need.paths) {
        if (path.ends_with("prefix")) holder = prefixHolder(part.text);
        if (path.ends_with("works.letter")) holder = worksNamed(part.text);
        if (!holder.empty()) break;
      }
      return holder.empty() ? partName(part.name) + ' ' + part.text : part.text + " for " + holder;
    }
    std::string look;
    for (const codes::LookAsked& asked : one.reading.look) {
      if (asked.part != index) continue;
      const auto feature = records_.find(Kind::feature, asked.need->feature);
      look += (look.empty() ? "" : " and ") + Words::featureInWords(feature ? words_.plainFeature(*feature) : asked.need->feature, asked.need->values);
    }
    const bool ofLook = !look.empty() && (part.means.empty() || part.means.find(": ") != std::string::npos);
    if (ofLook) return part.text + " for " + look;
    const bool ofDate = !one.reading.date.empty() && part.means.empty();
    if (!part.means.empty()) return part.text + " for " + part.means;
    if (ofDate) return {};
    if (part.text.find_first_not_of("-/ .") == std::string::npos) return {};
    return partName(part.name) + ' ' + part.text;
  }

  const Words& words_;
  const Published& records_;
  const CodeOnRecord& code_;
};

}  // namespace

std::string Words::readingsInWords(const CodeOnRecord& code) const {
  struct Said {
    std::string words;
    std::vector<std::string> rules;
  };
  std::vector<Said> all;
  const Reader reader(*this, code);
  for (const CodeReading& one : code.readings) {
    if (!one.possible) continue;
    std::string words = reader.reading(one);
    auto found = std::find_if(all.begin(), all.end(), [&](const Said& said) { return said.words == words; });
    if (found == all.end()) found = all.insert(all.end(), {std::move(words), {}});
    if (one.rule != nullptr && std::find(found->rules.begin(), found->rules.end(), one.rule->name) == found->rules.end())
      found->rules.push_back(one.rule->name);
  }
  std::vector<std::string> parts;
  for (Said& said : all) {
    std::string words = std::move(said.words);
    if (all.size() > 1) words = "as a" + std::string(!said.rules.empty() && std::string_view("aeio").find(said.rules[0][0]) != std::string_view::npos ? "n " : " ") + base::listedInWords(said.rules, "or") + ", " + words;
    if (!words.empty()) parts.push_back(std::move(words));
  }
  std::string out = base::joined(parts, "; or ");
  if (code.more) out += "; and more ways to read it";
  return out;
}

Inlines Words::codeReadings(RecordIndex record) const {
  Inlines out;
  for (const CodeOnRecord& code : materials_->codes.of(record)) {
    if (code.value == nullptr) continue;
    if (!out.empty()) put(out, "; ");
    put(out, code.value->text);
    if (const std::string words = readingsInWords(code); !words.empty()) put(out, ": " + words);
  }
  return out;
}

}  // namespace saggar::compose
