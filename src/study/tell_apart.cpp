#include "study/tell_apart.h"

#include <algorithm>
#include <map>

#include "study/hitting_sets.h"

namespace saggar::study {

using records::Value;
using records::ValueType;

namespace {

constexpr std::size_t kStepsInAll = 60'000'000;  // for one list of lists

class Comparing {
 public:
  Comparing(const Collection& collection, std::span<const RecordIndex> records)
      : all_(collection), looks_(collection) {
    out_.records.assign(records.begin(), records.end());
  }

  TellApart run() {
    for (const RecordIndex record : out_.records) rows_.push_back(rowOf(record));
    keepDiffering();
    if (out_.records.size() > kMostCompared) {
      out_.tooMany = true;
      return std::move(out_);
    }
    const std::size_t count = out_.records.size();
    out_.ofEach.resize(count);
    out_.notTold.resize(count);
    std::vector<std::vector<ItemSet>> families(count);
    std::vector<ItemSet> family;
    for (std::size_t i = 0; i < count; ++i)
      for (std::size_t j = i + 1; j < count; ++j) {
        ItemSet telling = tellingOf(i, j);
        if (telling.empty()) {
          out_.notTold[i].push_back(j);
          out_.notTold[j].push_back(i);
          continue;
        }
        families[i].push_back(telling);
        families[j].push_back(telling);
        family.push_back(std::move(telling));
      }
    HittingLimits limits;
    limits.mostSteps = kStepsInAll / 4;
    out_.shortest = shortest(std::move(family), limits, &out_.sure);
    limits.mostSteps = kStepsInAll / (count + 1);
    for (std::size_t i = 0; i < count; ++i)
      out_.ofEach[i] = shortest(std::move(families[i]), limits, nullptr);
    return std::move(out_);
  }

 private:
  using Key = std::pair<std::int64_t, std::pair<SeenAt, RecordIndex>>;  // by effort

  std::map<Key, std::vector<std::uint32_t>> rowOf(RecordIndex record) {
    std::map<Key, std::vector<std::uint32_t>> row;
    for (Recorded& one : looks_.rowOf(record))
      row[{effortOf(all_, one.feature), {SeenAt::feature, one.feature}}] = std::move(one.values);
    if (all_[record].kind != Kind::treatment) return row;
    addReference(record, "shape"_f, SeenAt::shape, row);
    addReference(record, "motif"_f, SeenAt::motif, row);
    return row;
  }

  // Seen before anything else; not known if any of it is not.
  void addReference(RecordIndex record, records::Field field, SeenAt at,
                    std::map<Key, std::vector<std::uint32_t>>& row) {
    const Value* value = all_[record].find(field);
    if (value == nullptr || value->isDoubted()) return;
    std::vector<std::uint32_t> values;
    for (const Value& one : value->each()) {
      if (one.isDoubted() || (one.type != ValueType::none && one.target() == records::kNoRecord)) return;
      values.push_back(one.target());
    }
    std::sort(values.begin(), values.end());
    if (!values.empty()) row[{0, {at, records::kNoRecord}}] = std::move(values);
  }

  // Traits in which all agree tell nothing.
  void keepDiffering() {
    std::map<Key, std::vector<const std::vector<std::uint32_t>*>> values;
    for (const auto& row : rows_)
      for (const auto& [key, own] : row) values[key].push_back(&own);
    for (auto& [key, own] : values) {
      const bool differ = std::any_of(own.begin(), own.end(),
                                      [&first = *own.front()](const auto* one) { return *one != first; });
      if (!differ) continue;
      place_[key] = out_.traits.size();
      out_.traits.push_back({key.second.first, key.second.second});
      cost_.push_back(key.first);
    }
  }

  ItemSet tellingOf(std::size_t one, std::size_t other) const {
    ItemSet telling;
    for (const auto& [key, values] : rows_[one]) {
      const auto same = rows_[other].find(key);
      if (same == rows_[other].end()) continue;
      if (disjoint(values, same->second)) telling.push_back(static_cast<Item>(place_.at(key)));
    }
    return telling;
  }

  std::vector<Trait> shortest(std::vector<ItemSet> family, const HittingLimits& limits, bool* sure) const {
    const auto found = shortestHittingSet(std::move(family), cost_, limits);
    std::vector<Trait> out;
    for (const Item item : found->items) out.push_back(out_.traits[item]);
    if (sure != nullptr) *sure = found->sure;
    return out;
  }

  const Collection& all_;
  Looks looks_;
  TellApart out_;
  std::vector<std::map<Key, std::vector<std::uint32_t>>> rows_;
  std::map<Key, std::size_t> place_;  // in traits
  std::vector<std::int64_t> cost_;
};

}  // namespace

TellApart tellApart(const Collection& collection, std::span<const RecordIndex> records) {
  return Comparing(collection, records).run();
}

}  // namespace saggar::study
