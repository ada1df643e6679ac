#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "diagnostics/finding.h"

// Texts that are no plain UTF-8.
namespace saggar::reading {

inline constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";

// UTF-8 without control characters but tabs and line ends, and with no byte order mark but at its start.
bool isPlain(std::string_view text);

// The first place of a text that is not plain.
struct TextFault {
  std::size_t at = 0;
  bool encoding =
      false;  // it was saved in another encoding; else a character stands there that does not belong
  std::string message;
};
// Nothing if the text is plain. `atStart`: it is the beginning of a file, where a byte order mark may stand.
std::optional<TextFault> textFault(std::string_view text, bool atStart);

// The finding for it, in a text that begins at `begin` of the file.
diagnostics::Finding unfitText(source::FileId file, std::size_t begin, const TextFault& fault);

// UTF-16 and UTF-32 with their mark, or with a NUL in every other byte.
bool isWideText(std::string_view text);

}  // namespace saggar::reading
