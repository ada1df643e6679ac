#include <nlohmann/json.hpp>

#include <algorithm>
#include <filesystem>
#include <set>

#include "base/text.h"
#include "commands/command.h"
#include "commands/output.h"
#include "commands/pipeline.h"
#include "publishing/tree.h"

namespace saggar::commands {
namespace {

std::string asJson(const publishing::Committed& out, const publishing::Committed& own) {
  nlohmann::ordered_json object;
  object["files"] = nlohmann::ordered_json::array();
  std::size_t made = 0;
  std::uint64_t bytes = 0;
  for (const publishing::Committed* tree : {&out, &own}) {
    for (const publishing::MadeFile& file : tree->files) {
      if (!file.made) continue;
      object["files"].push_back({{"path", (tree == &own ? "own/" : "") + file.path},
                                 {"sha256", file.sha256},
                                 {"bytes", file.bytes}});
      ++made;
      bytes += file.bytes;
    }
  }
  object["counts"] = {{"files", made}, {"bytes", bytes}};
  return object.dump(-1, ' ', false, nlohmann::ordered_json::error_handler_t::replace) + '\n';
}

std::string inWords(const publishing::Committed& out, const publishing::Committed& own,
                    const std::string& outFolder, const std::string& ownFolder,
                    const std::vector<std::string>& parts) {
  std::string words;
  for (const std::string& part : parts) {
    std::size_t count = 0;
    for (const publishing::MadeFile& file : out.files)
      count += file.made && file.path.starts_with(part) ? 1 : 0;
    words += "  " + part + ": " + base::counted(count, "file") + '\n';
  }
  std::size_t forAuthor = 0;
  for (const publishing::MadeFile& file : own.files)
    forAuthor += file.made && file.path != "manifest.json" ? 1 : 0;
  return (out.changed ? "made `" : "nothing has changed in `") + outFolder + "`:\n" + words +
         (forAuthor == 0
              ? ""
              : "and for your eyes only, in `" + ownFolder + "`: " + base::counted(forAuthor, "file") + '\n');
}

// What only the author sees lies beside what is published, wherever that is made.
std::string besideOf(const std::string& out) {
  const std::filesystem::path beside = (std::filesystem::path(out) / "").lexically_normal() / ".." / "own";
  return beside.lexically_normal().string();
}

}  // namespace

int make(const Environment& environment, const MakeArguments& arguments) {
  const bool json = arguments.format == "json";
  const auto guide = openGuide(environment, arguments.folder, json);
  if (guide == nullptr) return kCannot;
  const auto& sources = guide->collection.sources();
  if (guide->report.errors != 0 && !arguments.draft) {
    diagnostics::Report errors;
    for (const diagnostics::Finding& finding : guide->report.findings)
      if (finding.weight() == diagnostics::Severity::error && !finding.waived)
        errors.findings.push_back(finding);
    errors.errors = guide->report.errors;
    environment.err(diagnostics::asText(errors, sources, {false}));
    cannot(environment, json,
           "the guide has " + base::counted(guide->report.errors, "error") + ", and nothing was written",
           "put them right, or make a draft in spite of them with `--draft`");
    return kFindings;
  }
  guide->materials->draft = guide->report.errors != 0;

  publishing::TreeSettings out{.folder = arguments.out,
                               .from = environment.currentFolder,
                               .guide = guide->folder,
                               .tree = "out",
                               .parts = {},
                               .onWait = {},
                               .disk = nullptr};
  const std::vector<std::string> parts =
      partsToMake(arguments.parts, publishing::isPublished(out, "corrections.md"));
  out.parts = parts;
  const bool withOwn = std::find(parts.begin(), parts.end(), "talks") != parts.end();

  out.onWait = [&](const std::string& words) { environment.err("saggar: " + words + '\n'); };
  const std::string ownFolder = arguments.own.empty() ? besideOf(arguments.out) : arguments.own;
  publishing::TreeSettings own{.folder = ownFolder,
                               .from = environment.currentFolder,
                               .guide = guide->folder,
                               .tree = "own",
                               // Who named no folder for it moves both by moving the other.
                               .option = arguments.own.empty() ? "-o" : "--own",
                               .parts = {"talks"},
                               .onWait = {},
                               .disk = nullptr};
  own.onWait = out.onWait;
  publishing::OpenedPair trees;
  if (withOwn) {
    trees = publishing::openPair(out, own);
  } else {
    publishing::Publication::Opened opened = publishing::Publication::open(out);
    trees.out = std::move(opened.publication);
    trees.problem = opened.problem;
  }
  if (trees.problem) return cannot(environment, json, trees.problem->error, trees.problem->hint);

  const OutputResult written = writeOutputs(environment, *guide, parts, *trees.out, trees.own.get());
  for (const std::string& notice : written.notices) environment.err("saggar: " + notice + '\n');
  // Waivers of what `check` finds have done their work.
  diagnostics::Settings printing = guide->settings;
  std::erase_if(printing.waivers, [](const diagnostics::Waiver& one) { return !one.rule.info().whenMade; });
  const diagnostics::Report printed = diagnostics::makeReport(written.findings, printing, sources);
  if (!printed.findings.empty()) environment.err(diagnostics::asText(printed, sources, {environment.colour}));
  if (!written.error.empty()) return cannot(environment, json, written.error, written.hint);

  if (printed.errors != 0 && !arguments.draft) {
    cannot(environment, json,
           "setting the pages found " + base::counted(printed.errors, "error") + ", and nothing was written",
           "put them right, or make a draft in spite of them with `--draft`");
    return kFindings;
  }
  // Of two trees none is exchanged if the other cannot be.
  const auto ownProblem = trees.own ? trees.own->problem() : std::nullopt;
  if (ownProblem && !trees.out->problem())
    return cannot(environment, json, ownProblem->error, ownProblem->hint);
  const publishing::Committed committed = trees.out->commit();
  if (committed.problem) return cannot(environment, json, committed.problem->error, committed.problem->hint);
  publishing::Committed committedOwn;
  if (trees.own) {
    committedOwn = trees.own->commit();
    if (committedOwn.problem)
      return cannot(environment, json, committedOwn.problem->error, committedOwn.problem->hint);
  }
  for (const publishing::Committed* tree :
       {&committed, static_cast<const publishing::Committed*>(&committedOwn)})
    for (const std::string& notice : tree->notices) environment.err("saggar: " + notice + '\n');
  environment.out(json ? asJson(committed, committedOwn)
                       : inWords(committed, committedOwn, arguments.out, ownFolder, parts));
  if (guide->materials->draft)
    environment.err("saggar: this is a draft: the guide has " + diagnostics::countsInWords(guide->report) +
                    "; see `saggar check`\n");
  else if (!json)
    sayFindings(environment, *guide);
  return guide->report.errors != 0 ? kFindings : kFine;
}

}  // namespace saggar::commands
