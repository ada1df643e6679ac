#include "study/hitting_sets.h"

#include <algorithm>

namespace saggar::study {
namespace {

bool isSmaller(const ItemSet& a, const ItemSet& b) {
  return a.size() != b.size() ? a.size() < b.size() : a < b;
}

class Search {
 public:
  Search(const std::vector<ItemSet>& family, const HittingLimits& limits, std::size_t mostItems)
      : family_(family), limits_(limits), mostItems_(mostItems), hitBy_(family.size(), 0) {
    for (std::uint32_t set = 0; set < family.size(); ++set)
      for (const Item item : family[set]) {
        if (item >= in_.size()) in_.resize(item + 1);
        in_[item].push_back(set);
      }
    free_.assign(in_.size(), true);
    ownedBy_.assign(in_.size(), 0);
  }

  HittingSets run() {
    go();
    for (ItemSet& set : found_.all) std::sort(set.begin(), set.end());
    std::sort(found_.all.begin(), found_.all.end(), isSmaller);
    return std::move(found_);
  }
  std::size_t steps() const { return steps_; }

 private:
  bool full() {
    if (steps_ <= limits_.mostSteps && found_.all.size() < limits_.mostSets) return false;
    found_.whole = false;
    return true;
  }

  // The set not hit yet that leaves the fewest items to choose from; none if all are hit.
  std::optional<std::uint32_t> narrowest() {
    std::optional<std::uint32_t> best;
    std::size_t least = SIZE_MAX;
    for (std::uint32_t set = 0; set < family_.size() && least != 0; ++set) {
      ++steps_;
      if (hitBy_[set] != 0) continue;
      std::size_t count = 0;
      for (const Item item : family_[set]) count += free_[item] ? 1 : 0;
      steps_ += family_[set].size();
      if (count >= least) continue;
      least = count;
      best = set;
    }
    return best;
  }

  void go() {
    const auto next = narrowest();
    if (!next) {
      found_.all.push_back(chosen_);
      return;
    }
    if (chosen_.size() == mostItems_) return;
    std::vector<Item> choices;
    for (const Item item : family_[*next])
      if (free_[item]) choices.push_back(item);
    for (const Item item : choices) free_[item] = false;
    for (const Item item : choices) {
      if (full()) break;
      if (add(item)) go();
      takeOut(item);
      free_[item] = true;  // those that come after it may have it beside them
    }
    for (const Item item : choices) free_[item] = true;
  }

  // Gives false if one of the others then is the only one to hit nothing any more.
  bool add(Item item) {
    chosen_.push_back(item);
    for (const std::uint32_t set : in_[item]) {
      ++steps_;
      if (++hitBy_[set] == 1)
        ++ownedBy_[item];
      else if (hitBy_[set] == 2)
        --ownedBy_[owner(set, item)];
    }
    return std::all_of(chosen_.begin(), chosen_.end(), [&](Item one) { return ownedBy_[one] != 0; });
  }

  void takeOut(Item item) {
    for (const std::uint32_t set : in_[item]) {
      ++steps_;
      if (--hitBy_[set] == 1) ++ownedBy_[owner(set, item)];
    }
    ownedBy_[item] = 0;
    chosen_.pop_back();
  }

  // The one chosen item, but for this, that is in the set.
  Item owner(std::uint32_t set, Item but) const {
    const ItemSet& items = family_[set];
    return *std::find_if(chosen_.begin(), chosen_.end(), [&](Item one) {
      return one != but && std::binary_search(items.begin(), items.end(), one);
    });
  }

  const std::vector<ItemSet>& family_;
  const HittingLimits& limits_;
  std::size_t mostItems_;
  std::vector<std::vector<std::uint32_t>> in_;  // of an item: the sets it is in
  std::vector<std::uint32_t> hitBy_;            // of a set: how many of the chosen are in it
  std::vector<std::uint32_t> ownedBy_;          // of a chosen item: how many sets nobody else hits
  std::vector<bool> free_;
  ItemSet chosen_;
  HittingSets found_;
  std::size_t steps_ = 0;
};

// Whichever hits the most of what is left, the cheaper of two; then what is not needed is taken out again.
ItemSet greedily(const std::vector<ItemSet>& family, const std::vector<std::int64_t>& cost) {
  std::vector<bool> hit(family.size(), false);
  ItemSet chosen;
  while (true) {
    std::vector<std::size_t> count(cost.size(), 0);
    for (std::size_t i = 0; i < family.size(); ++i)
      if (!hit[i])
        for (const Item item : family[i]) ++count[item];
    Item best = 0;
    for (Item item = 1; item < count.size(); ++item)
      if (count[item] > count[best] || (count[item] == count[best] && cost[item] < cost[best])) best = item;
    if (count.empty() || count[best] == 0) break;
    chosen.push_back(best);
    for (std::size_t i = 0; i < family.size(); ++i)
      if (std::binary_search(family[i].begin(), family[i].end(), best)) hit[i] = true;
  }
  for (std::size_t i = 0; i < chosen.size();) {
    ItemSet rest = chosen;
    rest.erase(rest.begin() + static_cast<std::ptrdiff_t>(i));
    const bool enough = std::all_of(family.begin(), family.end(), [&](const ItemSet& set) {
      return std::any_of(rest.begin(), rest.end(),
                         [&](Item item) { return std::binary_search(set.begin(), set.end(), item); });
    });
    if (enough)
      chosen = std::move(rest);
    else
      ++i;
  }
  std::sort(chosen.begin(), chosen.end());
  return chosen;
}

// What is searched: without sets that need not be, unless looking for those would take longer than the search.
std::vector<ItemSet> prepared(std::vector<ItemSet> family) {
  constexpr std::size_t kMostCompared = 50'000'000;
  std::size_t items = 0;
  for (const ItemSet& set : family) items += set.size();
  if (family.size() * items < kMostCompared) return smallestOf(std::move(family));
  std::sort(family.begin(), family.end(), isSmaller);
  family.erase(std::unique(family.begin(), family.end()), family.end());
  return family;
}

}  // namespace

std::vector<ItemSet> smallestOf(std::vector<ItemSet> family) {
  std::sort(family.begin(), family.end(), isSmaller);
  family.erase(std::unique(family.begin(), family.end()), family.end());
  std::vector<ItemSet> smallest;
  for (ItemSet& set : family) {
    const bool holds = std::any_of(smallest.begin(), smallest.end(), [&](const ItemSet& other) {
      return std::includes(set.begin(), set.end(), other.begin(), other.end());
    });
    if (!holds) smallest.push_back(std::move(set));
  }
  return smallest;
}

HittingSets minimalHittingSets(std::vector<ItemSet> family, const HittingLimits& limits) {
  const std::vector<ItemSet> smallest = prepared(std::move(family));
  if (!smallest.empty() && smallest[0].empty()) return {};
  return Search(smallest, limits, limits.mostItems).run();
}

std::optional<ShortestHitting> shortestHittingSet(std::vector<ItemSet> family,
                                                  const std::vector<std::int64_t>& cost,
                                                  const HittingLimits& limits) {
  const std::vector<ItemSet> smallest = prepared(std::move(family));
  if (!smallest.empty() && smallest[0].empty()) return std::nullopt;
  const ShortestHitting rough{greedily(smallest, cost), false};
  const auto sumOf = [&](const ItemSet& set) {
    std::int64_t sum = 0;
    for (const Item item : set) sum += cost[item];
    return sum;
  };
  std::size_t steps = 0;
  for (std::size_t most = 0; most <= rough.items.size(); ++most) {
    HittingLimits left = limits;
    left.mostSteps = limits.mostSteps - std::min(limits.mostSteps, steps);
    Search search(smallest, left, most);
    HittingSets found = search.run();
    steps += search.steps();
    if (!found.all.empty() && (found.whole || found.all[0].size() < rough.items.size() ||
                               sumOf(found.all[0]) <= sumOf(rough.items))) {
      const auto best =
          std::min_element(found.all.begin(), found.all.end(),
                           [&](const ItemSet& a, const ItemSet& b) { return sumOf(a) < sumOf(b); });
      return ShortestHitting{*best, found.whole};
    }
    if (!found.whole) break;
  }
  return rough;
}

}  // namespace saggar::study
