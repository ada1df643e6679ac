#include <algorithm>

#include "base/edit_distance.h"
#include "base/text.h"
#include "checks/rules.h"
#include "layout/built_in.h"
#include "reading/layout_xml.h"

// Layouts: what is wrong in the guide's own, and names of layouts that nobody has.
namespace saggar::checks {

using records::Entry;
using records::Record;
using records::RecordIndex;
using records::Value;

namespace {

// The layouts there are: the guide's own, whether or not they can be read, and the built-in ones.
std::vector<std::string_view> namesOf(const linking::Collection& collection) {
  std::vector<std::string_view> names = layout::builtInLayoutNames();
  for (const records::LayoutFile& own : collection.read().layouts) names.push_back(own.name);
  std::sort(names.begin(), names.end());
  names.erase(std::unique(names.begin(), names.end()), names.end());
  return names;
}

void checkName(const std::vector<std::string_view>& names, const Record& record, const Value* value,
               diagnostics::Findings& findings) {
  if (value == nullptr || value->type != records::ValueType::text) return;
  const std::string_view typed = value->text;
  if (std::find(names.begin(), names.end(), typed) != names.end()) return;
  std::vector<std::string> shown;
  for (std::string_view one : names) shown.push_back('`' + std::string(one) + '`');
  const auto near = base::nearest(typed, names);
  findings.add({.rule = "layout-unfit"_rule,
                .span = record.span(value->place),
                .message = "there is no layout `" + base::shortened(typed, 60) + "`",
                .hint = near ? "did you mean `" + std::string(*near) + "`?"
                             : "there are " + base::listedInWords(shown) +
                                   "; your own go into `layouts/`, as `layouts/mine.xml`",
                .record = record.kind == records::Kind::guide ? std::string() : record.reference(),
                .field = "layout"});
}

}  // namespace

void layouts(const Context& context, diagnostics::Findings& findings) {
  const linking::Collection& all = context.collection;
  for (const records::LayoutFile& own : all.read().layouts) {
    if (own.unreadable) continue;
    const reading::LayoutRead read = reading::readLayout(own.file, all.sources().text(own.file));
    for (const reading::LayoutProblem& problem : read.problems)
      findings.add({.rule = "layout-unfit"_rule,
                    .span = problem.span,
                    .message = problem.message,
                    .hint = problem.hint});
    if (!read.layout && read.problems.empty())
      findings.add({.rule = "layout-unfit"_rule,
                    .span = {own.file, 0, 0},
                    .message = "this is no layout",
                    .hint = "begin it with `<layout name=\"" + own.name + "\" like=\"checklist\">`"});
  }
  const std::vector<std::string_view> names = namesOf(all);
  for (RecordIndex index : all.ofKind(records::Kind::checklist))
    checkName(names, all[index], all[index].find("layout"_f), findings);
  if (const Record* guide = all.guide())
    if (const Value* settings = guide->find("settings"_f))
      checkName(names, *guide, settings->find("layout"_f), findings);
}

}  // namespace saggar::checks
