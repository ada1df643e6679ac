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
    return cannot(environment, false, "there is no rule `" + base::shortened(id, 60) + "`",
                  near ? "did you mean `saggar why " + std::string(*near) + "`?" : "`saggar why` lists the rules");
  }
  environment.out(diagnostics::explanation(*rule));
  return kFine;
}

}  // namespace saggar::commands
