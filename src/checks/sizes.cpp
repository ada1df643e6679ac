#include <algorithm>
#include <map>

#include "checks/rules.h"
#include "records/measure.h"

// Sizes of the trade: the actual measure was larger than the nominal inches, and count sizes fall as the count rises
// (R. Copeland, Manufacturing Processes of Tableware, appendix on trade sizes; G. L. Miller, notes on trade sizes, 2011).
namespace saggar::checks {

using records::Kind;
using records::Measure;
using records::Record;
using records::RecordIndex;
using records::Unit;
using records::Value;

namespace {

const Measure* measureOf(const Record& record, records::Field field) {
  const Value* value = record.find(field);
  return value == nullptr ? nullptr : value->measure();
}

double holdsOf(const Record& record) {
  const Value* value = record.find("holds"_f);
  double most = 0;
  if (value != nullptr)
    for (const Value& one : value->each())
      if (one.measure() != nullptr) most = std::max(most, records::inMetric(*one.measure()));
  return most;
}

struct Sized {
  RecordIndex index;
  double count;
  double holds;   // millilitres; 0: not said
  double actual;  // millimetres; 0: not said
};

}  // namespace

void sizeDoubtful(const Context& context, diagnostics::Findings& findings) {
  for (RecordIndex index : context.collection.ofKind(Kind::form)) {
    const Record& form = context.collection[index];
    const Measure* nominal = measureOf(form, "nominal"_f);
    const Measure* actual = measureOf(form, "actual"_f);
    if (nominal == nullptr || actual == nullptr || nominal->unit != Unit::inch || !actual->isLength()) continue;
    if (records::inMetric(*actual) >= records::inMetric(*nominal)) continue;
    const Value& typed = *form.find("actual"_f);
    const Value& listed = *form.find("nominal"_f);
    findings.add({.rule = "size-doubtful"_rule,
                  .span = form.span(typed.place),
                  .message = "the actual size of `" + std::string(form.id) + "`, " + std::string(typed.text) + ", is below its nominal size, " + std::string(listed.text),
                  .hint = "measure again, overall and across the widest part; pieces measured more than the lists say, never less",
                  .record = form.reference(),
                  .field = "actual",
                  .related = {{form.span(listed.place), "the nominal size stands here"}}});
  }
}

void sizeOutOfOrder(const Context& context, diagnostics::Findings& findings) {
  std::map<std::string_view, std::vector<Sized>> families;
  for (RecordIndex index : context.collection.ofKind(Kind::form)) {
    const Record& form = context.collection[index];
    const std::string_view family = form.text("family"_f);
    const Measure* nominal = measureOf(form, "nominal"_f);
    if (family.empty() || nominal == nullptr || nominal->unit != Unit::countSize) continue;
    const Measure* actual = measureOf(form, "actual"_f);
    families[family].push_back({index, nominal->value(0), holdsOf(form), actual != nullptr && actual->isLength() ? records::inMetric(*actual) : 0});
  }
  for (const auto& [family, forms] : families) {
    for (std::size_t later = 0; later < forms.size(); ++later) {
      for (std::size_t earlier = 0; earlier < later; ++earlier) {
        const bool laterIsLarger = forms[later].count < forms[earlier].count;
        if (forms[later].count == forms[earlier].count) continue;
        const Sized& large = laterIsLarger ? forms[later] : forms[earlier];  // the lower count is the larger piece
        const Sized& small = laterIsLarger ? forms[earlier] : forms[later];
        const bool byContent = large.holds > 0 && small.holds > 0;
        const bool bySize = large.holds == 0 && small.holds == 0 && large.actual > 0 && small.actual > 0;
        if (!(byContent && large.holds <= small.holds) && !(bySize && large.actual <= small.actual)) continue;
        const Record& at = context.collection[forms[later].index];
        const Record& other = context.collection[forms[earlier].index];
        const auto field = byContent ? "holds"_f : "actual"_f;
        const Record& largeForm = context.collection[large.index];
        const Record& smallForm = context.collection[small.index];
        findings.add({.rule = "size-out-of-order"_rule,
                      .span = at.span(at.find(field)->place),
                      .message = "`" + std::string(largeForm.id) + "` (" + std::string(largeForm.text("nominal"_f)) + ") " + (byContent ? "holds " : "measures ") +
                                 std::string(largeForm.find(field)->each()[0].text) + ", no more than `" + std::string(smallForm.id) + "` (" +
                                 std::string(smallForm.text("nominal"_f)) + ") with " + std::string(smallForm.find(field)->each()[0].text),
                      .hint = "the higher the count, the smaller the piece: one of the two sizes is wrong, or they are of two families",
                      .record = at.reference(),
                      .field = std::string(field.name()),
                      .records = {other.reference(), at.reference()},
                      .related = {{other.span(other.find(field)->place), "the other size stands here"}}});
        break;  // one finding at the later record
      }
    }
  }
}

}  // namespace saggar::checks
