#include "commands/columns.h"

#include <algorithm>

#include "base/text.h"
#include "base/utf8.h"

namespace saggar::commands {

void putColumns(std::string& out, std::string_view heading, std::string_view words, std::size_t column,
                std::size_t hang) {
  constexpr std::size_t kWidest = 100;
  out += heading;
  std::size_t width = base::countCodePoints(heading);
  const auto toColumn = [&] {
    const std::size_t blanks = width < column ? column - width : width == 0 ? 0 : 2;
    out.append(blanks, ' ');
    width += blanks;
  };
  bool begun = false;
  for (std::size_t at = 0; at < words.size();) {
    if (base::isBlank(words[at])) {
      ++at;
      continue;
    }
    std::size_t end = at;
    while (end < words.size() && !base::isBlank(words[end])) ++end;
    const std::string_view word = words.substr(at, end - at);
    const std::size_t length = base::countCodePoints(word);
    if (!begun) {
      toColumn();
    } else if (width + 1 + length > kWidest) {
      out += '\n';
      width = column + hang;
      out.append(width, ' ');
    } else {
      out += ' ';
      ++width;
    }
    out += word;
    width += length;
    begun = true;
    at = end;
  }
  out += '\n';
}

}  // namespace saggar::commands
