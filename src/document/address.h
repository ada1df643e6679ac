#pragma once
#include <string>
#include <string_view>

// What an address may be used for. Everything that is printed as a link goes through this one question, when
// prose is read and once more when a publication is written.
namespace saggar::document {

enum class AddressKind {
  relative,  // a path or "#place" inside the publication
  outside,   // http://…, https://… or mailto:…
  unsafe,    // anything else: never passed on
};

// Reads the address the way the most careless reader of it might: letters in either case, control characters
// and blanks left out, percent signs and character references decoded. An address is unsafe as soon as one of
// these readings begins with a scheme other than http, https and mailto, or names a computer without saying
// how
// ("//host/…", "\\host\…"). An empty address is relative.
AddressKind addressKind(std::string_view address);

// "a%20b.png" → "a b.png"; a percent sign without two hexadecimal figures stays.
std::string percentDecoded(std::string_view text);

}  // namespace saggar::document
