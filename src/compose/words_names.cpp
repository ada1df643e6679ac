#include "compose/words.h"
#include "linking/names.h"

// What a record is called in print.
namespace saggar::compose {

std::string Words::plainName(RecordIndex index) const {
  return linking::plainName(materials_->records, index);
}

Inlines Words::linked(RecordIndex index, Inlines words) const {
  const auto place = places_ == nullptr ? std::nullopt : places_->of(index);
  if (!place) return words;
  return {document::link(std::move(words), *place)};
}

Inlines Words::name(RecordIndex index) const {
  return linked(index, {document::text(plainName(index))});
}

Inlines Words::somebody(std::string_view typed) const {
  for (Kind kind : {Kind::person, Kind::maker})
    if (const auto found = materials_->records.find(kind, typed)) return name(*found);
  return {document::text(std::string(typed))};
}

std::string Words::plainSomebody(std::string_view typed) const {
  for (Kind kind : {Kind::person, Kind::maker})
    if (const auto found = materials_->records.find(kind, typed)) return plainName(*found);
  return std::string(typed);
}

}  // namespace saggar::compose
