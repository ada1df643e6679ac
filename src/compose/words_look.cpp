#include <algorithm>

#include "base/text.h"
#include "compose/words.h"

// A look in words. Features are data, and so are the words of their values; what is known here is only how English puts
// the two together: an adjective or one noun goes before the feature ("gold edge line", "acorn finial"), what begins
// with a preposition after it ("embossing in panels"), and longer words stand first with the feature in brackets
// ("gold at the rim (stamped border)").
namespace saggar::compose {

using records::Entry;
using records::Value;
using records::ValueType;

namespace {

constexpr std::string_view kAfterFeature[] = {"all",   "at",     "below", "between", "from",
                                              "in",    "inside", "on",    "outside", "over",
                                              "round", "to",     "under", "with",    "without"};

bool goesAfter(std::string_view value) {
  const std::string_view first = value.substr(0, value.find(' '));
  if (first == "round" && first.size() == value.size())
    return false;  // "round outline", but "lip round the edge"
  return std::find(std::begin(kAfterFeature), std::end(kAfterFeature), first) != std::end(kAfterFeature);
}

struct Shown {
  std::string word;
  std::string when;  // " since 1939"
};

std::string inWords(const std::string& feature, const std::vector<Shown>& values) {
  const bool dated =
      std::all_of(values.begin(), values.end(), [](const Shown& one) { return !one.when.empty(); });
  const bool undated =
      std::none_of(values.begin(), values.end(), [](const Shown& one) { return !one.when.empty(); });
  std::vector<std::string> words;
  for (const Shown& one : values) words.push_back(one.word);
  if (undated || values.size() == 1)
    return Words::featureInWords(feature, words) + (values.size() == 1 ? values[0].when : "");
  std::string out = Words::featureInWords(feature, {words[0]}) + values[0].when;
  for (std::size_t i = 1; i < values.size(); ++i) out += (dated ? ", " : ", or ") + words[i] + values[i].when;
  return out;
}

std::string listedShown(const std::vector<Shown>& values) {
  std::vector<std::string> words;
  for (const Shown& one : values) words.push_back(one.word + one.when);
  return base::listedInWords(words, "or");
}

}  // namespace

std::string Words::featureInWords(const std::string& feature, const std::vector<std::string>& values) {
  if (values.empty()) return feature + " not recorded";
  if (values.size() == 1) {
    const std::string& value = values[0];
    if (value == "none" || value == "no") return "no " + feature;
    if (value == "yes") return "with a " + feature;
    if (value == "not known") return feature + " not known";
  }
  const std::string words = base::listedInWords(values, "or");
  if (std::all_of(values.begin(), values.end(), [](const std::string& one) { return goesAfter(one); }))
    return feature + ' ' + words;
  if (std::all_of(values.begin(), values.end(), [](const std::string& one) {
        return one.find(' ') == std::string::npos && !goesAfter(one);
      }))
    return words + ' ' + feature;
  return words + " (" + feature + ')';
}

std::string Words::plainFeature(RecordIndex feature) const {
  return plainName(feature);
}

Inlines Words::look(const Value* look) const {
  using document::text;
  if (look == nullptr) return {text("not recorded")};
  if (look->type != ValueType::mapping)
    return {text(look->type == ValueType::unknown ? "not known" : "none recorded")};
  struct Part {
    std::int64_t effort;
    RecordIndex feature;
    std::string words;
  };
  // What a picture shows is told by nouns, which make no good adjectives: "subject: fruit".
  auto ofPictures = [&](RecordIndex feature) {
    const Value* of = feature == records::kNoRecord ? nullptr : materials_->records[feature].find("of"_f);
    return of != nullptr && of->each().size() == 1 && of->each()[0].text == "motif";
  };
  std::vector<Part> parts;
  for (const Entry& entry : look->entries()) {
    std::string feature(entry.key);
    std::int64_t effort = 9;
    if (entry.feature != records::kNoRecord) {
      feature = plainFeature(entry.feature);
      if (const Value* typed = materials_->records[entry.feature].find("effort"_f)) effort = typed->number();
    }
    std::vector<Shown> values;
    for (const Value& one : entry.value.each()) {
      const Value* is = one.type == ValueType::mapping ? one.find("is"_f) : &one;
      const Value* used = one.type == ValueType::mapping ? one.find("used"_f) : nullptr;
      if (is == nullptr) continue;
      for (const Value& word : is->each()) {
        std::string shown = word.type == ValueType::unknown ? "not known"
                            : word.type == ValueType::none  ? "none"
                                                            : std::string(word.text);
        values.push_back({std::move(shown), used == nullptr ? std::string() : ' ' + shortDate(used)});
      }
    }
    std::string words =
        ofPictures(entry.feature) ? feature + ": " + listedShown(values) : inWords(feature, values);
    if (entry.value.evidence != nullptr && !entry.value.evidence->doubted.empty())
      words += " (doubted: " + std::string(entry.value.evidence->doubted) + ')';
    parts.push_back({effort, entry.feature, std::move(words)});
  }
  std::stable_sort(parts.begin(), parts.end(), [](const Part& a, const Part& b) {
    return std::pair(a.effort, a.feature) < std::pair(b.effort, b.feature);
  });
  std::string out;
  const bool nested = std::any_of(parts.begin(), parts.end(),
                                  [](const Part& part) { return part.words.find(',') != std::string::npos; });
  for (const Part& part : parts) out += (out.empty() ? "" : nested ? "; " : ", ") + part.words;
  return {text(out.empty() ? "none recorded" : out)};
}

}  // namespace saggar::compose
