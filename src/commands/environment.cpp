#include "commands/environment.h"

#include <nlohmann/json.hpp>

namespace saggar::commands {

int cannot(const Environment& environment, bool json, const std::string& error, const std::string& hint) {
  if (json) {
    nlohmann::ordered_json object;
    object["error"] = error;
    object["hint"] = hint;
    environment.out(object.dump(-1, ' ', false, nlohmann::ordered_json::error_handler_t::replace) + '\n');
  } else {
    environment.err("saggar: " + error + '\n' + (hint.empty() ? "" : "  hint: " + hint + '\n'));
  }
  return kCannot;
}

}  // namespace saggar::commands
