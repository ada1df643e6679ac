#include "base/edit_distance.h"
#include "base/text.h"
#include "commands/command.h"
#include "diagnostics/rules.h"

namespace saggar::commands {

int why(const Environment& environment, const WhyArguments& arguments) {
  if (arguments.rule.empty()) {
    std::string out;
    for (const diagnostics::RuleInfo& rule : diagnostics::kRules) {
      std::string line(rule.id);
      line.resize(std::max<std::size_t>(line.size() + 2, 26), ' ');
      std::string severity(toString(rule.severity));
      severity.resize(9, ' ');
      out += line + severity + std::string(rule.says) + '\n';
    }
    environment.out(out);
    return kFine;
  }
  std::string id = arguments.rule;
  if (id.size() > 2 && id.front() == '[' && id.back() == ']') id = id.substr(1, id.size() - 2);
  const auto rule = diagnostics::ruleNamed(id);
  if (!rule) {
    const auto near = base::nearest(id, diagnostics::ruleIds());
    return cannot(
        environment, false, "there is no rule `" + base::shortened(id, 60) + "`",
        near ? "did you mean `saggar why " + std::string(*near) + "`?" : "`saggar why` lists the rules");
  }
  const std::string_view text = diagnostics::explanation(*rule);
  if (text.empty()) {
    const diagnostics::RuleInfo& info = rule->info();
    environment.out("# " + std::string(info.id) + "\n\nFinds " + std::string(info.says) +
                    ". Its weight is `" + std::string(toString(info.severity)) + "`; it " +
                    (info.waivable ? "can be waived in guide.yaml, with the records it names and the reason"
                                   : "cannot be waived") +
                    ".\n\nThe finding itself says what was seen and what to type instead.\n");
    return kFine;
  }
  environment.out(text);
  return kFine;
}

}  // namespace saggar::commands
