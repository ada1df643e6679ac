#include <algorithm>
#include <map>

#include "base/text.h"
#include "checks/rules.h"
#include "choosing/made_in_clash.h"

// A shape's list of pieces and the pieces' own `made-in` that cannot both be right. Of a statement that stands against
// several others there is one finding, at that statement: it is the likely mistake.
namespace saggar::checks {

using choosing::MadeInClash;
using records::Record;
using records::RecordIndex;
using records::Value;

namespace {

constexpr std::size_t kMostNamed = 6;
constexpr std::size_t kMostRelated = 10;

class Sides {
 public:
  explicit Sides(const Context& context) : all_(context.collection) {}

  diagnostics::Finding finding(bool atForm, std::span<const MadeInClash> clashes) const {
    const RecordIndex here = atForm ? clashes[0].form : clashes[0].shape;
    const Record& record = all_[here];
    const Value& value = valueOf(here);
    diagnostics::Finding out{.rule = "forms-clash"_rule,
                             .span = record.span(value.place),
                             .message = messageOf(atForm, clashes),
                             .hint = hintFor(clashes),
                             .record = record.reference(),
                             .field = atForm ? "made-in" : "forms",
                             .records = {record.reference()}};
    addFact(out, here);
    for (const MadeInClash& one : clashes) {
      const RecordIndex other = atForm ? one.shape : one.form;
      out.records.push_back(all_[other].reference());
      if (out.related.size() == kMostRelated) continue;
      out.related.push_back(
          {all_[other].span(valueOf(other).place), "`" + std::string(atForm ? "forms" : "made-in") + "` of " +
                                                       all_[other].reference() + " stands here"});
      addFact(out, other);
    }
    return out;
  }

 private:
  const Value& valueOf(RecordIndex index) const {
    const Record& record = all_[index];
    return *record.find(record.kind == records::Kind::form ? "made-in"_f : "forms"_f);
  }

  void addFact(diagnostics::Finding& out, RecordIndex index) const {
    const Record& record = all_[index];
    const Value& value = valueOf(index);
    out.facts.push_back({record.reference(),
                         record.kind == records::Kind::form ? "made-in" : "forms",
                         base::shortened(base::trimmed(textOf(record, value)), 60),
                         {},
                         record.span(value.place)});
  }

  std::string_view textOf(const Record& record, const Value& value) const {
    return all_.sources().text(record.file).substr(value.place.begin, value.place.end - value.place.begin);
  }

  std::string named(bool forms, std::span<const MadeInClash> clashes) const {
    std::vector<std::string> names;
    for (const MadeInClash& one : clashes)
      names.push_back('`' + std::string(all_[forms ? one.form : one.shape].id) + '`');
    return base::listedShortly(std::move(names), kMostNamed);
  }

  std::string messageOf(bool atForm, std::span<const MadeInClash> clashes) const {
    const bool one = clashes.size() == 1;
    const std::string shape = '`' + std::string(all_[clashes[0].shape].id) + '`';
    const std::string form = '`' + std::string(all_[clashes[0].form].id) + '`';
    if (clashes[0].formSaysYes) {
      if (atForm)
        return form + " is made in " + named(false, clashes) + " by its own `made-in`, but their `forms` " +
               "leave nothing out and do not have it";
      return "`forms` of " + shape +
             (valueOf(clashes[0].shape).type == records::ValueType::none ? " are none"
                                                                         : " leave nothing out") +
             ", but " + named(true, clashes) +
             (one ? " is made in it by its own `made-in`" : " are made in it by their own `made-in`");
    }
    if (atForm)
      return form + " is not made in " + named(false, clashes) +
             " by its own `made-in`, but their `forms` have it";
    return "`forms` of " + shape + (one ? " has " : " have ") + named(true, clashes) + ", but by " +
           (one ? "its" : "their") + " own `made-in` " + (one ? "it is" : "they are") + " not made in it";
  }

  std::string hintFor(std::span<const MadeInClash> clashes) const {
    const std::string shape(all_[clashes[0].shape].id);
    if (clashes[0].formSaysYes)
      return "put the piece into `forms`, or take `complete: yes` away; or write `made-in: {all-but: [" +
             shape + "]}` for the piece";
    return "take the piece out of `forms`, or put `" + shape + "` right in its `made-in`";
  }

  const linking::Collection& all_;
};

}  // namespace

void formsClash(const Context& context, diagnostics::Findings& findings) {
  const std::vector<MadeInClash> clashes = choosing::madeInClashes(context.collection);
  if (clashes.empty()) return;
  std::map<RecordIndex, std::size_t> count;
  for (const MadeInClash& one : clashes) {
    ++count[one.form];
    ++count[one.shape];
  }
  std::map<std::pair<RecordIndex, bool>, std::vector<MadeInClash>> groups;
  for (const MadeInClash& one : clashes)
    groups[{count[one.form] > count[one.shape] ? one.form : one.shape, one.formSaysYes}].push_back(one);
  const Sides sides(context);
  for (const auto& [key, group] : groups)
    findings.add(sides.finding(context.collection[key.first].kind == records::Kind::form, group));
}

}  // namespace saggar::checks
