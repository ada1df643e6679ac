#include <algorithm>

#include "base/text.h"
#include "document/address.h"
#include "linking/prose.h"

namespace saggar::linking {

std::string picturePath(std::string_view proseFile, std::string_view address) {
  std::vector<std::string_view> parts;
  const std::size_t slash = proseFile.rfind('/');
  if (slash != std::string_view::npos) parts = base::split(proseFile.substr(0, slash), '/');
  const std::string decoded = document::percentDecoded(address.substr(0, address.find_first_of("#?")));
  if (std::any_of(decoded.begin(), decoded.end(), [](unsigned char c) { return c < 0x20 || c == 0x7F; }))
    return {};
  for (std::string_view part : base::split(decoded, '/')) {
    if (part.empty() || part == ".") continue;
    if (part != "..") {
      parts.push_back(part);
    } else if (parts.empty()) {
      return {};
    } else {
      parts.pop_back();
    }
  }
  while (parts.size() > 1 && parts[0] == "prose") parts.erase(parts.begin());
  std::vector<std::string> owned(parts.begin(), parts.end());
  return owned.size() > 1 && owned[0] == "images" ? base::joined(owned, "/") : std::string();
}

}  // namespace saggar::linking
