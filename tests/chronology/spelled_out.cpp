#include "spelled_out.h"

#include <algorithm>

namespace saggar::chronology::spelled {
namespace {

constexpr long kFar = 1'000'000'000;
constexpr std::size_t kMostTries = 4000;

using Steps = std::vector<const Step*>;

Steps stepsOf(const Told& told, const std::vector<const Statement*>& statements, std::uint8_t use) {
  Steps steps;
  for (const Step& step : told.always) steps.push_back(&step);
  for (const Statement* one : statements)
    for (const Step& step : one->steps)
      if ((step.use & use) != 0) steps.push_back(&step);
  return steps;
}

bool isAlways(const Told& told, const Step* step) {
  return std::any_of(told.always.begin(), told.always.end(), [&](const Step& one) { return &one == step; });
}

// Bellman, Ford: after as many sweeps as there are points nothing changes, or there is a ring of less than nothing.
bool canBeTrue(int points, const Steps& steps) {
  std::vector<long> days(static_cast<std::size_t>(points), 0);
  for (int sweep = 0; sweep <= points; ++sweep) {
    bool changed = false;
    for (const Step* step : steps) {
      long& to = days[static_cast<std::size_t>(step->to)];
      const long by = days[static_cast<std::size_t>(step->from)] + step->days;
      if (by >= to) continue;
      to = by;
      changed = true;
    }
    if (!changed) return true;
  }
  return false;
}

// Floyd, Warshall.
std::vector<Days> daysBy(int points, const Steps& steps) {
  const auto n = static_cast<std::size_t>(points);
  std::vector<long> table(n * n, kFar);
  for (std::size_t i = 0; i < n; ++i) table[i * n + i] = 0;
  for (const Step* step : steps) {
    long& days = table[static_cast<std::size_t>(step->from) * n + static_cast<std::size_t>(step->to)];
    days = std::min(days, step->days);
  }
  for (std::size_t k = 0; k < n; ++k)
    for (std::size_t i = 0; i < n; ++i)
      if (table[i * n + k] < kFar)
        for (std::size_t j = 0; j < n; ++j)
          if (table[k * n + j] < kFar)
            table[i * n + j] = std::min(table[i * n + j], table[i * n + k] + table[k * n + j]);
  std::vector<Days> out(n);
  for (std::size_t i = 0; i < n; ++i) {
    if (table[i * n] < kFar) out[i].first = -table[i * n];
    if (table[i] < kFar) out[i].last = table[i];
  }
  return out;
}

// Every smallest set. Whatever set is found, any other lacks one of its members: leave out each in turn, and look again
// (Reiter, "A theory of diagnosis from first principles", Artificial Intelligence 32, 1987; from memory).
class SmallestSets {
 public:
  explicit SmallestSets(const Told& told) : told_(told) {}

  bool find(const std::vector<const Statement*>& among) {
    if (!seen_.insert(among).second) return true;
    if (seen_.size() > kMostTries) return false;
    const auto known = std::find_if(sets.begin(), sets.end(), [&](const auto& set) {
      return std::includes(among.begin(), among.end(), set.begin(), set.end());
    });
    const auto set = known != sets.end() ? *known : shrunk(among);
    if (set.empty()) return true;
    sets.insert(set);
    for (const Statement* one : set) {
      auto rest = among;
      rest.erase(std::find(rest.begin(), rest.end(), one));
      if (!find(rest)) return false;
    }
    return true;
  }

  std::set<std::vector<const Statement*>> sets;

 private:
  // Of facts that cannot all be true, leave out each without which the rest still cannot.
  std::vector<const Statement*> shrunk(std::vector<const Statement*> set) const {
    if (canBeTrue(told_.points, stepsOf(told_, set, kWide))) return {};
    for (std::size_t i = 0; i < set.size();) {
      auto without = set;
      without.erase(without.begin() + static_cast<std::ptrdiff_t>(i));
      if (canBeTrue(told_.points, stepsOf(told_, without, kWide))) {
        ++i;
      } else {
        set = std::move(without);
      }
    }
    return set;
  }

  const Told& told_;
  std::set<std::vector<const Statement*>> seen_;
};

// The steps on rings of less than nothing that pass no point twice: the bounds that take part. Each such ring has a step
// of each fact of a smallest set, so that those through the first fact are all.
void takingPart(const Told& told, const std::vector<const Statement*>& set, std::set<const Step*>& open) {
  const Steps steps = stepsOf(told, set, kWide);
  std::vector<const Step*> ring;
  std::vector<bool> on(static_cast<std::size_t>(told.points), false);
  auto go = [&](auto&& self, int at, int home, long sum) -> void {
    if (at == home) {
      for (const Step* step : ring)
        if (sum < 0 && !isAlways(told, step)) open.insert(step);
      return;
    }
    on[static_cast<std::size_t>(at)] = true;
    for (const Step* step : steps) {
      if (step->from != at || on[static_cast<std::size_t>(step->to)]) continue;
      ring.push_back(step);
      self(self, step->to, home, sum + step->days);
      ring.pop_back();
    }
    on[static_cast<std::size_t>(at)] = false;
  };
  for (const Step& first : set[0]->steps) {
    if ((first.use & kWide) == 0) continue;
    ring = {&first};
    go(go, first.to, first.from, first.days);
  }
}

// Taken one by one, the best known first; what clashes with those before it is left out.
std::vector<const Statement*> oneByOne(const Told& told, std::vector<const Statement*> statements,
                                       std::uint8_t use, std::vector<const Statement*>& leftOut) {
  if (canBeTrue(told.points, stepsOf(told, statements, use))) return statements;
  const auto turn = [](const Statement* one) {
    return std::pair(one->offered ? 7 : one->doubted ? 6 : one->standing, one->place);
  };
  std::sort(statements.begin(), statements.end(),
            [&](const Statement* a, const Statement* b) { return turn(a) < turn(b); });
  std::vector<const Statement*> taken;
  for (const Statement* one : statements) {
    taken.push_back(one);
    if (canBeTrue(told.points, stepsOf(told, taken, use))) continue;
    taken.pop_back();
    leftOut.push_back(one);
  }
  return taken;
}

// What is left of several dates binds from the first day of any to the last of any.
void bindHull(Statement& one) {
  one.steps.clear();
  for (const auto use : {kWide, kPlain}) {
    std::optional<long> first, last;
    bool begun = true, ended = true;
    for (const Member& member : one.members) {
      const Days& days = use == kWide ? member.wide : member.plain;
      if (member.struckOut) continue;
      begun &= days.first.has_value();
      ended &= days.last.has_value();
      if (days.first) first = std::min(first.value_or(*days.first), *days.first);
      if (days.last) last = std::max(last.value_or(*days.last), *days.last);
    }
    if (begun) one.steps.push_back({one.at, 0, -*first, use});
    if (ended) one.steps.push_back({0, one.at, *last, use});
  }
}

// Each member is tried alone against what is proven; the last is never struck out: of those that all clash, the one that
// misses by least stays.
bool strikeOut(Told& told, const std::vector<Days>& proven) {
  bool any = false;
  for (Statement& one : told.statements) {
    const Days& days = proven[static_cast<std::size_t>(one.at)];
    std::vector<std::pair<long, Member*>> left;  // by how much each misses
    for (Member& member : one.members) {
      if (member.struckOut) continue;
      long misses = 0;
      if (days.first && member.wide.last) misses = std::max(misses, *days.first - *member.wide.last);
      if (days.last && member.wide.first) misses = std::max(misses, *member.wide.first - *days.last);
      left.emplace_back(misses, &member);
    }
    if (left.size() < 2) continue;
    const auto least = std::min_element(left.begin(), left.end(),
                                        [](const auto& a, const auto& b) { return a.first < b.first; });
    for (const auto& [misses, member] : left)
      if (misses > 0 && member != least->second) any = member->struckOut = true;
    bindHull(one);
  }
  return any;
}

std::optional<Answer> weighed(const Told& told) {
  Answer answer;
  std::vector<const Statement*> proving, firm, all;
  for (const Statement& one : told.statements) {
    all.push_back(&one);
    if (!one.doubted && !one.offered) firm.push_back(&one);
    if (one.proves()) proving.push_back(&one);
  }
  // 1, 2: of every smallest set the bounds that take part are open; the rest proves.
  SmallestSets smallest(told);
  if (!smallest.find(proving)) return std::nullopt;
  std::set<const Step*> open;
  for (const auto& set : smallest.sets) {
    takingPart(told, set, open);
    for (const Statement* one : set) answer.disputed.insert(one->place);
  }
  for (const Statement* one : proving) {
    Statement stands = *one;
    stands.steps.clear();
    for (const Step& step : one->steps)
      if (!open.contains(&step)) stands.steps.push_back(step);
    answer.proving.push_back(std::move(stands));
  }
  std::vector<const Statement*> stand;
  for (const Statement& one : answer.proving) stand.push_back(&one);
  answer.proven = daysBy(told.points, stepsOf(told, stand, kWide));
  // What clashes with better known facts is disputed too: at wide bounds, then at plain ones (3).
  std::vector<const Statement*> leftOut;
  answer.tests = daysBy(told.points, stepsOf(told, oneByOne(told, firm, kWide, leftOut), kWide));
  const auto taken = oneByOne(told, all, kPlain, leftOut);
  for (const Statement* one : taken) answer.taken.push_back(*one);
  answer.likely = daysBy(told.points, stepsOf(told, taken, kPlain));
  for (const Statement* one : leftOut)
    if (!one->doubted && !one->offered) answer.disputed.insert(one->place);
  answer.clashing = answer.disputed;
  for (const Statement* one : leftOut) answer.clashing.insert(one->place);
  return answer;
}

}  // namespace

std::optional<Answer> spelledOut(Told told) {
  for (Statement& one : told.statements)
    if (!one.members.empty()) bindHull(one);
  std::optional<Answer> answer = weighed(told);
  int rounds = 0;
  for (; answer && strikeOut(told, answer->proven); ++rounds) answer = weighed(told);
  if (!answer) return answer;
  answer->rounds = rounds;
  for (const Statement& one : told.statements)
    if (!one.members.empty()) answer->oneOf[one.place] = one.members;
  return answer;
}

std::optional<std::vector<Days>> daysBy(const Told& told, const std::vector<const Statement*>& statements,
                                        std::uint8_t use) {
  const Steps steps = stepsOf(told, statements, use);
  if (!canBeTrue(told.points, steps)) return std::nullopt;
  return daysBy(told.points, steps);
}

}  // namespace saggar::chronology::spelled
