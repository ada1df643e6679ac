#include "checks/rules.h"

// What was taken back must not be leaned on: prose that links to a claim which was replaced or withdrawn.
namespace saggar::checks {

using linking::Mention;
using records::Kind;
using records::Record;
using records::RecordIndex;

void claimReplacedInText(const Context& context, diagnostics::Findings& findings) {
  const linking::Collection& all = context.collection;
  for (const Mention& mention : all.mentions()) {
    const Record& claim = all[mention.target];
    if (claim.kind != Kind::claim) continue;
    if (mention.from != records::kNoRecord && mention.field != "note"_f && mention.field != "caption"_f && mention.field != "say"_f) continue;
    RecordIndex by = records::kNoRecord;
    for (const linking::BackReference& back : all.referredBy(mention.target))
      if (back.field == "replaces"_f) by = back.from;
    const bool withdrawn = claim.text("status"_f) == "withdrawn";
    if (by == records::kNoRecord && !withdrawn) continue;
    diagnostics::Finding finding{.rule = "claim-replaced-in-text"_rule,
                                 .span = mention.span,
                                 .message = "this text leans on the claim `" + std::string(claim.id) + "`, which was " + (by == records::kNoRecord ? "withdrawn" : "replaced"),
                                 .hint = by == records::kNoRecord ? "take the statement out, or say that it was withdrawn and link to nothing"
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
