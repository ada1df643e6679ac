#include "commands/resolve_reference.h"

#include "base/edit_distance.h"
#include "base/text.h"

namespace saggar::commands {

using records::Kind;

std::optional<linking::RecordIndex> recordNamed(const linking::Collection& collection,
                                                const std::string& reference, std::string& error,
                                                std::string& hint) {
  const std::size_t colon = reference.find(':');
  std::vector<std::string_view> ids;
  std::vector<linking::RecordIndex> found;
  const std::string_view id = std::string_view(reference).substr(colon == std::string::npos ? 0 : colon + 1);
  std::optional<Kind> only;
  if (colon != std::string::npos) {
    only = records::kindNamed(std::string_view(reference).substr(0, colon));
    if (!only) {
      error = "`" + base::shortened(reference.substr(0, colon), 40) + "` is no kind of record";
      std::vector<std::string_view> kinds;
      for (const auto& one : records::kKindNames) kinds.push_back(one.one);
      const auto near = base::nearest(reference.substr(0, colon), kinds);
      hint = near ? "did you mean `" + std::string(*near) + ":" + std::string(id) + "`?"
                  : "write `kind:id`, as `shape:jessamount`";
      return std::nullopt;
    }
  }
  for (std::size_t k = 0; k + 1 < records::kKindCount; ++k) {
    const Kind kind = static_cast<Kind>(k);
    if (only && *only != kind) continue;
    if (const auto index = collection.find(kind, id)) found.push_back(*index);
    for (linking::RecordIndex one : collection.ofKind(kind)) ids.push_back(collection[one].id);
  }
  if (found.size() == 1) return found[0];
  if (found.size() > 1) {
    std::vector<std::string> names;
    for (linking::RecordIndex one : found) names.push_back('`' + collection[one].reference() + '`');
    error = "`" + reference + "` could be " + base::listedInWords(names, "or");
    hint = "write the kind in front of the id";
    return std::nullopt;
  }
  const auto near = base::nearest(id, ids);
  error = "there is no " + (only ? std::string(records::name(*only)) : std::string("record")) + " `" +
          base::shortened(id, 60) + "`";
  hint = near ? "did you mean `" + (only ? std::string(records::name(*only)) + ":" : std::string()) +
                    std::string(*near) + "`?"
              : "`saggar find WORDS` looks for records by their words";
  return std::nullopt;
}

}  // namespace saggar::commands
