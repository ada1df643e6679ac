#include "base/edit_distance.h"
#include "commands/command.h"
#include "commands/pipeline.h"

namespace saggar::commands {

int check(const Environment& environment, const CheckArguments& arguments) {
  const bool json = arguments.format == "json";
  PipelineOptions options;
  for (const std::string& id : arguments.only) {
    const auto rule = diagnostics::ruleNamed(id);
    if (!rule) {
      const auto near = base::nearest(id, diagnostics::ruleIds());
      return cannot(environment, json, "there is no rule `" + id + "`",
                    near ? "did you mean `" + std::string(*near) + "`?" : "`saggar why` lists the rules");
    }
    options.only.push_back(*rule);
  }
  std::string reason;
  std::string hint;
  const auto folder = findGuideFolder(environment, arguments.folder, reason, hint);
  if (!folder) return cannot(environment, json, reason, hint);
  const auto guide = runPipeline(environment, *folder, options);
  const auto& sources = guide->collection.sources();
  environment.out(json ? diagnostics::asJson(guide->report, sources)
                       : diagnostics::asText(guide->report, sources, {environment.colour}));
  const bool bad = guide->report.errors != 0 || (arguments.strict && guide->report.warnings != 0);
  return bad ? kFindings : kFine;
}

}  // namespace saggar::commands
