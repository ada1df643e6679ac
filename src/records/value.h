#pragma once
#include <cstdint>
#include <span>
#include <string_view>

#include "dates/expression.h"
#include "records/compact_text.h"
#include "records/field.h"
#include "records/kind.h"
#include "records/measure.h"
#include "source/span.h"

// A large guide holds a million of these, so their size is its memory: a value takes 40 bytes, an entry 64.
//
// One value as an author typed it, read by the table. Values live in the arena of the guide that was read, need no
// destructor and never move; texts are views into the source wherever the source holds them letter for letter.
namespace saggar::records {

using RecordIndex = std::uint32_t;
inline constexpr RecordIndex kNoRecord = 0xFFFFFFFF;

enum class ValueType : std::uint8_t {
  text,       // plain words, a choice, a path, an address, a code: text()
  prose,      // Markdown with our links: text()
  date,       // date()
  between,    // an interval of which an end is an event: items() are the two ends, each date, event or none
  reference,  // a record: target(), resolved by linking; text() as typed
  event,      // kind:id or kind:id.field: target(), field()
  measure,    // measure()
  number,     // number(); a clock time or budget is a number of seconds
  length,     // a length of time: text(), already known to be readable
  yes,        // yes() and no: number() is 1 or 0
  list,       // items()
  mapping,    // entries()
  unknown,    // looked for, not known
  none,       // there is none
  all,        // made-in: all
  unfit,      // could not be read, and a finding says so: text() as typed
};

struct Evidence;
struct Entry;
struct Value;

// Where a value stands in its record's file, as byte offsets.
struct Extent {
  std::uint32_t begin = 0;
  std::uint32_t end = 0;
};

struct Value {
  ValueType type = ValueType::none;
  bool quoted = false;  // typed in quotes
  Field eventField{};   // of an event: the field; meaningful once linked
  bool eventFieldTyped = false;
  Extent place;
  CompactText text;  // as typed (without quotes and block indentation); empty for lists and mappings
  const Evidence* evidence = nullptr;
  union {
    Value* items_ = nullptr;  // the number of members stands in the eight bytes in front of the first
    Entry* entries_;
    const dates::Expression* date_;
    const Measure* measure_;
    std::int64_t number_;
    RecordIndex target_;
  };

  bool is(ValueType wanted) const { return type == wanted; }
  // Members of a list, ends of an interval, entries of a mapping; 0 for any other value.
  std::uint32_t count() const {
    const bool members = type == ValueType::list || type == ValueType::between || type == ValueType::mapping;
    return members && items_ != nullptr ? *(reinterpret_cast<const std::uint32_t*>(items_) - 2) : 0;
  }
  // Something is said: neither unknown, none nor unreadable.
  bool said() const {
    return type != ValueType::unknown && type != ValueType::none && type != ValueType::unfit;
  }
  inline bool isDoubted() const;  // it is kept and printed, and binds nothing
  std::span<const Value> items() const {
    return type == ValueType::list || type == ValueType::between ? std::span<const Value>(items_, count())
                                                                 : std::span<const Value>();
  }
  // The members of a list, or the value itself as the only member: for fields that take one or several.
  std::span<const Value> each() const {
    return type == ValueType::list ? items() : std::span<const Value>(this, 1);
  }
  inline std::span<const Entry> entries() const;
  const dates::Expression* date() const { return type == ValueType::date ? date_ : nullptr; }
  const Measure* measure() const { return type == ValueType::measure ? measure_ : nullptr; }
  std::int64_t number() const { return type == ValueType::number || type == ValueType::yes ? number_ : 0; }
  RecordIndex target() const {
    return type == ValueType::reference || type == ValueType::event ? target_ : kNoRecord;
  }
  // The value of a key of a mapping, or null.
  inline const Value* find(Field field) const;
  inline const Value* find(std::string_view key) const;
};

// Where a key stands: its place in six bytes. A key of more than 65,535 bytes seems to end there.
class KeyExtent {
 public:
  constexpr KeyExtent() = default;
  constexpr KeyExtent(std::uint32_t begin, std::uint32_t end)
      : low_(static_cast<std::uint16_t>(begin)),
        high_(static_cast<std::uint16_t>(begin >> 16)),
        length_(static_cast<std::uint16_t>(end - begin > 0xFFFF ? 0xFFFF : end - begin)) {}
  constexpr operator Extent() const {
    const std::uint32_t begin = static_cast<std::uint32_t>(high_) << 16 | low_;
    return {begin, begin + length_};
  }

 private:
  std::uint16_t low_ = 0;
  std::uint16_t high_ = 0;
  std::uint16_t length_ = 0;
};

// A key and its value. `field` says which key where the table knows it; in free mappings (look, more, tables of a
// code) only `key` counts.
struct Entry {
  Value value;
  CompactText key;
  RecordIndex feature = kNoRecord;  // in a look: the feature record, resolved by linking
  KeyExtent keyPlace;
  Field field{};
  bool known = false;  // `field` is meaningful
};
static_assert(sizeof(Value) == 40 && sizeof(Entry) == 64);

enum class Says : std::uint8_t { direct, indirect, notFound };

// One citation. `id` is a source's id, or a specimen's or photo's with that kind.
struct Citation {
  Kind kind = Kind::source;
  Says says = Says::direct;
  RecordIndex target = kNoRecord;  // resolved by linking
  CompactText id;
  CompactText at;  // the locator; empty for none
  const dates::Expression* dated = nullptr;
  Extent place;    // the whole citation
  Extent idPlace;  // its id
};

// What another source says instead.
struct Alternative {
  Value is;
  std::span<Citation> cite;
  std::string_view setAside;  // the reason; empty: the fact is disputed
  Extent place;
};

// What stands beside a value. Nearly always that is citations alone, so that the rest is kept elsewhere. An absent text
// is empty.
struct Evidence {
  struct Rest {
    std::string_view judged;
    std::string_view doubted;
    const Value* note = nullptr;  // prose
    std::span<Alternative> but;
    bool complete = false;
  };
  std::span<Citation> cite;
  const Rest* rest = nullptr;  // null: there is none
  Extent place;

  std::string_view judged() const { return rest != nullptr ? rest->judged : std::string_view(); }
  std::string_view doubted() const { return rest != nullptr ? rest->doubted : std::string_view(); }
  const Value* note() const { return rest != nullptr ? rest->note : nullptr; }
  std::span<Alternative> but() const { return rest != nullptr ? rest->but : std::span<Alternative>(); }
  bool complete() const { return rest != nullptr && rest->complete; }
};
static_assert(sizeof(Evidence) == 32);

inline bool Value::isDoubted() const {
  return evidence != nullptr && !evidence->doubted().empty();
}

inline std::span<const Entry> Value::entries() const {
  return type == ValueType::mapping ? std::span<const Entry>(entries_, count()) : std::span<const Entry>();
}

inline const Value* Value::find(Field field) const {
  for (const Entry& entry : entries())
    if (entry.known && entry.field == field) return &entry.value;
  return nullptr;
}

inline const Value* Value::find(std::string_view key) const {
  for (const Entry& entry : entries())
    if (entry.key == key) return &entry.value;
  return nullptr;
}

}  // namespace saggar::records
