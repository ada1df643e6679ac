#pragma once
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "choosing/choose.h"
#include "choosing/claim_test.h"
#include "choosing/code_readings.h"
#include "chronology/reasons.h"
#include "commands/environment.h"
#include "compose/materials.h"
#include "compose/places.h"
#include "diagnostics/report.h"
#include "evidence/evidence.h"
#include "linking/collection.h"

// The stages in their order. Every command that needs a guide runs them; what a stage made stays frozen.
namespace saggar::commands {

struct PipelineOptions {
  std::vector<diagnostics::Rule> only;  // findings wanted; empty: all
  bool checks = true;                   // false: stop when codes are read (for commands that only answer)
};

// Everything that is known of a guide. Made by runPipeline; never moved, since its parts refer to one another.
struct Guide {
  std::string folder;
  linking::Collection collection;
  std::unique_ptr<evidence::Weights> weights;
  std::unique_ptr<choosing::Bounds> ownBounds;  // what each record says of itself, by which codes are read
  std::unique_ptr<choosing::Chooser> reader;
  choosing::CodeReadings codes;
  chronology::Chronology chronology;
  std::unique_ptr<chronology::Reasons> reasons;
  std::unique_ptr<choosing::Bounds> bounds;  // likely days, by which records are chosen
  std::unique_ptr<choosing::Chooser> chooser;
  choosing::ClaimResults claims;
  std::unique_ptr<linking::Published> published;
  std::unique_ptr<compose::Materials> materials;
  std::unique_ptr<compose::Places> places;
  diagnostics::Settings settings;  // weights and waivers as the guide sets them
  diagnostics::Report report;
};

std::unique_ptr<Guide> runPipeline(const Environment& environment, const std::string& folder,
                                   const PipelineOptions& options = {});

// The guide in the folder `asked` for (from -C), or in the current folder or the nearest parent that holds a guide.yaml,
// read and reasoned about. Null, with the reason said, if there is none.
std::unique_ptr<Guide> openGuide(const Environment& environment, const std::string& asked, bool json,
                                 const PipelineOptions& options = {});

// Says once, on standard error, how many findings the guide has (for commands that print answers).
void sayFindings(const Environment& environment, const Guide& guide);

}  // namespace saggar::commands
