#pragma once
#include "diagnostics/report.h"
#include "linking/collection.h"

namespace saggar::linking {

// Resolves every reference of a guide that was read and freezes it. Findings: id-twice, reference-missing,
// reference-ambiguous, value-unfit (values no feature has), waiver-unfit, and those of links in prose. A reference to
// a record that could not be read is not reported.
// `rules` receives what guide.yaml sets: severities and waivers.
Collection link(records::ReadGuide guide, diagnostics::Findings& findings, diagnostics::Settings& rules);

}  // namespace saggar::linking
