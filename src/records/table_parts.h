#pragma once
#include "records/tables.h"

// What the three table files share. Not for other rooms.
namespace saggar::records::tables {

inline constexpr std::string_view kNamedByWords[] = {"factory", "retailer",   "collectors",
                                                     "author",  "misreading", "misheard"};

// Designated initialisers would repeat every name; these say what differs and no more.
constexpr FieldSpec of(Field field, FieldType type, std::uint16_t flags, std::string_view meaning,
                       std::string_view example = {}) {
  FieldSpec spec{.field = field, .type = type, .flags = flags, .meaning = meaning, .example = example};
  return spec;
}
constexpr FieldSpec ref(Field field, KindSet kinds, std::uint16_t flags, std::string_view meaning,
                        std::string_view example = {}) {
  FieldSpec spec = of(field, FieldType::reference, flags, meaning, example);
  spec.kinds = kinds;
  return spec;
}
constexpr FieldSpec oneOf(Field field, std::span<const std::string_view> words, std::uint16_t flags,
                          std::string_view meaning, std::string_view example = {}) {
  FieldSpec spec = of(field, FieldType::choice, flags, meaning, example);
  spec.words = words;
  return spec;
}
constexpr FieldSpec group(Field field, std::span<const FieldSpec> inner, std::uint16_t flags,
                          std::string_view meaning, std::string_view example = {}) {
  FieldSpec spec = of(field, FieldType::structure, flags, meaning, example);
  spec.inner = inner;
  return spec;
}
constexpr FieldSpec groupMap(Field field, std::span<const FieldSpec> inner, std::uint16_t flags,
                             std::string_view meaning, std::string_view example = {}) {
  FieldSpec spec = of(field, FieldType::structureMap, flags, meaning, example);
  spec.inner = inner;
  return spec;
}

std::span<const FieldSpec> maker();
std::span<const FieldSpec> person();
std::span<const FieldSpec> shape();
std::span<const FieldSpec> form();
std::span<const FieldSpec> motif();
std::span<const FieldSpec> treatment();
std::span<const FieldSpec> set();
std::span<const FieldSpec> mark();
std::span<const FieldSpec> specimen();
std::span<const FieldSpec> source();
std::span<const FieldSpec> feature();
std::span<const FieldSpec> photo();
std::span<const FieldSpec> claim();
std::span<const FieldSpec> question();
std::span<const FieldSpec> term();
std::span<const FieldSpec> talk();
std::span<const FieldSpec> checklist();
std::span<const FieldSpec> guide();

}  // namespace saggar::records::tables
