#include "study/variants.h"

#include <algorithm>

#include "base/text.h"

namespace saggar::study {

using records::Entry;
using records::RecordIndex;
using records::Value;
using records::ValueType;

namespace {

void putLook(std::string& key, const Value& value) {
  std::vector<std::string> words;
  for (const Value& one : value.each()) {
    if (one.type == ValueType::mapping) {
      if (const Value* is = one.find("is"_f))
        for (const Value& word : is->each()) words.emplace_back(word.text);
    } else {
      words.push_back(one.type == ValueType::unknown ? "?" : std::string(one.text));
    }
  }
  std::sort(words.begin(), words.end());
  key += base::joined(words, "|") + ';';
}

}  // namespace

std::string variantOf(const linking::Collection& collection, RecordIndex treatment) {
  const records::Record& record = collection[treatment];
  const Value* shape = record.find("shape"_f);
  const Value* motif = record.find("motif"_f);
  const Value* look = record.find("look"_f);
  if (shape == nullptr || !shape->said() || motif == nullptr || motif->type == ValueType::unknown ||
      motif->type == ValueType::unfit)
    return {};
  std::string key;
  std::vector<std::string> shapes;
  for (const Value& one : shape->each()) {
    if (one.target() == records::kNoRecord) return {};
    shapes.push_back(std::to_string(one.target()));
  }
  std::sort(shapes.begin(), shapes.end());
  key += base::joined(shapes, ",") + '/';
  key += motif->type == ValueType::none ? "none" : std::to_string(motif->target());
  const Value* customer = record.find("for"_f);
  key += '/' +
         (customer == nullptr || !customer->said() ? std::string() : std::to_string(customer->target())) +
         '/';
  if (look == nullptr || look->entries().empty()) return {};
  std::vector<const Entry*> features;
  for (const Entry& entry : look->entries())
    if (entry.value.said() || entry.value.type == ValueType::none) features.push_back(&entry);
  if (features.empty()) return {};
  std::sort(features.begin(), features.end(), [](const Entry* a, const Entry* b) { return a->key < b->key; });
  for (const Entry* entry : features) {
    key.append(entry->key) += '=';
    putLook(key, entry->value);
  }
  return key;
}

bool continues(const linking::Collection& collection, RecordIndex later, RecordIndex earlier) {
  constexpr int kMostSteps = 100;  // a ring has no end
  for (int step = 0; step < kMostSteps; ++step) {
    const Value* before = collection[later].find("continues"_f);
    if (before == nullptr || before->target() == records::kNoRecord) return false;
    later = before->target();
    if (later == earlier) return true;
  }
  return false;
}

}  // namespace saggar::study
