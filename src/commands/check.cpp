#include "base/edit_distance.h"
#include "base/text.h"
#include "commands/command.h"
#include "commands/pipeline.h"

namespace saggar::commands {
namespace {

// How much was looked at, so that an author sees that nothing was overlooked.
std::string nothingFound(const Guide& guide) {
  if (guide.collection.size() == 0) return "nothing found: the guide has no records yet\n";
  const std::size_t prose = guide.collection.read().prose.size();
  return "nothing found in " + base::counted(guide.collection.size(), "record") +
         (prose == 0 ? "" : " and " + base::counted(prose, "file") + " of prose") +
         (guide.report.waived == 0 ? "" : "; " + base::counted(guide.report.waived, "finding") + " waived") +
         '\n';
}

}  // namespace

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
  const auto guide = openGuide(environment, arguments.folder, json, options);
  if (guide == nullptr) return kCannot;
  const diagnostics::Report& report = guide->report;
  const auto& sources = guide->collection.sources();
  const bool clean = report.errors + report.warnings + report.notes == 0;
  environment.out(json    ? diagnostics::asJson(report, sources)
                  : clean ? nothingFound(*guide)
                          : diagnostics::asText(report, sources, {environment.colour}));
  const bool bad = report.errors != 0 || (arguments.strict && report.warnings != 0);
  return bad ? kFindings : kFine;
}

}  // namespace saggar::commands
