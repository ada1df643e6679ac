#pragma once
#include <string>
#include <string_view>

#include "base/text.h"

namespace saggar::choosing {

// What was typed, between backquotes and shortened, as findings show it. Not for other rooms.
inline std::string inTicks(std::string_view text) {
  return '`' + base::shortened(text, 60) + '`';
}

}  // namespace saggar::choosing
