#include <algorithm>
#include <atomic>
#include <thread>
#include <vector>

#include "checks/rules.h"

namespace saggar::checks {
namespace {

constexpr diagnostics::Rule kUncited[] = {"uncited"_rule};
constexpr diagnostics::Rule kThin[] = {"citation-thin"_rule};
constexpr diagnostics::Rule kWitness[] = {"witness-counted-twice"_rule};
constexpr diagnostics::Rule kEarly[] = {"source-too-early"_rule};
constexpr diagnostics::Rule kRing[] = {"source-ring"_rule};
constexpr diagnostics::Rule kGraded[] = {"graded-too-high"_rule};
constexpr diagnostics::Rule kUnlocated[] = {"citation-unlocated"_rule};
constexpr diagnostics::Rule kUnused[] = {"source-unused"_rule};
constexpr diagnostics::Rule kTwice[] = {"variant-twice"_rule};
constexpr diagnostics::Rule kTwins[] = {"twins"_rule};
constexpr diagnostics::Rule kForms[] = {"forms-clash"_rule};
constexpr diagnostics::Rule kDates[] = {
    "date-before-shape"_rule, "date-after-shape"_rule,  "date-before-motif"_rule, "date-after-motif"_rule,
    "mark-out-of-time"_rule,  "works-out-of-time"_rule, "maker-out-of-time"_rule, "supplier-out-of-time"_rule,
    "look-out-of-time"_rule,  "code-out-of-order"_rule, "dates-clash"_rule};
constexpr diagnostics::Rule kFaceValue[] = {"date-at-face-value"_rule};
constexpr diagnostics::Rule kDoubtful[] = {"size-doubtful"_rule};
constexpr diagnostics::Rule kSizes[] = {"size-out-of-order"_rule};
constexpr diagnostics::Rule kPhotoFiles[] = {"photo-missing"_rule, "path-outside"_rule,
                                             "file-unreadable"_rule};
constexpr diagnostics::Rule kPictures[] = {"link-missing"_rule, "path-outside"_rule, "file-unreadable"_rule};
constexpr diagnostics::Rule kPhotoWords[] = {"photo-without-rights"_rule, "photo-without-alt"_rule,
                                             "value-unfit"_rule};
constexpr diagnostics::Rule kTalks[] = {"talk-sum"_rule, "talk-over-budget"_rule};
constexpr diagnostics::Rule kTalkOrder[] = {"talk-order"_rule};
constexpr diagnostics::Rule kLayouts[] = {"layout-unfit"_rule};
constexpr diagnostics::Rule kClaims[] = {"claim-broken"_rule, "claim-open"_rule};
constexpr diagnostics::Rule kReplaced[] = {"claim-replaced-in-text"_rule};
constexpr diagnostics::Rule kPrivate[] = {"private-in-text"_rule};
constexpr diagnostics::Rule kCodes[] = {"code-unread"_rule, "code-disagrees"_rule};
constexpr diagnostics::Rule kShared[] = {"code-shared"_rule};
constexpr diagnostics::Rule kOrder[] = {"code-out-of-order"_rule};

constexpr Check kChecks[] = {
    {kThin, citationThin},
    {kWitness, witnessCountedTwice},
    {kEarly, sourceTooEarly},
    {kRing, sourceRing},
    {kGraded, gradedTooHigh},
    {kUncited, uncited},
    {kUnlocated, citationUnlocated},
    {kUnused, sourceUnused},
    {kTwice, variantTwice},
    {kTwins, twins},
    {kForms, formsClash},
    {kDates, datesClash},
    {kFaceValue, dateAtFaceValue},
    {kDoubtful, sizeDoubtful},
    {kSizes, sizeOutOfOrder},
    {kPhotoFiles, photoFiles},
    {kPictures, prosePictures},
    {kPhotoWords, photoWords},
    {kTalks, talkTimes},
    {kTalkOrder, talkOrder},
    {kLayouts, layouts},
    {kClaims, claimsTested},
    {kReplaced, claimReplacedInText},
    {kPrivate, privateInText},
    {kCodes, codesRead},
    {kShared, codeShared},
    {kOrder, codeOutOfOrder},
};

}  // namespace

std::span<const Check> allChecks() {
  return kChecks;
}

void runChecks(const Context& context, std::span<const diagnostics::Rule> only,
               diagnostics::Findings& findings) {
  std::vector<const Check*> wanted;
  for (const Check& check : kChecks) {
    const bool any =
        only.empty() || std::any_of(check.rules.begin(), check.rules.end(), [&](diagnostics::Rule rule) {
          return std::find(only.begin(), only.end(), rule) != only.end();
        });
    if (any) wanted.push_back(&check);
  }
  std::vector<diagnostics::Findings> parts(wanted.size());
  std::atomic<std::size_t> next{0};
  auto work = [&] {
    for (std::size_t i = next++; i < wanted.size(); i = next++) wanted[i]->run(context, parts[i]);
  };
  constexpr std::size_t kWorthwhile = 2000;
  const std::size_t threads = context.collection.size() < kWorthwhile
                                  ? 1
                                  : std::clamp<std::size_t>(std::thread::hardware_concurrency(), 1, 8);
  std::vector<std::thread> others;
  for (std::size_t i = 1; i < threads; ++i) others.emplace_back(work);
  work();
  for (std::thread& one : others) one.join();
  for (diagnostics::Findings& part : parts) findings.append(std::move(part));
}

}  // namespace saggar::checks
