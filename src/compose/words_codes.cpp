#include <algorithm>
#include <cstdint>

#include "base/text.h"
#include "compose/code_dates.h"
#include "compose/phrases.h"
#include "compose/words.h"
#include "dates/print.h"

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
  Reader(const Words& words, const CodeOnRecord& code)
      : words_(words),
        records_(words.materials().records),
        code_(code),
        full_(words.materials().codes.inFull(code)) {}

  // Part by part, without the date.
  std::vector<std::string> reading(const CodeReading& one) const {
    std::vector<std::string> parts;
    const codes::Reading& full = full_[static_cast<std::size_t>(&one - code_.readings.data())];
    const std::string date = full.dateInWords();
    const bool whole =
        full.parts.size() == 1 && full.parts[0].means.empty() && full.paths.empty() && date.empty();
    if (whole && one.rule != nullptr) return {withArticle(one.rule->name)};
    for (std::size_t i = 0; i < full.parts.size(); ++i) {
      std::string part = partInWords(full, i, date);
      if (!part.empty()) parts.push_back(std::move(part));
    }
    return parts;
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
    if (const Value* treatment = carrier.find("treatment"_f);
        treatment != nullptr && treatment->target() != records::kNoRecord)
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

  // Of a date code the date is what matters: its parts are not spelt out, only who is meant by a letter.
  std::string partInWords(const codes::Reading& reading, std::size_t index, const std::string& date) const {
    const codes::PartReading& part = reading.parts[index];
    for (const codes::PathNeed& need : reading.paths) {
      if (need.part != index) continue;
      if (need.last != 0) return part.text + " copied from the end of the supplier's number";
      std::string holder;
      for (const std::string& path : need.paths) {
        if (path.ends_with("prefix")) holder = prefixHolder(part.text);
        if (path.ends_with("works.letter")) holder = worksNamed(part.text);
        if (!holder.empty()) break;
      }
      if (!date.empty() && !holder.empty()) return holder;
      return holder.empty() ? partName(part.name) + ' ' + part.text : part.text + " for " + holder;
    }
    if (!date.empty()) return date.find(part.means) == std::string::npos ? part.means : std::string();
    const std::string look = words_.lookAskedFor(reading, index);
    const bool ofLook = !look.empty() && (part.means.empty() || part.means.find(": ") != std::string::npos);
    if (ofLook) return part.text + " for " + look;
    if (!part.means.empty()) return part.text + " for " + part.means;
    if (part.text.find_first_not_of("-/ .") == std::string::npos) return {};
    return partName(part.name) + ' ' + part.text;
  }

  const Words& words_;
  const Published& records_;
  const CodeOnRecord& code_;
  std::vector<codes::Reading> full_;
};

}  // namespace

std::string Words::lookAskedFor(const codes::Reading& reading, std::size_t part) const {
  std::string look;
  for (const codes::LookAsked& asked : reading.look) {
    if (asked.part != part) continue;
    const auto feature = materials_->records.find(Kind::feature, asked.need->feature);
    const std::string words =
        featureInWords(feature ? plainFeature(*feature) : asked.need->feature, asked.need->values);
    const bool bare = words.starts_with("no ") || words.starts_with("with ") || words.ends_with('s') ||
                      words.find('(') != std::string::npos;
    look += (look.empty() ? "" : " and ") + (bare ? words : withArticle(words));
  }
  return look;
}

namespace {

std::string together(const std::vector<std::string>& parts) {
  const bool nested = std::any_of(parts.begin(), parts.end(), [](const std::string& part) {
    return part.find(',') != std::string::npos;
  });
  return base::joined(parts, nested ? "; " : ", ");
}

}  // namespace

namespace {

// A reading, or several that differ in their date alone.
struct Said {
  std::vector<std::string> parts;
  std::vector<codes::DateChoice> dates;
  std::vector<std::string> rules;
};

std::vector<Said> saidBy(const Reader& reader, const CodeOnRecord& code) {
  std::vector<Said> all;
  for (const CodeReading& one : code.readings) {
    if (!one.possible) continue;
    std::vector<std::string> parts = reader.reading(one);
    auto found = std::find_if(all.begin(), all.end(), [&](const Said& said) {
      return said.parts == parts && said.dates.empty() == one.reading.date.empty();
    });
    if (found == all.end()) found = all.insert(all.end(), {std::move(parts), {}, {}});
    if (!one.reading.date.empty()) found->dates.push_back(one.reading.date);
    if (one.rule != nullptr &&
        std::find(found->rules.begin(), found->rules.end(), one.rule->name) == found->rules.end())
      found->rules.push_back(one.rule->name);
  }
  for (Said& said : all)
    if (!said.dates.empty()) said.parts.push_back(datesOfCode(std::move(said.dates)));
  return all;
}

// What stands in one place of several readings: "serial 203, or 203 copied from …"; a sign that cannot be read makes
// many, of which some are named.
std::string alternatives(const std::vector<std::string>& parts) {
  constexpr std::size_t kMost = 4;
  // "? for no line, gold or platinum": the sign is the same, and named once.
  const std::size_t sign = parts[0].find(" for ");
  if (sign != std::string::npos && std::all_of(parts.begin(), parts.end(), [&](const std::string& part) {
        return part.compare(0, sign + 5, parts[0], 0, sign + 5) == 0 && part.find(',') == std::string::npos;
      })) {
    std::vector<std::string> meanings;
    for (const std::string& part : parts) meanings.push_back(part.substr(sign + 5));
    if (meanings.size() > kMost + 1) {
      meanings.resize(kMost);
      meanings.push_back("one of " + countedInWords(parts.size() - kMost, "other", "others"));
    }
    return parts[0].substr(0, sign + 5) + base::listedInWords(meanings, "or");
  }
  if (parts.size() <= kMost + 1) return base::joined(parts, ", or ");
  return base::joined({parts.begin(), parts.begin() + kMost}, ", or ") + ", or one of " +
         countedInWords(parts.size() - kMost, "other", "others");
}

}  // namespace

std::string Words::readingsInWords(const CodeOnRecord& code) const {
  std::vector<Said> all = saidBy(Reader(*this, code), code);
  // Readings that part in one place only are told together.
  if (all.size() > 1) {
    std::size_t differing = SIZE_MAX;
    bool one = true;
    for (std::size_t r = 1; r < all.size() && one; ++r) {
      one = all[r].parts.size() == all[0].parts.size();
      for (std::size_t i = 0; one && i < all[0].parts.size(); ++i) {
        if (all[r].parts[i] == all[0].parts[i]) continue;
        one = differing == SIZE_MAX || differing == i;
        differing = i;
      }
    }
    if (one && differing != SIZE_MAX) {
      std::vector<std::string> each;
      for (const Said& said : all) each.push_back(said.parts[differing]);
      all[0].parts[differing] = alternatives(each);
      all.resize(1);
    }
  }
  std::vector<std::string> parts;
  constexpr std::size_t kMostReadings = 6;
  std::size_t left = 0;
  for (const Said& said : all) {
    std::string words = together(said.parts);
    if (all.size() > 1 && !said.rules.empty() && !words.empty())
      words = "as " + withArticle(base::listedInWords(said.rules, "or")) + ", " + words;
    if (words.empty()) continue;
    if (parts.size() < kMostReadings) {
      parts.push_back(std::move(words));
    } else {
      ++left;
    }
  }
  if (left != 0) parts.push_back("in one of " + countedInWords(left, "other way", "other ways"));
  std::string out = base::joined(parts, "; or ");
  if (code.more) out += "; and more ways to read it";
  return out;
}

namespace {

// "1st quarter 1932", as it stands in brackets, is "the 1st quarter of 1932" in a sentence.
std::string inASentence(std::string date) {
  constexpr std::string_view kQuarter = " quarter ";
  const std::size_t at = date.find(kQuarter);
  if (at == std::string::npos || !base::isDigit(date[0])) return date;
  date.insert(at + kQuarter.size(), "of ");
  return "the " + date;
}

}  // namespace

std::string Words::whyRuledOut(const CodeOnRecord& code) const {
  const Reader reader(*this, code);
  for (const CodeReading& one : code.readings) {
    if (one.possible) return {};
    for (const choosing::Against& against : materials_->codes.against(code, one)) {
      if (against.reason != choosing::Against::Reason::used || against.value == nullptr ||
          against.value->date() == nullptr || one.reading.date.empty())
        continue;
      const std::vector<std::string> parts = reader.reading(one);
      const bool works = against.field == "works"_f;
      if (!works && against.field != "codes"_f) continue;
      const std::string who = !works ? "such codes were" : (parts.empty() ? "that works" : parts[0]) + " was";
      return "it would be of " + inASentence(one.reading.dateInWords()) + ", and " + who + " used " +
             dates::lasted(*against.value->date());
    }
  }
  return {};
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
