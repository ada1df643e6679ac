#pragma once
#include "checks/check.h"

// Every rule's one public function.
namespace saggar::checks {

void uncited(const Context& context, diagnostics::Findings& findings);
void citationThin(const Context& context, diagnostics::Findings& findings);
void citationUnlocated(const Context& context, diagnostics::Findings& findings);
void gradedTooHigh(const Context& context, diagnostics::Findings& findings);
void sourceRing(const Context& context, diagnostics::Findings& findings);
void sourceTooEarly(const Context& context, diagnostics::Findings& findings);
void sourceUnused(const Context& context, diagnostics::Findings& findings);
void witnessCountedTwice(const Context& context, diagnostics::Findings& findings);
void variantTwice(const Context& context, diagnostics::Findings& findings);
void twins(const Context& context, diagnostics::Findings& findings);
void formsClash(const Context& context, diagnostics::Findings& findings);
void datesClash(const Context& context, diagnostics::Findings& findings);
void dateAtFaceValue(const Context& context, diagnostics::Findings& findings);
void sizeDoubtful(const Context& context, diagnostics::Findings& findings);
void sizeOutOfOrder(const Context& context, diagnostics::Findings& findings);
void photoFiles(const Context& context, diagnostics::Findings& findings);
void prosePictures(const Context& context, diagnostics::Findings& findings);
void photoWords(const Context& context, diagnostics::Findings& findings);
void talkTimes(const Context& context, diagnostics::Findings& findings);
void talkOrder(const Context& context, diagnostics::Findings& findings);
void layouts(const Context& context, diagnostics::Findings& findings);
void claimsTested(const Context& context, diagnostics::Findings& findings);
void claimReplacedInText(const Context& context, diagnostics::Findings& findings);
void privateInText(const Context& context, diagnostics::Findings& findings);
void codesRead(const Context& context, diagnostics::Findings& findings);
void codeShared(const Context& context, diagnostics::Findings& findings);
void codeOutOfOrder(const Context& context, diagnostics::Findings& findings);

}  // namespace saggar::checks
