#include "commands/pipeline.h"

#include "base/memory.h"
#include "checks/check.h"
#include "checks/sets_to_doubt.h"
#include "choosing/network_bounds.h"
#include "linking/link.h"
#include "reading/guide_reader.h"

namespace saggar::commands {
namespace {

void showProgress(const Environment& environment, std::size_t done, std::size_t all) {
  if (!environment.progress || all < 50 || (done % 50 != 0 && done != all)) return;
  environment.err("\rreading " + std::to_string(done) + " of " + std::to_string(all) + " files" +
                  (done == all ? "\r\x1b[K" : ""));
}

// What clashes is disputed from now on; readings of codes that documented days rule out are struck out.
void reasonAboutDates(Guide& guide) {
  guide.chronology = chronology::Chronology::reason(guide.collection, *guide.weights, *guide.codes.days());
  guide.reasons = std::make_unique<chronology::Reasons>(guide.collection, *guide.weights, guide.chronology);
  for (const chronology::FactId fact : guide.chronology.disputed())
    if (!guide.chronology.fact(fact).cites()) guide.weights->dispute(*guide.chronology.fact(fact).value);
  std::vector<choosing::CodeReadings::StruckOut> struck;
  for (const auto& one : guide.chronology.struckOut()) {
    choosing::CodeReadings::StruckOut out{one.code, one.reading, {}};
    for (const chronology::FactId fact : one.because) {
      const chronology::Reason reason = guide.reasons->of(fact);
      const chronology::Fact& stated = guide.chronology.fact(fact);
      out.because.push_back({.reason = choosing::Against::Reason::dates,
                             .says = reason.says,
                             .span = reason.span,
                             .record = stated.record,
                             .field = stated.field,
                             .value = stated.cites() ? nullptr : stated.value});
    }
    struck.push_back(std::move(out));
  }
  guide.codes.strikeOut(std::move(struck));
}

std::optional<std::string> findGuideFolder(const Environment& environment, const std::string& asked,
                                           std::string& reason, std::string& hint) {
  auto typeOf = [&](const std::string& path) { return environment.files.status(path).type; };
  auto holdsGuide = [&](const std::string& folder) {
    return typeOf(source::pathJoined(folder, "guide.yaml")) == source::FileType::file;
  };
  if (!asked.empty()) {
    if (holdsGuide(asked)) return asked;
    const std::string shown = '`' + asked + '`';
    hint = "name the folder that holds guide.yaml, or begin a guide with `saggar blank guide " + asked + "`";
    switch (typeOf(asked)) {
      case source::FileType::folder:
        reason = "there is no guide.yaml in " + shown;
        if (typeOf(source::pathJoined(asked, "guide.yaml")) == source::FileType::missing) break;
        reason = "guide.yaml in " + shown + " is no file";
        hint = "move it away, and write a guide.yaml; `saggar blank guide DIR` shows one";
        break;
      case source::FileType::missing: reason = "there is no folder " + shown; break;
      default: {
        reason = shown + " is a file, and a guide is a folder";
        hint = "name the folder that holds guide.yaml; `saggar blank guide my-guide` begins a new one";
        for (std::string around = asked; around != "." && around != "/";) {
          const std::size_t slash = around.rfind('/');
          around = slash == std::string::npos ? "." : slash == 0 ? "/" : around.substr(0, slash);
          if (!holdsGuide(around)) continue;
          hint = "name the folder that holds guide.yaml: `-C " + around + "`";
          break;
        }
      }
    }
    return std::nullopt;
  }
  std::string folder = environment.currentFolder;
  std::string relative = ".";
  while (true) {
    if (holdsGuide(folder)) return relative == "." ? std::string(".") : folder;
    const std::size_t slash = folder.rfind('/');
    if (slash == std::string::npos || folder.size() <= 1) break;
    folder = slash == 0 ? "/" : folder.substr(0, slash);
    relative = "..";
  }
  reason = "there is no guide.yaml here or in a folder above";
  hint = "go to the guide's folder, name it with -C, or begin a guide with `saggar blank guide my-guide`";
  return std::nullopt;
}

}  // namespace

std::unique_ptr<Guide> runPipeline(const Environment& environment, const std::string& folder,
                                   const PipelineOptions& options) {
  auto guide = std::make_unique<Guide>();
  guide->folder = folder;
  diagnostics::Findings findings;
  diagnostics::Settings& settings = guide->settings;
  settings.only = options.only;

  // Read: YAML and prose become records and texts, each with its place.
  reading::ReadOptions read;
  read.progress = [&](std::size_t done, std::size_t all) { showProgress(environment, done, all); };
  records::ReadGuide typed = reading::readGuide(environment.files, folder, findings, read);

  // Link: names become records. From here on the collection is frozen.
  guide->collection = linking::link(std::move(typed), findings, settings);

  // Weigh: what each source is worth as evidence.
  guide->weights = std::make_unique<evidence::Weights>(guide->collection);

  // Read codes: every way in which each can be meant, by what its own record says.
  guide->ownBounds = std::make_unique<choosing::OwnBounds>(guide->collection, dates::Reading::Plain);
  guide->reader = std::make_unique<choosing::Chooser>(guide->collection, *guide->ownBounds);
  guide->codes = choosing::CodeReadings::read(*guide->reader, findings);
  base::giveFreedMemoryBack();

  // Reason: when things happened, and what cannot all be true.
  reasonAboutDates(*guide);
  base::giveFreedMemoryBack();
  guide->bounds = std::make_unique<choosing::NetworkBounds>(guide->chronology, chronology::BoundsOf::likely);
  guide->chooser = std::make_unique<choosing::Chooser>(guide->collection, *guide->bounds);

  // Test: whether the records bear out what the guide claims.
  guide->claims = choosing::ClaimResults::of(guide->collection, *guide->weights, guide->chronology);

  // Plan: where everything will stand in print, without composing a word.
  guide->published = std::make_unique<linking::Published>(guide->collection);
  guide->materials = std::make_unique<compose::Materials>(compose::Materials{
      *guide->published, *guide->chooser, guide->codes, *guide->weights, guide->chronology, guide->claims});
  guide->places = std::make_unique<compose::Places>(compose::Places::plan(*guide->materials, findings));

  // Check: rules look, nothing is changed.
  const checks::Context context{guide->collection, *guide->chooser,   guide->codes, environment.files,
                                *guide->weights,   guide->chronology, guide->claims};
  if (options.checks) {
    choosing::checkConditions(guide->collection, findings);
    checks::runChecks(context, options.only, findings);
  }
  guide->report = diagnostics::makeReport(std::move(findings), settings, guide->collection.sources());
  if (options.checks) guide->report.doubts = checks::setsToDoubt(context);
  base::giveFreedMemoryBack();
  return guide;
}

std::unique_ptr<Guide> openGuide(const Environment& environment, const std::string& asked, bool json,
                                 const PipelineOptions& options) {
  std::string reason;
  std::string hint;
  if (const auto folder = findGuideFolder(environment, asked, reason, hint))
    return runPipeline(environment, *folder, options);
  cannot(environment, json, reason, hint);
  return nullptr;
}

void sayFindings(const Environment& environment, const Guide& guide) {
  const diagnostics::Report& report = guide.report;
  if (report.errors + report.warnings + report.notes == 0) return;
  environment.err("saggar: the guide has " + diagnostics::countsInWords(report) + "; see `saggar check`\n");
}

}  // namespace saggar::commands
