#include <algorithm>

#include "checks/doubts.h"
#include "checks/rules.h"

// A statement that rests on later accounts alone, none of them borne out by another, is only suggested.
namespace saggar::checks {

using evidence::Form;
using evidence::Information;
using evidence::Worth;
using records::Citation;
using records::Entry;
using records::Kind;
using records::Record;
using records::Value;

namespace {

// "`dunnavick-1974`, an authored account at second hand".
std::string accountInWords(const Context& context, const Citation& citation) {
  const std::string id = citation.kind == Kind::source
                             ? std::string(citation.id)
                             : std::string(name(citation.kind)) + ':' + std::string(citation.id);
  const std::string which = '`' + id + '`';
  const Record& cited = context.collection[citation.target];
  if (cited.kind == Kind::specimen)
    return which + (cited.find("seen"_f) == nullptr ? ", a piece that nobody is said to have seen"
                                                    : ", a piece that was only reported");
  const Value* type = cited.find("type"_f);
  if (type == nullptr && cited.find("record"_f) == nullptr) return which + ", of which no `type` is recorded";
  const Worth worth = context.weights.worthOf(citation);
  return which + (worth.form == Form::derivative ? ", a copy" : ", an authored account") +
         (worth.information == Information::secondary ? " at second hand"
          : worth.information == Information::primary ? " at first hand"
                                                      : " of unknown origin");
}

}  // namespace

void citationThin(const Context& context, diagnostics::Findings& findings) {
  const auto is = [](const Record&, const Entry&, const Value&, const evidence::Weighed& weighed) {
    return weighed.standing == evidence::Standing::suggested && !weighed.countedTwice && !weighed.lost;
  };
  eachInDoubt(context, wantsEvidence, is, [&](const Record& record, const std::vector<Doubt>& thin) {
    const Citation& first = *thin.front().weighed.best;
    const bool all = std::all_of(thin.begin(), thin.end(), [&](const Doubt& one) {
      return one.weighed.best->target == first.target && one.weighed.counting == 1;
    });
    const bool several = thin.size() > 1;
    const bool claim = record.kind == Kind::claim;
    findings.add({.rule = "citation-thin"_rule,
                  .span = record.span(first.idPlace),
                  .message = fieldsInWords(record, thin) +
                             (all ? (several ? " rest on " : " rests on ") + accountInWords(context, first) +
                                        ", and on nothing else"
                                  : std::string(several ? " are" : " is") + " only suggested"),
                  .hint = std::string("cite a source of the time beside it, or a second account that owes "
                                      "nothing to the first; ") +
                          (claim ? "what you only think likely is `status: supposed`"
                                 : "write `judged: reason` for what you infer"),
                  .record = record.reference(),
                  .field = oneField(thin),
                  .related = {{context.collection[first.target].span(), "this is all it rests on"}},
                  .facts = factNotes(record, thin)});
    if (!all) findings.all().back().related.front().message = "one of the accounts it rests on";
  });
}

}  // namespace saggar::checks
