#include <algorithm>
#include <iterator>
#include <map>

#include "base/text.h"
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

// Null if it is not recorded, no measure, or doubted.
const Measure* measureOf(const Record& record, records::Field field) {
  const Value* value = record.find(field);
  return value == nullptr || value->isDoubted() ? nullptr : value->measure();
}

// What it holds at most, or what it measures at most; 0 if that is not said.
double holdsOf(const Record& record) {
  const Value* value = record.find("holds"_f);
  if (value == nullptr || value->isDoubted()) return 0;
  double most = 0;
  for (const Value& one : value->each())
    if (one.measure() != nullptr && one.measure()->isVolume() && !one.isDoubted())
      most = std::max(most, records::inMetric(*one.measure()));
  return most;
}

double actualOf(const Record& record) {
  const Measure* actual = measureOf(record, "actual"_f);
  return actual != nullptr && actual->isLength() ? records::inMetric(*actual) : 0;
}

// The forms of one family seen so far, so that a form that is out of order with any of them is found at once, however
// many there are. Of those with a higher count only the largest matter, of those with a lower count the smallest.
class Family {
 public:
  void add(double count, double size, RecordIndex form) {
    auto larger = largest_.lower_bound(count);
    if (larger == largest_.end() || larger->second.size < size) {
      auto at = largest_.insert_or_assign(count, Sized{size, form}).first;
      while (at != largest_.begin() && std::prev(at)->second.size <= size) largest_.erase(std::prev(at));
    }
    auto smaller = smallest_.upper_bound(count);
    if (smaller == smallest_.begin() || std::prev(smaller)->second.size > size) {
      auto at = smallest_.insert_or_assign(count, Sized{size, form}).first;
      while (std::next(at) != smallest_.end() && std::next(at)->second.size >= size)
        smallest_.erase(std::next(at));
    }
  }

  // A form of a higher count that is no smaller, or of a lower count that is no larger.
  RecordIndex against(double count, double size) const {
    const auto above = largest_.upper_bound(count);
    if (above != largest_.end() && above->second.size >= size) return above->second.form;
    const auto below = smallest_.lower_bound(count);
    if (below != smallest_.begin() && std::prev(below)->second.size <= size)
      return std::prev(below)->second.form;
    return records::kNoRecord;
  }

 private:
  struct Sized {
    double size;
    RecordIndex form;
  };
  std::map<double, Sized>
      largest_;  // falling in size as the count rises: the largest of that count or a higher one
  std::map<double, Sized>
      smallest_;  // falling in size as the count rises: the smallest of that count or a lower one
};

void reportOrder(const linking::Collection& all, RecordIndex later, RecordIndex earlier, bool byContent,
                 diagnostics::Findings& findings) {
  const auto field = byContent ? "holds"_f : "actual"_f;
  const bool laterIsLarger =
      measureOf(all[later], "nominal"_f)->value(0) < measureOf(all[earlier], "nominal"_f)->value(0);
  const Record& large = all[laterIsLarger ? later : earlier];  // the lower count is the larger piece
  const Record& small = all[laterIsLarger ? earlier : later];
  auto sized = [&](const Record& form) {
    return '`' + std::string(form.id) + "` (" + std::string(form.text("nominal"_f)) + ")";
  };
  auto size = [&](const Record& form) { return std::string(form.find(field)->each()[0].text); };
  findings.add(
      {.rule = "size-out-of-order"_rule,
       .span = all[later].span(all[later].find(field)->place),
       .message = sized(large) + (byContent ? " holds " : " measures ") + size(large) + ", no more than " +
                  sized(small) + " with " + size(small),
       .hint = "the higher the count, the smaller the piece: one of the two sizes is wrong, or they are of "
               "two families",
       .record = all[later].reference(),
       .field = std::string(field.name()),
       .records = {all[earlier].reference(), all[later].reference()},
       .related = {{all[earlier].span(all[earlier].find(field)->place), "the other size stands here"}}});
}

}  // namespace

void sizeDoubtful(const Context& context, diagnostics::Findings& findings) {
  for (RecordIndex index : context.collection.ofKind(Kind::form)) {
    const Record& form = context.collection[index];
    const Measure* nominal = measureOf(form, "nominal"_f);
    const Measure* actual = measureOf(form, "actual"_f);
    if (nominal == nullptr || actual == nullptr || nominal->unit != Unit::inch || !actual->isLength())
      continue;
    if (records::inMetric(*actual) >= records::inMetric(*nominal)) continue;
    const Value& typed = *form.find("actual"_f);
    const Value& listed = *form.find("nominal"_f);
    findings.add({.rule = "size-doubtful"_rule,
                  .span = form.span(typed.place),
                  .message = "the actual size of `" + std::string(form.id) + "`, " + std::string(typed.text) +
                             ", is below its nominal size, " + std::string(listed.text),
                  .hint = "measure again, overall and across the widest part; pieces measured more than the "
                          "lists say, never less",
                  .record = form.reference(),
                  .field = "actual",
                  .related = {{form.span(listed.place), "the nominal size stands here"}}});
  }
}

void sizeOutOfOrder(const Context& context, diagnostics::Findings& findings) {
  struct Families {
    Family byContent;
    Family bySize;  // of those that do not say what they hold
  };
  const linking::Collection& all = context.collection;
  std::map<std::string, Families> families;
  for (RecordIndex index : all.ofKind(Kind::form)) {
    const Record& form = all[index];
    const std::string_view name = form.text("family"_f);
    const Measure* nominal = measureOf(form, "nominal"_f);
    if (form.broken || name.empty() || nominal == nullptr || nominal->unit != Unit::countSize) continue;
    const double holds = holdsOf(form);
    const double size = holds > 0 ? holds : actualOf(form);
    if (size <= 0) continue;
    Families& own = families[base::folded(name)];
    Family& family = holds > 0 ? own.byContent : own.bySize;
    const RecordIndex other = family.against(nominal->value(0), size);
    if (other != records::kNoRecord) reportOrder(all, index, other, holds > 0, findings);
    family.add(nominal->value(0), size, index);
  }
}

}  // namespace saggar::checks
