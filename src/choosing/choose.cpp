#include "choosing/choose.h"

#include <algorithm>
#include <unordered_map>
#include <utility>

#include "base/text.h"
#include "choosing/sort_key.h"
#include "choosing/walk.h"

namespace saggar::choosing {

std::vector<Chosen> Chooser::choose(Kind kind, const Condition& condition, bool sureOnly) const {
  std::vector<Chosen> chosen;
  for (RecordIndex record : collection_->ofKind(kind)) {
    const Answer answer = ask(condition, record);
    if (answer == Answer::yes || (answer == Answer::maybe && !sureOnly))
      chosen.push_back({record, answer == Answer::yes});
  }
  return chosen;
}

void Chooser::sort(std::vector<Chosen>& chosen, std::span<const Path> by) const {
  SortKeys keys(*collection_);
  std::vector<std::pair<std::string, Chosen>> keyed;
  keyed.reserve(chosen.size());
  for (const Chosen& one : chosen) {
    std::string key;
    for (const Path& path : by)
      if (!path.empty()) keys.append(key, path, one.record);
    key += (*collection_)[one.record].id;
    keyed.emplace_back(std::move(key), one);
  }
  std::stable_sort(keyed.begin(), keyed.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  for (std::size_t i = 0; i < chosen.size(); ++i) chosen[i] = keyed[i].second;
}

namespace {

// What makes two things reached one group.
std::string identity(const Reached& reached) {
  using State = Reached::State;
  if (reached.state == State::none) return "none";
  if (reached.state == State::record) return "record " + std::to_string(reached.record);
  const records::Value& value = *reached.value;
  if (value.target() != records::kNoRecord && value.type == records::ValueType::reference)
    return "record " + std::to_string(value.target());
  if (value.type == records::ValueType::mapping) {
    std::string text = "mapping";
    for (const records::Entry& entry : value.entries()) {
      text += '\n' + std::string(entry.key);
      for (const records::Value& one : entry.value.each()) text += '\t' + base::folded(one.text);
    }
    return text;
  }
  return "text " + base::folded(value.text);
}

}  // namespace

std::vector<Chooser::Group> Chooser::group(const std::vector<Chosen>& chosen, const Path& by) const {
  SortKeys keys(*collection_);
  struct Made {
    std::string order;
    Group group;
  };
  std::vector<Made> made;
  std::unordered_map<std::string, std::size_t> byIdentity;
  Group unknown;
  unknown.key.state = Reached::State::unknown;
  Group absent;
  absent.key.state = Reached::State::absent;
  std::vector<std::size_t> mine;
  for (const Chosen& one : chosen) {
    mine.clear();
    bool lookedFor = false;
    auto visit = [&](const Reached& reached) {
      const bool nothing = reached.state == Reached::State::absent ||
                           reached.state == Reached::State::unknown ||
                           (reached.state == Reached::State::none && reached.value == nullptr);
      if (nothing) {
        lookedFor = lookedFor || reached.state == Reached::State::unknown;
        return true;
      }
      const auto [found, fresh] = byIdentity.try_emplace(identity(reached), made.size());
      if (fresh) {
        made.push_back({{}, {reached, {}}});
        keys.append(made.back().order, by, reached);
      }
      if (std::find(mine.begin(), mine.end(), found->second) == mine.end()) mine.push_back(found->second);
      return true;
    };
    Walker(*collection_, by.steps(), false, visit).from({.record = one.record});
    for (std::size_t group : mine) made[group].group.members.push_back(one);
    if (mine.empty()) (lookedFor ? unknown : absent).members.push_back(one);
  }
  std::stable_sort(made.begin(), made.end(), [](const Made& a, const Made& b) { return a.order < b.order; });
  std::vector<Group> groups;
  for (Made& one : made) groups.push_back(std::move(one.group));
  for (Group* rest : {&unknown, &absent})
    if (!rest->members.empty()) groups.push_back(std::move(*rest));
  return groups;
}

}  // namespace saggar::choosing
