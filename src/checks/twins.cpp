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
      message = "no feature recorded tells " + namesOf(all, twins.records) + " apart";
      break;
    case Twins::Ties::one:
      message = "no feature recorded tells " + all[twins.hub].reference() + " from " +
                namesOf(all, twins.records, twins.hub);
      break;
    case Twins::Ties::some:
      message = "each of " + namesOf(all, twins.records) +
                " is so recorded that no feature tells it from another of them";
      break;
  }
  if (!twins.shared.empty()) message += ": they agree in " + featuresOf(all, twins.shared);
  return message;
}

// What the author says in words tells two of them apart.
struct Tell {
  RecordIndex sayer = records::kNoRecord;
  const records::Value* words = nullptr;
};

Tell tellAmong(const linking::Collection& all, const Twins& twins) {
  for (const RecordIndex sayer : twins.records) {
    const records::Value* resembles = all[sayer].find("resembles"_f);
    if (resembles == nullptr || !resembles->said()) continue;
    for (const records::Value& member : resembles->each()) {
      const records::Value* words = member.find("tell"_f);
      if (words == nullptr || !words->said()) continue;
      for (const records::Entry& entry : member.entries())
        if (std::find(twins.records.begin(), twins.records.end(), entry.value.target()) !=
            twins.records.end())
          return {sayer, words};
    }
  }
  return {};
}

std::string hintFor(const linking::Collection& all, const Twins& twins) {
  if (const Tell tell = tellAmong(all, twins); tell.words != nullptr)
    return "the `tell` of " + all[tell.sayer].reference() + " is words alone (`" +
           base::shortened(base::trimmed(tell.words->text), 60) +
           "`): record it as a feature of each, and lists and checklists can go by it";
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
