#include <algorithm>

#include "base/text.h"
#include "checks/rules.h"

// Sources that draw on one another in a ring: nobody in it knows anything of himself.
namespace saggar::checks {

using records::Record;
using records::RecordIndex;
using records::Value;

void sourceRing(const Context& context, diagnostics::Findings& findings) {
  for (const std::vector<RecordIndex>& ring : context.weights.witnesses().rings()) {
    const Record& first = context.collection[ring.front()];
    diagnostics::Finding finding;
    finding.rule = "source-ring"_rule;
    finding.span = first.span();
    std::vector<std::string> names;
    for (RecordIndex one : ring) {
      const Record& record = context.collection[one];
      names.push_back('`' + std::string(record.id) + '`');
      finding.records.push_back(record.reference());
      const Value* from = record.find("draws-on"_f);
      for (const Value& source : from->each()) {
        if (!std::binary_search(ring.begin(), ring.end(), source.target())) continue;
        if (one == ring.front()) {
          finding.span = record.span(source.place);
        } else {
          finding.related.push_back({record.span(source.place), "and `" + std::string(record.id) + "` on `" +
                                                                    std::string(source.text) + "`"});
        }
        break;
      }
    }
    constexpr std::size_t kMost = 8;
    if (const std::size_t count = names.size(); count > kMost) {
      names.resize(kMost - 1);
      names.push_back(base::counted(count - kMost + 1, "further source"));
    }
    finding.message = ring.size() == 1 ? names[0] + " draws on itself"
                                       : base::listedInWords(names) + " draw on one another in a ring";
    finding.hint = ring.size() == 1
                       ? "name what it draws on, or take the line out"
                       : "take out the `draws-on` that goes from an earlier source to a later one; "
                         "together they are one witness";
    finding.record = first.reference();
    finding.field = "draws-on";
    findings.add(std::move(finding));
  }
}

}  // namespace saggar::checks
