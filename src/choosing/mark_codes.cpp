#include "base/edit_distance.h"
#include "base/text.h"
#include "choosing/code_rules.h"

// The code that stands with a mark is named by its rule, which is no record of its own: linking does not see it.
namespace saggar::choosing {

using records::Record;
using records::Value;

namespace {

void addNames(const Record& maker, std::vector<std::string_view>& names) {
  const Value* codes = maker.find("codes"_f);
  if (codes == nullptr || !codes->said()) return;
  for (const Value& rule : codes->each())
    if (const Value* name = rule.find("rule"_f); name != nullptr && name->said()) names.push_back(name->text);
}

}  // namespace

void checkMarkCodes(const Collection& collection, diagnostics::Findings& findings) {
  for (RecordIndex index : collection.ofKind(Kind::mark)) {
    const Record& mark = collection[index];
    const Value* carries = mark.find("carries"_f);
    if (carries == nullptr || !carries->said()) continue;
    const Value* maker = mark.find("maker"_f);
    const RecordIndex own = maker == nullptr ? records::kNoRecord : maker->target();
    std::vector<std::string_view> names;
    bool broken = false;
    for (RecordIndex one : collection.ofKind(Kind::maker)) {
      if (own != records::kNoRecord && one != own) continue;
      addNames(collection[one], names);
      broken |= collection[one].broken;
    }
    for (const Value& one : carries->each()) {
      const bool known = std::find(names.begin(), names.end(), one.text) != names.end();
      if (!one.said() || known || broken) continue;
      std::vector<std::string> shown;
      for (std::string_view name : names) shown.push_back('`' + std::string(name) + '`');
      const auto near = base::nearest(one.text, names);
      findings.add(
          {.rule = "value-unfit"_rule,
           .span = mark.span(one.place),
           .message = "no rule for codes is called `" + base::shortened(one.text, 60) + "`" +
                      (own == records::kNoRecord ? std::string()
                                                 : " at the maker `" + std::string(collection[own].id) + '`'),
           .hint = near ? "did you mean `" + std::string(*near) + "`?"
                   : names.empty()
                       ? "say under `codes` of the maker how such a code is written, or put it into `note`"
                       : "the rules are called " + base::listedInWords(shown),
           .record = mark.reference(),
           .field = "carries"});
    }
  }
}

}  // namespace saggar::choosing
