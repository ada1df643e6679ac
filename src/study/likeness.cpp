#include "study/likeness.h"

#include <algorithm>
#include <tuple>

namespace saggar::study {

Bits::Bits(std::size_t count, bool on) : words_((count + 63) / 64, on ? ~std::uint64_t{0} : 0) {
  if (on && count % 64 != 0) words_.back() = (std::uint64_t{1} << count % 64) - 1;
}

Bits& Bits::operator|=(const Bits& other) {
  for (std::size_t i = 0; i < words_.size(); ++i) words_[i] |= other.words_[i];
  return *this;
}

Bits& Bits::operator&=(const Bits& other) {
  for (std::size_t i = 0; i < words_.size(); ++i) words_[i] &= other.words_[i];
  return *this;
}

void Likeness::Having::addTo(Bits& out) const {
  if (bits.size() != 0) out |= bits;
  for (const std::uint32_t row : list) out.set(row);
}

Likeness::Likeness(std::span<const Row* const> rows) : rows_(rows) {
  std::vector<std::tuple<RecordIndex, ValueId, std::uint32_t>> all;
  for (std::uint32_t i = 0; i < rows.size(); ++i)
    for (const Recorded& one : *rows[i])
      for (const ValueId value : one.values) all.emplace_back(one.feature, value, i);
  std::sort(all.begin(), all.end());
  const std::size_t words = Bits(rows.size()).size();
  for (std::size_t i = 0; i < all.size();) {
    const auto [feature, value, row] = all[i];
    if (features_.empty() || features_.back().feature != feature)
      features_.push_back({feature, Bits(rows.size()), Bits(rows.size(), true), {}, {}});
    Feature& own = features_.back();
    own.values.push_back(value);
    Having& having = own.having.emplace_back();
    std::size_t end = i;
    for (; end < all.size() && std::get<0>(all[end]) == feature && std::get<1>(all[end]) == value; ++end) {
      own.recorded.set(std::get<2>(all[end]));
      own.open.clear(std::get<2>(all[end]));
    }
    const bool many = end - i > words;
    if (many) having.bits = Bits(rows.size());
    for (; i < end; ++i) {
      if (many)
        having.bits.set(std::get<2>(all[i]));
      else
        having.list.push_back(std::get<2>(all[i]));
    }
  }
}

const Likeness::Feature& Likeness::of(RecordIndex feature) const {
  return *std::lower_bound(features_.begin(), features_.end(), feature,
                           [](const Feature& one, RecordIndex wanted) { return one.feature < wanted; });
}

void Likeness::keepAlike(std::size_t i, Bits& rows) const {
  Bits common(rows_.size());
  for (const Recorded& one : *rows_[i]) {
    const Feature& feature = of(one.feature);
    Bits fit = feature.open;
    for (const ValueId value : one.values) {
      const auto at = std::lower_bound(feature.values.begin(), feature.values.end(), value);
      feature.having[static_cast<std::size_t>(at - feature.values.begin())].addTo(fit);
    }
    rows &= fit;
    common |= feature.recorded;
  }
  rows &= common;
  rows.clear(i);
}

}  // namespace saggar::study
