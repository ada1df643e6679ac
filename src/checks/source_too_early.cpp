#include "checks/doubts.h"
#include "checks/rules.h"
#include "dates/print.h"

// A book that ends in 1945 cannot show what happened in 1955.
namespace saggar::checks {

using records::Citation;
using records::Entry;
using records::Kind;
using records::Record;
using records::Value;

namespace {

// "`price-list-9`, which is of 1929 and", "`deco-book`, which ends on 31 December 1945 and", "the entry in `deco-book` of March
// 1937", if that is what the citation is dated.
std::string whatIsCited(const Context& context, const Citation& citation, const std::string& which) {
  const dates::Expression* date = context.weights.dateOf(citation);
  const dates::Bounds days = date->wide(context.collection.settings().dates);
  if (citation.dated != nullptr)
    return "the entry in `" + which + "` of " + dates::describeBounds(days) + ", which";
  const bool one = date->shape() == dates::Shape::Date;
  return '`' + which + "`, which " +
         (one ? "is of " + dates::describeBounds(days) : "ends on " + dates::describeDay(days.latest)) +
         " and";
}

}  // namespace

void sourceTooEarly(const Context& context, diagnostics::Findings& findings) {
  const auto any = [](const Record&, const Entry&) { return true; };
  const auto is = [](const Record& record, const Entry& field, const Value&,
                     const evidence::Weighed& weighed) {
    return weighed.standing == evidence::Standing::uncited && weighed.tooEarly != nullptr &&
           isPutForward(record, field, weighed.own);
  };
  eachInDoubt(context, any, is, [&](const Record& record, const std::vector<Doubt>& early) {
    const Citation& citation = *early.front().weighed.tooEarly;
    const bool several = early.size() > 1;
    const std::string which = citation.kind == Kind::source
                                  ? std::string(citation.id)
                                  : std::string(name(citation.kind)) + ':' + std::string(citation.id);
    std::vector<diagnostics::Related> related;
    if (citation.dated == nullptr && citation.target != records::kNoRecord)
      related.push_back({placeOf(context.collection[citation.target], "date"_f), "its date stands here"});
    findings.add(
        {.rule = "source-too-early"_rule,
         .span = record.span(citation.idPlace),
         .message = fieldsInWords(record, early) + (several ? " are" : " is") + " later than " +
                    whatIsCited(context, citation, which) + " cannot show it",
         .hint = "cite a source of that time or later, or look at the dates again; write `judged: reason` "
                 "for what you infer",
         .record = record.reference(),
         .field = oneField(early),
         .related = std::move(related),
         .facts = factNotes(record, early)});
  });
}

}  // namespace saggar::checks
