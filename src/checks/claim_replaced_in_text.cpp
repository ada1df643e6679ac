#include "checks/rules.h"

// What was taken back must not be leaned on: prose that links to a claim which was replaced or withdrawn.
namespace saggar::checks {

using linking::Mention;
using records::Kind;
using records::Record;
using records::RecordIndex;

namespace {

bool replaces(const linking::Collection& all, RecordIndex later, RecordIndex earlier) {
  for (const linking::BackReference& back : all.referredBy(earlier))
    if (back.field == "replaces"_f && back.from == later) return true;
  return false;
}

// What was replaced may have been replaced again.
RecordIndex newest(const linking::Collection& all, RecordIndex claim) {
  constexpr int kMostSteps = 100;  // a ring has no end
  for (int step = 0; claim != records::kNoRecord && step < kMostSteps; ++step) {
    const RecordIndex next = choosing::replacementOf(all, claim);
    if (next == records::kNoRecord) break;
    claim = next;
  }
  return claim;
}

}  // namespace

void claimReplacedInText(const Context& context, diagnostics::Findings& findings) {
  const linking::Collection& all = context.collection;
  for (const Mention& mention : all.mentions()) {
    const Record& claim = all[mention.target];
    if (claim.kind != Kind::claim) continue;
    if (mention.from != records::kNoRecord && mention.field != "note"_f && mention.field != "caption"_f &&
        mention.field != "say"_f)
      continue;
    RecordIndex by = choosing::replacementOf(all, mention.target);
    const bool withdrawn = claim.text("status"_f) == "withdrawn";
    if (by == records::kNoRecord && !withdrawn) continue;
    // A correction may speak of what it corrects.
    if (mention.from != records::kNoRecord &&
        (mention.from == mention.target || replaces(all, mention.from, mention.target)))
      continue;
    by = newest(all, by);
    diagnostics::Finding finding{
        .rule = "claim-replaced-in-text"_rule,
        .span = mention.span,
        .message = "this text leans on the claim `" + std::string(claim.id) + "`, which was " +
                   (by == records::kNoRecord ? "withdrawn" : "replaced"),
        .hint = by == records::kNoRecord
                    ? "take the statement out, or say that it was withdrawn and link to nothing"
                    : "link to `claim:" + std::string(all[by].id) + "`, and see that the words still hold",
        .record = mention.from == records::kNoRecord ? claim.reference() : all[mention.from].reference()};
    finding.records = {claim.reference()};
    if (mention.from != records::kNoRecord) finding.records.push_back(all[mention.from].reference());
    finding.related.push_back({claim.span(), "the claim stands here"});
    if (by != records::kNoRecord) finding.related.push_back({all[by].span(), "what replaces it stands here"});
    findings.add(std::move(finding));
  }
}

}  // namespace saggar::checks
