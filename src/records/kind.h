#pragma once
#include <array>
#include <cstdint>
#include <optional>
#include <string_view>

namespace saggar::records {

// What a record can be about. `guide` is the one mapping of guide.yaml, read by the same table.
enum class Kind : std::uint8_t {
  maker,
  person,
  shape,
  form,
  motif,
  treatment,
  set,
  mark,
  specimen,
  source,
  feature,
  claim,
  question,
  term,
  photo,
  talk,
  checklist,
  guide,
};

inline constexpr std::size_t kKindCount = 18;

// As typed: "shape", and as a folder or heading uses it: "shapes".
struct KindName {
  std::string_view one;
  std::string_view many;
};

inline constexpr std::array<KindName, kKindCount> kKindNames{{
    {"maker", "makers"},
    {"person", "persons"},
    {"shape", "shapes"},
    {"form", "forms"},
    {"motif", "motifs"},
    {"treatment", "treatments"},
    {"set", "sets"},
    {"mark", "marks"},
    {"specimen", "specimens"},
    {"source", "sources"},
    {"feature", "features"},
    {"claim", "claims"},
    {"question", "questions"},
    {"term", "terms"},
    {"photo", "photos"},
    {"talk", "talks"},
    {"checklist", "checklists"},
    {"guide", "guides"},
}};

constexpr std::string_view name(Kind kind) {
  return kKindNames[static_cast<std::size_t>(kind)].one;
}
constexpr std::string_view plural(Kind kind) {
  return kKindNames[static_cast<std::size_t>(kind)].many;
}

// The kind of that name (singular, as typed in front of an id); `guide` is not found here.
constexpr std::optional<Kind> kindNamed(std::string_view word) {
  for (std::size_t i = 0; i + 1 < kKindCount; ++i)
    if (kKindNames[i].one == word) return static_cast<Kind>(i);
  return std::nullopt;
}

// A set of kinds, as bits.
class KindSet {
 public:
  constexpr KindSet() = default;
  template <class... Kinds>
  constexpr explicit KindSet(Kinds... kinds) : bits_((0u | ... | bit(kinds))) {}
  static constexpr KindSet any() {
    KindSet all;
    all.bits_ = (1u << (kKindCount - 1)) - 1;  // every kind but `guide`
    return all;
  }
  constexpr bool has(Kind kind) const { return (bits_ & bit(kind)) != 0; }
  constexpr bool empty() const { return bits_ == 0; }
  constexpr bool single() const { return bits_ != 0 && (bits_ & (bits_ - 1)) == 0; }
  // The one kind of a single set.
  constexpr Kind only() const {
    for (std::size_t i = 0; i < kKindCount; ++i)
      if (bits_ == (1u << i)) return static_cast<Kind>(i);
    return Kind::guide;
  }

 private:
  static constexpr std::uint32_t bit(Kind kind) { return 1u << static_cast<unsigned>(kind); }
  std::uint32_t bits_ = 0;
};

}  // namespace saggar::records
