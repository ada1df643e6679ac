#include <algorithm>
#include <span>

#include "checks/rules.h"

// A source that nothing but itself speaks of.
namespace saggar::checks {

void sourceUnused(const Context& context, diagnostics::Findings& findings) {
  const linking::Collection& all = context.collection;
  std::vector<bool> mentioned(all.size());
  for (const linking::Mention& mention : all.mentions())
    if (mention.from != mention.target) mentioned[mention.target] = true;
  auto others = [](std::span<const linking::BackReference> from, records::RecordIndex own) {
    return std::any_of(from.begin(), from.end(), [&](const auto& one) { return one.from != own; });
  };
  for (records::RecordIndex source : all.ofKind(records::Kind::source)) {
    const records::Record& record = all[source];
    if (record.broken || mentioned[source] || others(all.citedBy(source), source) ||
        others(all.referredBy(source), source))
      continue;
    findings.add({.rule = "source-unused"_rule,
                  .span = record.span(),
                  .message = "nothing cites the source `" + std::string(record.id) + "`",
                  .hint = "cite it where it speaks, or take it out",
                  .record = record.reference()});
  }
}

}  // namespace saggar::checks
