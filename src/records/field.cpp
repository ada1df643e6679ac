#include "records/field.h"

namespace saggar::records {
namespace {

constexpr std::uint32_t hash(std::string_view word) {
  std::uint32_t value = 2166136261u;  // FNV-1a
  for (char c : word) value = (value ^ static_cast<unsigned char>(c)) * 16777619u;
  return value ^ (value >> 15);
}

// Open addressing, made at compile time: one look-up costs one hash and about one comparison.
constexpr std::size_t kSlots = 1024;
constexpr auto kSlotTable = [] {
  std::array<std::uint8_t, kSlots> slots{};
  slots.fill(255);
  for (std::size_t i = 0; i < kFieldCount; ++i) {
    std::size_t slot = hash(kFieldNames[i]) % kSlots;
    while (slots[slot] != 255) slot = (slot + 1) % kSlots;
    slots[slot] = static_cast<std::uint8_t>(i);
  }
  return slots;
}();

static_assert(std::is_sorted(kFieldNames.begin(), kFieldNames.end()));
static_assert(std::adjacent_find(kFieldNames.begin(), kFieldNames.end()) == kFieldNames.end());

}  // namespace

std::optional<Field> fieldNamed(std::string_view word) {
  for (std::size_t slot = hash(word) % kSlots; kSlotTable[slot] != 255; slot = (slot + 1) % kSlots)
    if (kFieldNames[kSlotTable[slot]] == word) return Field{kSlotTable[slot]};
  return std::nullopt;
}

}  // namespace saggar::records
