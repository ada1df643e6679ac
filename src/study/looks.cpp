#include "study/looks.h"

#include <algorithm>

#include "base/text.h"

namespace saggar::study {

using records::Entry;
using records::Value;
using records::ValueType;

ValueId Looks::idOf(std::string_view word) {
  const auto known = typed_.find(word);
  if (known != typed_.end()) return known->second;
  const auto [place, fresh] = folded_.emplace(base::folded(word), static_cast<ValueId>(words_.size()));
  if (fresh) words_.push_back(word);
  typed_.emplace(word, place->second);
  return place->second;
}

// Gives false where what is said is not certain.
bool Looks::addWords(const Value& value, std::vector<ValueId>& values) {
  if (value.isDoubted()) return false;
  for (const Value& one : value.each()) {
    if (one.isDoubted()) return false;
    const Value* is = one.type == ValueType::mapping ? one.find("is"_f) : &one;
    if (is == nullptr || is->isDoubted()) return false;
    for (const Value& word : is->each()) {
      if (word.isDoubted() || (word.type != ValueType::text && word.type != ValueType::none)) return false;
      values.push_back(idOf(word.type == ValueType::none ? std::string_view("none") : word.text));
    }
    if (one.evidence == nullptr) continue;
    for (const records::Alternative& other : one.evidence->but())
      if (other.setAside.empty() && !addWords(other.is, values)) return false;
  }
  if (value.type != ValueType::list || value.evidence == nullptr) return true;
  return std::all_of(value.evidence->but().begin(), value.evidence->but().end(),
                     [&](const records::Alternative& other) {
                       return !other.setAside.empty() || addWords(other.is, values);
                     });
}

Row Looks::rowOf(RecordIndex record) {
  Row row;
  const Value* look = collection_[record].find("look"_f);
  if (look == nullptr || look->isDoubted()) return row;
  for (const Entry& entry : look->entries()) {
    if (entry.feature == records::kNoRecord) continue;
    Recorded one{entry.feature, {}};
    if (!addWords(entry.value, one.values) || one.values.empty()) continue;
    std::sort(one.values.begin(), one.values.end());
    one.values.erase(std::unique(one.values.begin(), one.values.end()), one.values.end());
    row.push_back(std::move(one));
  }
  std::sort(row.begin(), row.end(),
            [](const Recorded& a, const Recorded& b) { return a.feature < b.feature; });
  return row;
}

const Recorded* find(const Row& row, RecordIndex feature) {
  const auto found =
      std::lower_bound(row.begin(), row.end(), feature,
                       [](const Recorded& one, RecordIndex wanted) { return one.feature < wanted; });
  return found != row.end() && found->feature == feature ? &*found : nullptr;
}

bool disjoint(const std::vector<ValueId>& one, const std::vector<ValueId>& other) {
  auto a = one.begin();
  auto b = other.begin();
  while (a != one.end() && b != other.end()) {
    if (*a == *b) return false;
    *a < *b ? ++a : ++b;
  }
  return true;
}

bool alike(const Row& one, const Row& other) {
  bool common = false;
  auto a = one.begin();
  auto b = other.begin();
  while (a != one.end() && b != other.end()) {
    if (a->feature != b->feature) {
      a->feature < b->feature ? ++a : ++b;
      continue;
    }
    if (disjoint((a++)->values, (b++)->values)) return false;
    common = true;
  }
  return common;
}

std::int64_t effortOf(const Collection& collection, RecordIndex feature) {
  const Value* effort = collection[feature].find("effort"_f);
  return effort == nullptr || effort->type != ValueType::number ? kNoEffort : effort->number();
}

}  // namespace saggar::study
