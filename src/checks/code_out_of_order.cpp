#include "checks/rules.h"

// A number above the last of its series. That numbers follow one another in time is for the network of dates to say.
namespace saggar::checks {

using choosing::CodeOnRecord;
using choosing::CodeReading;

void codeOutOfOrder(const Context& context, diagnostics::Findings& findings) {
  const linking::Collection& all = context.collection;
  for (const CodeOnRecord& code : context.codes.all()) {
    const CodeReading* only = code.only();
    if (only == nullptr || !only->reading.number || code.field == "code-seen"_f) continue;
    const records::Record& record = all[code.record];
    const codes::Rule& rule = *only->rule->rule;
    if (record.broken || rule.series().empty()) continue;
    const codes::NumberBounds bounds = rule.series().bounds(*only->reading.number, rule.ordered());
    if (!bounds.beyondLast) continue;
    const std::string text(code.value->text);
    findings.add({.rule = "code-out-of-order"_rule,
                  .span = record.span(code.value->place),
                  .message = '`' + text + "` is above " + std::to_string(*bounds.beyondLast) +
                             ", the last number by `" + only->rule->name + '`',
                  .hint = "put the code right, or `last-of` of the rule",
                  .record = record.reference(),
                  .field = std::string(code.field.name()),
                  .records = {record.reference()},
                  .related = {{all[only->rule->maker].span(only->rule->source->place),
                               "the rule `" + only->rule->name + "` stands here"}},
                  .facts = {{record.reference(),
                             std::string(code.field.name()),
                             text,
                             {},
                             record.span(code.value->place)}}});
  }
}

}  // namespace saggar::checks
