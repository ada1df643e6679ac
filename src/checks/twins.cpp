#include "study/twins.h"

#include <algorithm>

#include "base/text.h"
#include "checks/rules.h"

// Shapes or treatments that a reader of the guide could not tell apart.
namespace saggar::checks {

using records::RecordIndex;
using study::Twins;

namespace {

constexpr std::size_t kMostNamed = 6;
constexpr std::size_t kMostRelated = 10;

std::string namesOf(const linking::Collection& all, const std::vector<RecordIndex>& records,
                    RecordIndex without = records::kNoRecord) {
  std::vector<std::string> names;
  for (const RecordIndex record : records)
    if (record != without) names.push_back(all[record].reference());
  return base::listedShortly(std::move(names), kMostNamed);
}

std::string featuresOf(const linking::Collection& all, const std::vector<RecordIndex>& features) {
  std::vector<std::string> names;
  for (const RecordIndex feature : features) names.push_back('`' + std::string(all[feature].id) + '`');
  return base::listedShortly(std::move(names), kMostNamed);
}

std::string messageOf(const linking::Collection& all, const Twins& twins) {
  std::string message;
  switch (twins.ties) {
    case Twins::Ties::all:
      message = "nothing recorded tells " + namesOf(all, twins.records) + " apart";
      break;
    case Twins::Ties::one:
      message = "nothing recorded tells " + all[twins.hub].reference() + " from " +
                namesOf(all, twins.records, twins.hub);
      break;
    case Twins::Ties::some:
      message = "each of " + namesOf(all, twins.records) +
                " is so recorded that nothing tells it from another of them";
      break;
  }
  if (!twins.shared.empty()) message += ": they agree in " + featuresOf(all, twins.shared);
  return message;
}

std::string hintFor(const linking::Collection& all, const Twins& twins) {
  if (twins.wanting.empty()) return "record a feature that a collector can tell them by";
  return "record " + featuresOf(all, twins.wanting) +
         " of all of them, or another feature that a collector can tell them by";
}

}  // namespace

void twins(const Context& context, diagnostics::Findings& findings) {
  const linking::Collection& all = context.collection;
  for (const Twins& group : study::twins(all)) {
    const records::Record& last = all[group.records.back()];
    diagnostics::Finding finding{.rule = "twins"_rule,
                                 .span = last.span(),
                                 .message = messageOf(all, group),
                                 .hint = hintFor(all, group),
                                 .record = last.reference(),
                                 .field = "look"};
    for (const RecordIndex record : group.records) {
      finding.records.push_back(all[record].reference());
      if (record != group.records.back() && finding.related.size() < kMostRelated)
        finding.related.push_back({all[record].span(), all[record].reference() + " stands here"});
    }
    findings.add(std::move(finding));
  }
}

}  // namespace saggar::checks
