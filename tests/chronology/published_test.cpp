#include <doctest/doctest.h>

#include <algorithm>
#include <fstream>
#include <map>
#include <nlohmann/json.hpp>
#include <set>

#include "naive.h"

// Simple temporal problems with their results by exhaustive search, in temporal-networks.json; among them the commuters
// of Dechter, Meiri, Pearl, "Temporal constraint networks" (Artificial Intelligence 49, 1991), Example 1.1.
namespace saggar::chronology {
namespace {

using nlohmann::json;

struct Case {
  Network network;
  std::map<std::string, Node> points;
  std::vector<std::string> claims;  // by fact
};

Case built(const json& one) {
  Case made;
  for (const json& point : one["points"]) {
    const bool origin = made.points.empty();
    made.points[point] = origin ? kOrigin : made.network.addNode();
  }
  for (const auto& [name, parts] : one["claims"].items()) {
    const FactId fact = made.network.addFact(0);
    made.claims.push_back(name);
    for (const json& part : parts) {
      const Node a = made.points.at(part[0]);
      const Node b = made.points.at(part[1]);
      if (!part[2].is_null()) made.network.atLeast(a, b, part[2].get<long>(), fact);
      if (!part[3].is_null()) made.network.atMost(a, b, part[3].get<long>(), fact);
    }
  }
  made.network.finish();
  return made;
}

// All smallest sets that meet each of some sets.
std::set<std::set<std::string>> hitting(const std::vector<std::set<std::string>>& sets) {
  std::set<std::set<std::string>> found{{}};
  for (const auto& set : sets) {
    std::set<std::set<std::string>> next;
    for (const auto& one : found) {
      const bool hits =
          std::any_of(set.begin(), set.end(), [&](const std::string& name) { return one.count(name) != 0; });
      if (hits) {
        next.insert(one);
        continue;
      }
      for (const std::string& name : set) {
        auto more = one;
        more.insert(name);
        next.insert(more);
      }
    }
    found = next;
  }
  std::set<std::set<std::string>> least;
  for (const auto& one : found)
    if (std::none_of(found.begin(), found.end(), [&](const auto& other) {
          return other != one && std::includes(one.begin(), one.end(), other.begin(), other.end());
        }))
      least.insert(one);
  return least;
}

}  // namespace

TEST_CASE("published networks: consistency, bounds, smallest sets, what to take away") {
  std::ifstream file(std::string(TEST_DATA) + "/temporal-networks.json");
  const json all = json::parse(file);
  REQUIRE(all["cases"].size() >= 17);
  for (const json& one : all["cases"]) {
    CAPTURE(one["name"].get<std::string>());
    const Case made = built(one);
    const Network& network = made.network;
    const Suspects suspects = suspectsOf(network, network.all());
    REQUIRE(suspects.none() == one["consistent"].get<bool>());
    if (one.contains("bounds"))
      for (const auto& [name, bounds] : one["bounds"].items()) {
        const Node node = made.points.at(name);
        const auto day = [](Days days) { return static_cast<long>(days); };
        if (bounds[0].is_null()) {
          CHECK(!suspects.to.reaches(node));
        } else {
          CHECK(-day(suspects.to.of(node)) == bounds[0].get<long>());
        }
        if (bounds[1].is_null()) {
          CHECK(!suspects.from.reaches(node));
        } else {
          CHECK(day(suspects.from.of(node)) == bounds[1].get<long>());
        }
      }
    if (!one.contains("minimal_conflicts")) continue;
    std::vector<std::set<std::string>> wanted;
    for (const json& conflict : one["minimal_conflicts"])
      wanted.push_back(conflict.get<std::set<std::string>>());
    const Conflicts found = conflictsOf(network, network.all(), suspects);
    std::vector<std::set<std::string>> sets;
    for (const Conflict& conflict : found.all) {
      std::set<std::string> names;
      for (const FactId fact : conflict.facts) names.insert(made.claims[fact]);
      const auto place = std::find(wanted.begin(), wanted.end(), names);
      REQUIRE(place != wanted.end());
      if (one.contains("cycle_weight"))
        CHECK(-static_cast<long>(conflict.shortBy) ==
              one["cycle_weight"][static_cast<std::size_t>(place - wanted.begin())].get<long>());
      sets.push_back(names);
    }
    std::set<std::string> covered;
    std::set<std::string> taking;
    for (const auto& set : sets) covered.insert(set.begin(), set.end());
    for (const auto& set : wanted) taking.insert(set.begin(), set.end());
    CHECK(covered == taking);
    if (one.contains("minimal_removals") && sets.size() == wanted.size()) {
      std::set<std::set<std::string>> removals;
      for (const json& removal : one["minimal_removals"])
        removals.insert(removal.get<std::set<std::string>>());
      CHECK(hitting(sets) == removals);
    }
  }
}

}  // namespace saggar::chronology
