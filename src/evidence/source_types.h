#pragma once
#include <cstdint>
#include <span>
#include <string_view>

// What kinds of sources there are and what each is worth: the one table of them.
//
// The grades are those of the Board for Certification of Genealogists, Genealogy Standards, 2nd ed. (original,
// derivative and authored records; primary, secondary and undetermined information), set for the papers of a pottery.
namespace saggar::evidence {

// How the source came about: the thing itself, a copy of it, or an account put together from others.
enum class Form : std::uint8_t { original, derivative, authored };

// Who speaks in it: somebody who was there, somebody who was not, or one cannot tell.
enum class Information : std::uint8_t { primary, secondary, undetermined };

// What it shows of dates. Whatever shows nothing was said or written later.
enum class Shows : std::uint8_t {
  nothing,
  existed,            // the thing was there by its date
  existedAndOffered,  // and was on offer then
  designExisted,      // its design was there by then
};

std::string_view word(Form form);
std::string_view word(Information information);

struct SourceType {
  std::string_view name;   // as typed
  std::string_view words;  // in print, without an article
  Form form = Form::authored;
  Information information = Information::undetermined;
  Shows shows = Shows::nothing;
  bool wantsLocator = false;  // so long that a citation without the place in it helps nobody
};

std::span<const SourceType> sourceTypes();

// Null for a word that is no type.
const SourceType* sourceTypeNamed(std::string_view name);

}  // namespace saggar::evidence
