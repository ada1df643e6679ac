#include <unordered_map>

#include "checks/rules.h"
#include "study/variants.h"

// Two records for what is, as far as is recorded, one and the same decoration.
namespace saggar::checks {

using records::Record;
using records::RecordIndex;

void variantTwice(const Context& context, diagnostics::Findings& findings) {
  std::unordered_map<std::string, RecordIndex> first;
  for (RecordIndex index : context.collection.ofKind(records::Kind::treatment)) {
    const Record& record = context.collection[index];
    if (record.broken) continue;
    const std::string key = study::variantOf(context.collection, index);
    if (key.empty()) continue;
    const auto [other, fresh] = first.emplace(key, index);
    if (fresh || study::continues(context.collection, index, other->second) ||
        study::continues(context.collection, other->second, index))
      continue;
    const Record& before = context.collection[other->second];
    findings.add({.rule = "variant-twice"_rule,
                  .span = record.span(),
                  .message = record.reference() + " is the same variant as " + before.reference() +
                             ": shape, motif, customer and every recorded feature agree",
                  .hint = "make one record of both (a second number goes into a list, `code: [one, two]`), "
                          "or record the feature that tells them apart",
                  .record = record.reference(),
                  .records = {before.reference(), record.reference()},
                  .related = {{before.span(), "the same variant stands here"}}});
  }
}

}  // namespace saggar::checks
