#include "checks/doubts.h"
#include "checks/rules.h"

// Two citations look like two witnesses, and one of them only repeats the other, or both a third.
namespace saggar::checks {

using records::Citation;
using records::Entry;
using records::Kind;
using records::Record;
using records::RecordIndex;
using records::Value;

namespace {

std::string called(const Record& record) {
  return '`' + (record.kind == Kind::source ? std::string(record.id) : record.reference()) + '`';
}

// Why the two are one witness: "`b` draws on `a`".
std::string tieInWords(const Context& context, RecordIndex first, RecordIndex second) {
  const linking::Collection& all = context.collection;
  const std::string one = called(all[first]);
  const std::string other = called(all[second]);
  if (first == second) return one + " is one witness, wherever in it you look";
  const RecordIndex common = context.weights.witnesses().commonTo(first, second);
  if (common == records::kNoRecord) return one + " and " + other + " are by the same person";
  const bool pieces = all[common].kind == Kind::specimen;
  if (common == first) return other + (pieces ? " shows " : " draws on ") + one;
  if (common == second) return one + (pieces ? " shows " : " draws on ") + other;
  return one + " and " + other + (pieces ? " both show " : " both draw on ") + called(all[common]);
}

// Where it is said that the two are one: what one of them draws on or shows, or who had a part in both.
diagnostics::Related whereTied(const Context& context, RecordIndex first, RecordIndex second) {
  const linking::Collection& all = context.collection;
  const RecordIndex common = context.weights.witnesses().commonTo(first, second);
  const Record& one = all[common == second ? first : second];
  if (common == records::kNoRecord)
    return {placeOf(one, one.kind == Kind::specimen ? "seen"_f : "by"_f), "who it comes from is said here"};
  if (one.kind == Kind::photo) return {placeOf(one, "shows"_f), "what it shows is said here"};
  return {placeOf(one, "draws-on"_f), "what it draws on is said here"};
}

}  // namespace

void witnessCountedTwice(const Context& context, diagnostics::Findings& findings) {
  const auto any = [](const Record&, const Entry&) { return true; };
  const auto is = [](const Record& record, const Entry& field, const Value&,
                     const evidence::Weighed& weighed) {
    return weighed.countedTwice && isPutForward(record, field, weighed.own);
  };
  eachInDoubt(context, any, is, [&](const Record& record, const std::vector<Doubt>& twice) {
    const Doubt& first = twice.front();
    const Citation* two[2] = {};
    std::size_t found = 0;
    const evidence::Backing backing{.evidence = first.weighed.evidence};
    for (const Citation& citation : first.weighed.evidence->cite)
      if (found < 2 && context.weights.counts(citation, *first.part, backing) == evidence::Counts::yes)
        two[found++] = &citation;
    const bool several = twice.size() > 1;
    findings.add(
        {.rule = "witness-counted-twice"_rule,
         .span = record.span(two[1]->idPlace),
         .message = fieldsInWords(record, twice) + (several ? " have" : " has") + " one witness, not " +
                    (first.weighed.counting == 2 ? "two" : std::to_string(first.weighed.counting)) + ": " +
                    tieInWords(context, two[0]->target, two[1]->target),
         .hint =
             "cite a source of the time, or an account that owes nothing to the others; keep one of these",
         .record = record.reference(),
         .field = oneField(twice),
         .related = {{record.span(two[0]->idPlace), "the first stands here"},
                     whereTied(context, two[0]->target, two[1]->target)},
         .facts = factNotes(record, twice)});
    if (two[0]->target == two[1]->target) findings.all().back().related.pop_back();
  });
}

}  // namespace saggar::checks
