#include <algorithm>

#include "base/text.h"
#include "compose/phrases.h"
#include "compose/words.h"

// A look in words. Features are data, and so are the words of their values; what is known here is only how English puts
// the two together:
// - an adjective or one noun goes before the feature: "gold edge line", "acorn finial"; several take hyphens:
//   "closed-knob finial";
// - what begins with a preposition goes after it: "embossing in panels"; a value may do both: "gold stamp at the rim";
// - a value that names the thing itself does not have it twice: "lustre band at the shoulder", not "lustre band band …";
// - whatever does not bend to that stands first, with the feature in brackets: "six lobes with beads (relief)";
// - "coloured" gives way to the colour, where the look has a feature for that: "green edge line".
namespace saggar::compose {

using records::Entry;
using records::Value;
using records::ValueType;

namespace {

constexpr std::string_view kAfterFeature[] = {"all",   "at",     "below", "between", "from",
                                              "in",    "inside", "on",    "outside", "over",
                                              "round", "to",     "under", "with",    "without"};
// Those that say where, so that a noun before them may give its place to the feature.
constexpr std::string_view kPlaces[] = {"above", "across", "along", "at",      "below", "beneath", "between",
                                        "in",    "inside", "on",    "outside", "over",  "round",   "under"};

template <std::size_t N>
bool isOne(const std::string_view (&words)[N], std::string_view word) {
  return std::find(std::begin(words), std::end(words), word) != std::end(words);
}

bool goesAfter(std::string_view value) {
  const std::string_view first = value.substr(0, value.find(' '));
  if (first == "round" && first.size() == value.size())
    return false;  // "round outline", but "lip round the edge"
  return isOne(kAfterFeature, first);
}

std::vector<std::string> wordsOf(std::string_view text) {
  std::vector<std::string> out;
  for (std::string_view word : base::split(text, ' '))
    if (!word.empty()) out.emplace_back(word);
  return out;
}

// The word that a feature's name is about: "band" of "band at the shoulder", "line" of "edge line".
std::string headOf(std::string_view feature) {
  const std::vector<std::string> words = wordsOf(feature);
  for (std::size_t i = 1; i < words.size(); ++i)
    if (isOne(kAfterFeature, words[i]) || words[i] == "of") return words[i - 1];
  return words.empty() ? std::string() : words.back();
}

// How one value stands with its feature: "gold" before it and "at the rim" after it.
struct Placed {
  std::string before;
  std::string after;
  bool fits = true;  // false: the value has its feature in brackets
};

Placed placed(const std::string& feature, const std::string& value) {
  if (goesAfter(value)) return {{}, value, true};
  std::vector<std::string> words = wordsOf(value);
  Placed out;
  for (std::size_t i = 1; i + 1 < words.size(); ++i) {
    if (!isOne(kPlaces, words[i])) continue;
    out.after = base::joined({words.begin() + static_cast<std::ptrdiff_t>(i), words.end()}, " ");
    words.resize(i);
    break;
  }
  if (words.size() > 1 && base::folded(words.back()) == base::folded(headOf(feature))) words.pop_back();
  const std::string& last = words.back();
  const bool several = last.size() > 1 && last.ends_with('s') && !last.ends_with("ss");
  if (words.size() == 3 && (words[1] == "and" || words[1] == "or"))  // "green and rust edge line"
    return {base::joined(words, " "), out.after, true};
  const bool joining = std::any_of(words.begin(), words.end(), [](const std::string& word) {
    return word == "of" || word == "with" || word == "and" || word == "or" || word.ends_with(',');
  });
  if (words.size() > 3 || joining || (several && (words.size() > 1 || !out.after.empty())))
    return {value, {}, false};
  out.before = base::joined(words, "-");
  return out;
}

std::string together(const std::string& feature, const Placed& one) {
  if (!one.fits) return one.before + " (" + feature + ')';
  return one.before + (one.before.empty() ? "" : " ") + feature + (one.after.empty() ? "" : " ") + one.after;
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

// What a look says of one feature.
struct Said {
  std::int64_t effort = 9;
  RecordIndex feature = records::kNoRecord;
  std::string key;
  std::string name;
  std::vector<Shown> values;
  std::string doubt;
  bool taken = false;  // another feature says it
};

bool isColourName(std::string_view key) {
  return key == "colour" || key == "color";
}
bool isColoured(std::string_view word) {
  return word == "coloured" || word == "colored";
}

// "edge-line: coloured, colour: green", "edge-line: coloured, edge-line-colour: green"
void giveColours(std::vector<Said>& all) {
  for (Said& colour : all) {
    std::string_view of;
    if (!isColourName(colour.key)) {
      const std::size_t hyphen = colour.key.rfind('-');
      if (hyphen == std::string::npos || !isColourName(std::string_view(colour.key).substr(hyphen + 1)))
        continue;
      of = std::string_view(colour.key).substr(0, hyphen);
    }
    const bool plain = !colour.values.empty() && colour.doubt.empty() &&
                       std::all_of(colour.values.begin(), colour.values.end(), [](const Shown& one) {
                         return one.when.empty() && one.word != "not known" && one.word != "none";
                       });
    if (!plain) continue;
    for (Said& other : all) {
      if (&other == &colour || (!of.empty() && other.key != of)) continue;
      const auto found = std::find_if(other.values.begin(), other.values.end(),
                                      [](const Shown& one) { return isColoured(one.word); });
      if (found == other.values.end()) continue;
      std::vector<Shown> put = colour.values;
      for (Shown& one : put) one.when = found->when;
      const auto at = other.values.erase(found);
      other.values.insert(at, put.begin(), put.end());
      colour.taken = true;
    }
  }
}

}  // namespace

std::string Words::featureInWords(const std::string& feature, const std::vector<std::string>& values) {
  if (values.empty()) return feature + " not recorded";
  if (values.size() == 1) {
    const std::string& value = values[0];
    if (value == "none" || value == "no") return "no " + feature;
    if (value == "yes") return "with " + withArticle(feature);
    if (value == "not known") return feature + " not known";
  }
  const auto has = [&](std::string_view one) {
    return std::find(values.begin(), values.end(), one) != values.end();
  };
  if (has("yes") && (has("no") || has("none"))) return "with or without " + withArticle(feature);
  std::vector<Placed> each;
  std::string rest;
  for (const std::string& value : values) {
    if (base::trimmed(value).empty()) continue;
    if (value == "none" || value == "no" || value == "not known") {
      rest += ", or " + (value == "no" ? std::string("none") : value);
    } else {
      each.push_back(placed(feature, value));
    }
  }
  if (each.empty()) return feature + ": " + base::listedInWords(values, "or");
  const Placed& first = each[0];
  std::vector<std::string> parts;
  std::string out;
  if (std::all_of(each.begin(), each.end(),
                  [](const Placed& one) { return one.fits && one.before.empty(); })) {
    for (const Placed& one : each) parts.push_back(one.after);
    out = feature + ' ' + base::listedInWords(parts, "or");
  } else if (std::all_of(each.begin(), each.end(), [&](const Placed& one) {
               return one.fits == first.fits && !one.before.empty() && one.after == first.after;
             })) {
    for (const Placed& one : each) parts.push_back(one.before);
    out = together(feature, {base::listedInWords(parts, "or"), first.after, first.fits});
  } else {
    for (const Placed& one : each) parts.push_back(together(feature, one));
    out = base::listedInWords(parts, "or");
  }
  return out + rest;
}

std::string Words::plainFeature(RecordIndex feature) const {
  return plainName(feature);
}

namespace {

std::vector<Said> saidBy(const Words& words, const Value& look) {
  std::vector<Said> all;
  for (const Entry& entry : look.entries()) {
    Said said;
    said.key = std::string(entry.key);
    said.name = said.key;
    said.feature = entry.feature;
    if (entry.feature != records::kNoRecord) {
      said.name = words.plainFeature(entry.feature);
      const Value* effort = words.materials().records[entry.feature].find("effort"_f);
      if (effort != nullptr) said.effort = effort->number();
    }
    for (const Value& one : entry.value.each()) {
      const Value* is = one.type == ValueType::mapping ? one.find("is"_f) : &one;
      const Value* used = one.type == ValueType::mapping ? one.find("used"_f) : nullptr;
      if (is == nullptr) continue;
      for (const Value& word : is->each()) {
        std::string shown = word.type == ValueType::unknown ? "not known"
                            : word.type == ValueType::none  ? "none"
                                                            : std::string(word.text);
        said.values.push_back(
            {std::move(shown), used == nullptr ? std::string() : ' ' + words.shortDate(used)});
      }
    }
    if (entry.value.evidence != nullptr) said.doubt = asClause(entry.value.evidence->doubted());
    all.push_back(std::move(said));
  }
  giveColours(all);
  std::erase_if(all, [](const Said& one) { return one.taken; });
  std::stable_sort(all.begin(), all.end(), [](const Said& a, const Said& b) {
    return std::pair(a.effort, a.feature) < std::pair(b.effort, b.feature);
  });
  return all;
}

std::string listedShown(const std::vector<Shown>& values) {
  std::vector<std::string> words;
  for (const Shown& one : values) words.push_back(one.word + one.when);
  return base::listedInWords(words, "or");
}

// What a picture shows is told by nouns, which make no good adjectives: "subject: fruit".
bool isOfPictures(const Published& records, RecordIndex feature) {
  const Value* of = feature == records::kNoRecord ? nullptr : records[feature].find("of"_f);
  return of != nullptr && of->each().size() == 1 && of->each()[0].text == "motif";
}

std::string inWords(const Published& records, const Said& said) {
  const std::string words = isOfPictures(records, said.feature) ? said.name + ": " + listedShown(said.values)
                                                                : inWords(said.name, said.values);
  return said.doubt.empty() ? words : words + " (doubted: " + said.doubt + ')';
}

}  // namespace

Inlines Words::look(const Value* look) const {
  using document::text;
  if (look == nullptr) return {text("not recorded")};
  if (look->type != ValueType::mapping)
    return {text(look->type == ValueType::unknown ? "not known" : "none recorded")};
  std::vector<std::string> parts;
  for (const Said& one : saidBy(*this, *look)) parts.push_back(inWords(materials_->records, one));
  const bool nested = std::any_of(parts.begin(), parts.end(), [](const std::string& part) {
    return part.find(',') != std::string::npos;
  });
  return {text(parts.empty() ? "none recorded" : base::joined(parts, nested ? "; " : ", "))};
}

std::string Words::lookOf(const Value& look, RecordIndex feature) const {
  for (const Said& one : saidBy(*this, look))
    if (one.feature == feature) return inWords(materials_->records, one);
  // A colour that is said with what is coloured.
  for (const Entry& entry : look.entries()) {
    if (entry.feature != feature) continue;
    std::vector<std::string> values;
    for (const Value& one : entry.value.each()) values.emplace_back(one.text);
    return featureInWords(plainFeature(feature), values);
  }
  return {};
}

std::vector<std::pair<std::string, std::string>> Words::lookByFeature(const Value& look) const {
  std::vector<std::pair<std::string, std::string>> out;
  if (look.type != ValueType::mapping) return out;
  for (const Said& one : saidBy(*this, look))
    out.emplace_back(one.name,
                     listedShown(one.values) + (one.doubt.empty() ? "" : " (doubted: " + one.doubt + ')'));
  return out;
}

}  // namespace saggar::compose
