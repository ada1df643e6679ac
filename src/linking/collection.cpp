#include "linking/collection.h"

namespace saggar::linking {

std::uint32_t Collection::slotOf(Kind kind, std::string_view id) const {
  const std::size_t hash =
      std::hash<std::string_view>()(id) * 31 + static_cast<std::size_t>(kind) * 0x9E3779B97F4A7C15ULL;
  const std::uint32_t mask = static_cast<std::uint32_t>(table_.size() - 1);
  std::uint32_t slot = static_cast<std::uint32_t>(hash ^ (hash >> 32)) & mask;
  while (table_[slot] != records::kNoRecord) {
    const Record& record = guide_->records[table_[slot]];
    if (record.kind == kind && record.id == id) return slot;
    slot = (slot + 1) & mask;
  }
  return slot;
}

std::optional<RecordIndex> Collection::find(Kind kind, std::string_view id) const {
  if (table_.empty()) return std::nullopt;
  const RecordIndex index = table_[slotOf(kind, id)];
  return index == records::kNoRecord ? std::nullopt : std::optional(index);
}

std::optional<RecordIndex> Collection::find(std::string_view reference) const {
  const std::size_t colon = reference.find(':');
  if (colon == std::string_view::npos) return std::nullopt;
  const auto kind = records::kindNamed(reference.substr(0, colon));
  return kind ? find(*kind, reference.substr(colon + 1)) : std::nullopt;
}

std::span<const BackReference> Collection::Lists::of(RecordIndex index) const {
  if (index + 1 >= offsets.size()) return {};
  return std::span(entries).subspan(offsets[index], offsets[index + 1] - offsets[index]);
}

std::span<const BackReference> Collection::referredBy(RecordIndex index) const {
  return referredBy_.of(index);
}
std::span<const BackReference> Collection::citedBy(RecordIndex index) const {
  return citedBy_.of(index);
}

}  // namespace saggar::linking
