#include <algorithm>

#include "checks/doubts.h"
#include "checks/rules.h"

// A fact that a reader is asked to believe names who says so.
namespace saggar::checks {

using records::Entry;
using records::Record;
using records::Value;

void uncited(const Context& context, diagnostics::Findings& findings) {
  const auto is = [](const Record&, const Entry&, const Value&, const evidence::Weighed& weighed) {
    return weighed.standing == evidence::Standing::uncited && weighed.tooEarly == nullptr;
  };
  eachInDoubt(context, wantsEvidence, is, [&](const Record& record, const std::vector<Doubt>& bare) {
    const bool looked = std::all_of(bare.begin(), bare.end(),
                                    [](const Doubt& one) { return one.weighed.notFound != nullptr; });
    const bool several = bare.size() > 1;
    const std::string which = fieldsInWords(record, bare);
    findings.add({.rule = "uncited"_rule,
                  .span = record.span(bare.front().field->keyPlace),
                  .message = looked ? which + (several ? " are" : " is") +
                                          " cited only from where it was looked for in vain"
                                    : which + (several ? " have" : " has") + " no citation",
                  .hint =
                      "add `cite: source-id` to the record for all its fields, or beside one value; write "
                      "`judged: reason` for what you infer",
                  .record = record.reference(),
                  .field = oneField(bare)});
  });
}

}  // namespace saggar::checks
