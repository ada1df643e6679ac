#include <algorithm>
#include <map>

#include "base/text.h"
#include "checks/rules.h"

// Two records for what is, as far as is recorded, one and the same decoration.
namespace saggar::checks {

using records::Entry;
using records::Record;
using records::RecordIndex;
using records::Value;
using records::ValueType;

namespace {

void putLook(std::string& key, const Value& value) {
  std::vector<std::string> words;
  for (const Value& one : value.each()) {
    if (one.type == ValueType::mapping) {
      if (const Value* is = one.find("is"_f)) words.emplace_back(is->text);
    } else {
      words.push_back(one.type == ValueType::unknown ? "?" : std::string(one.text));
    }
  }
  std::sort(words.begin(), words.end());
  key += base::joined(words, "|") + ';';
}

// Shape, motif, customer and every recorded feature; empty if it cannot be said to be a variant.
std::string variantOf(const Record& record) {
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

// A treatment that was renumbered is the same variant, and says so.
bool continues(const linking::Collection& all, RecordIndex later, RecordIndex earlier) {
  constexpr int kMostSteps = 100;  // a ring has no end
  for (int step = 0; step < kMostSteps; ++step) {
    const Value* before = all[later].find("continues"_f);
    if (before == nullptr || before->target() == records::kNoRecord) return false;
    later = before->target();
    if (later == earlier) return true;
  }
  return false;
}

}  // namespace

void variantTwice(const Context& context, diagnostics::Findings& findings) {
  std::map<std::string, RecordIndex> first;
  for (RecordIndex index : context.collection.ofKind(records::Kind::treatment)) {
    const Record& record = context.collection[index];
    if (record.broken) continue;
    const std::string key = variantOf(record);
    if (key.empty()) continue;
    const auto [other, fresh] = first.emplace(key, index);
    if (fresh || continues(context.collection, index, other->second) ||
        continues(context.collection, other->second, index))
      continue;
    const Record& before = context.collection[other->second];
    findings.add({.rule = "variant-twice"_rule,
                  .span = record.span(),
                  .message = record.reference() + " is the same variant as " + before.reference() +
                             ": shape, motif, customer and every recorded feature agree",
                  .hint = "make one record of both (a second number goes into a list, `code: [one, two]`), "
                          "or record the feature that tells them apart",
                  .record = record.reference(),
                  .records = {before.reference(), record.reference()},
                  .related = {{before.span(), "the same variant stands here"}}});
  }
}

}  // namespace saggar::checks
