#include "compose/checklist_standing.h"

#include <algorithm>
#include <map>

#include "compose/phrases.h"

namespace saggar::compose {

using choosing::Path;
using choosing::Step;
using records::Field;
using records::Value;

namespace {

constexpr std::string_view kDocumented = "documented";

std::optional<Field> weighedField(const Path& path, Kind kind) {
  if (path.steps().size() != 1) return {};
  const Step& step = path.steps().front();
  const bool weighed = step.type == Step::Type::field && records::needsEvidence(kind, step.field);
  return weighed ? std::optional(step.field) : std::nullopt;
}

// What most of them have in common; of equally many the documented ones, then the first in the alphabet.
std::string mostOf(const std::map<std::string, std::size_t>& counts) {
  std::string best(kDocumented);
  const auto documented = counts.find(best);
  std::size_t most = documented == counts.end() ? 0 : documented->second;
  for (const auto& [words, count] : counts)
    if (count > most) {
      most = count;
      best = words;
    }
  return best;
}

std::string commonOf(const std::vector<std::string>& standings) {
  std::map<std::string, std::size_t> counts;
  for (const std::string& one : standings)
    if (!one.empty()) ++counts[one];
  return counts.empty() ? std::string() : mostOf(counts);
}

}  // namespace

ChecklistStanding::ChecklistStanding(const Words& words, const choosing::Query& query,
                                     const std::vector<choosing::Chosen>& rows)
    : words_(words), kind_(query.kind) {
  for (const choosing::Column& column : query.columns) shown_.push_back(weighedField(column.path, kind_));
  any_ =
      std::any_of(shown_.begin(), shown_.end(), [](std::optional<Field> field) { return field.has_value(); });
  if (!any_) return;
  std::map<std::string, std::size_t> counts;
  for (const choosing::Chosen& row : rows) {
    const std::vector<std::string> all = standings(row.record);
    said_.insert(all.begin(), all.end());
    if (std::string common = commonOf(all); !common.empty()) ++counts[std::move(common)];
  }
  usual_ = mostOf(counts);
  wholeRows_ = counts.size() > 1;
}

std::vector<std::string> ChecklistStanding::standings(RecordIndex record) const {
  std::vector<std::string> out(shown_.size());
  if (!any_) return out;
  const PublishedRecord row = words_.materials().records[record];
  for (std::size_t i = 0; i < out.size(); ++i) {
    const Value* value = shown_[i] ? row.find(*shown_[i]) : nullptr;
    if (value != nullptr && value->said()) out[i] = words_.standingInFull(row, *value);
  }
  return out;
}

std::vector<std::string> ChecklistStanding::behind(RecordIndex record) const {
  std::vector<std::string> out = standings(record);
  const std::string common = commonOf(out);
  for (std::size_t i = 0; i < out.size(); ++i)
    if (out[i] == common) out[i].clear();
  if (out.empty() || common.empty() || common == usual_) return out;
  out[0] = out[0].empty() ? common : common + "; itself " + out[0];
  return out;
}

std::string ChecklistStanding::legend() const {
  if (!any_) return {};
  const bool one = said_.size() - said_.count(std::string()) <= 1;
  std::string out = one ? "What stands here " : "What has no word beside it ";
  out += usual_ == evidence::inWords(evidence::Standing::uncited) ? "has " : "is ";
  out += usual_;
  auto means = [](std::string_view word) -> std::string_view {
    if (word == kDocumented) return "an original source says it at first hand";
    if (word == "supported") return "two independent witnesses say so, or a copy of such a source";
    if (word == "suggested") return "another source says so";
    if (word == "disputed") return "something else contradicts it";
    return {};
  };
  if (const std::string_view meaning = means(usual_); !meaning.empty()) out += ": " + std::string(meaning);
  out += '.';
  for (const std::string_view word : {kDocumented, std::string_view("supported"),
                                      std::string_view("suggested"), std::string_view("disputed")}) {
    const bool said = std::any_of(said_.begin(), said_.end(), [&](const std::string& all) {
      return all.starts_with(word) || all.ends_with(word);
    });
    if (said && word != usual_)
      out += ' ' + capitalised(std::string(word)) + ": " + std::string(means(word)) + '.';
  }
  return wholeRows_ ? out + " A word in the first column goes for its row." : out;
}

}  // namespace saggar::compose
