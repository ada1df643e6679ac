#pragma once
#include <span>
#include <string>
#include <string_view>

#include "records/value.h"

namespace saggar::records {

// One record: its kind, its id and its fields in the order they were typed.
struct Record {
  Kind kind = Kind::guide;
  bool broken = false;  // part of it could not be read: nothing may be concluded from what is missing
  source::FileId file = source::kNoFile;
  std::string_view id;
  Extent place;    // from its first byte to its last
  Extent idPlace;  // the id as typed
  std::span<Entry> fields;
  const Evidence* evidence = nullptr;  // the record's own `cite`; null for none

  const Value* find(Field field) const {
    for (const Entry& entry : fields)
      if (entry.known && entry.field == field) return &entry.value;
    return nullptr;
  }
  const Entry* entry(Field field) const {
    for (const Entry& one : fields)
      if (one.known && one.field == field) return &one;
    return nullptr;
  }
  // The words of a plain field, empty if it is absent, unknown or none.
  std::string_view text(Field field) const {
    const Value* value = find(field);
    return value && value->said() ? value->text : std::string_view();
  }
  source::Span span(Extent extent) const { return {file, extent.begin, extent.end}; }
  source::Span span() const { return span(idPlace); }
  std::string reference() const { return std::string(name(kind)) + ':' + std::string(id); }
};

}  // namespace saggar::records
