#include "checks/rules.h"

namespace saggar::checks {

void sourceUnused(const Context& context, diagnostics::Findings& findings) {
  const linking::Collection& all = context.collection;
  std::vector<bool> mentioned(all.size());
  for (const linking::Mention& mention : all.mentions()) mentioned[mention.target] = true;
  for (records::RecordIndex source : all.ofKind(records::Kind::source)) {
    const records::Record& record = all[source];
    if (record.broken || mentioned[source] || !all.citedBy(source).empty() || !all.referredBy(source).empty()) continue;
    findings.add({.rule = "source-unused"_rule,
                  .span = record.span(),
                  .message = "nothing cites the source `" + std::string(record.id) + "`",
                  .hint = "cite it where it speaks, or take it out",
                  .record = record.reference()});
  }
}

}  // namespace saggar::checks
