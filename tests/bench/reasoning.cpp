#include <algorithm>
#include <cstdlib>
#include <map>
#include <optional>
#include <string>

#include "chronology/conflicts.h"
#include "chronology/strongest.h"
#include "networks.h"
#include "stopwatch.h"

// reasoning [ROUNDS]: the reasoning about dates alone, on invented networks. A line a measure, `NAME clock processors`,
// the best of the rounds (5). What came out is looked at afterwards, outside the time: bounds that an edge contradicts or
// that their chains do not add up to, and contradictions missed or not minimal, end the program with 1.
namespace {

using namespace saggar::chronology;
using namespace bench;

int failed = 0;
void demand(bool holds, const std::string& what) {
  if (!holds && ++failed <= 20) std::fprintf(stderr, "reasoning: %s\n", what.c_str());
}

// The earliest and the latest day of every point with their chains, of documented facts and of all.
struct FourSets {
  Suspects proven, likely;
};

Selection documented(const Network& network) {
  Selection some = network.all();
  for (EdgeId id = 0; id < network.edges(); ++id)
    if (const FactId fact = network.edge(id).fact; fact != kNoFact && network.weakness(fact) != 0)
      some.set(id, false);
  return some;
}

FourSets fourSets(const Network& network) {
  return {suspectsOf(network, documented(network)), suspectsOf(network, network.all())};
}

// No edge shortens a way, and each way is as long as the edges of its chain.
void prove(const Network& network, const Selection& selection, const Ways& ways, const std::string& name) {
  const bool forwards = ways.direction == Direction::fromOrigin;
  for (EdgeId id = 0; id < network.edges(); ++id) {
    if (!selection.has(id)) continue;
    const Edge& edge = network.edge(id);
    const Node near = forwards ? edge.from : edge.to;
    const Node far = forwards ? edge.to : edge.from;
    if (far != kOrigin && ways.reaches(near))
      demand(ways.reaches(far) && ways.of(far) <= ways.of(near) + network.days(id),
             name + ": a way is too long");
  }
  std::vector<bool> known(network.nodes(), false);
  known[kOrigin] = true;
  std::vector<Node> chain;
  for (Node start = 1; start < network.nodes(); ++start) {
    if (!ways.reaches(start)) continue;
    chain.clear();
    for (Node at = start; !known[at] && chain.size() <= network.nodes();) {
      chain.push_back(at);
      const EdgeId via = ways.via[at];
      if (via == kNoEdge || !selection.has(via)) return demand(false, name + ": a chain breaks off");
      const Node next = forwards ? network.edge(via).from : network.edge(via).to;
      demand(ways.of(at) == ways.of(next) + network.days(via), name + ": a chain does not add up");
      at = next;
    }
    if (chain.size() > network.nodes()) return demand(false, name + ": a chain has no end");
    for (const Node at : chain) known[at] = true;
  }
}

void prove(const Network& network, const FourSets& sets, const std::string& name) {
  const Selection some = documented(network);
  demand(sets.proven.none() && sets.likely.none(), name + ": facts clash that are all true");
  for (const Ways* ways : {&sets.proven.from, &sets.proven.to}) prove(network, some, *ways, name);
  for (const Ways* ways : {&sets.likely.from, &sets.likely.to}) prove(network, network.all(), *ways, name);
}

// Whether the edges of these facts can all hold (Bellman, Ford), looked at by themselves.
bool canBeTrue(const Network& network, const std::vector<FactId>& facts) {
  std::map<Node, Days> days;
  std::size_t edges = 0;
  for (const FactId fact : facts)
    for (const EdgeId id : network.edgesOf(fact)) {
      days[network.edge(id).from] = days[network.edge(id).to] = 0;
      ++edges;
    }
  for (std::size_t sweep = 0; sweep <= days.size(); ++sweep) {
    bool changed = false;
    for (const FactId fact : facts)
      for (const EdgeId id : network.edgesOf(fact)) {
        const Days reach = days[network.edge(id).from] + network.days(id);
        if (reach >= days[network.edge(id).to]) continue;
        days[network.edge(id).to] = reach;
        changed = true;
      }
    if (!changed) return true;
  }
  return false;
}

void proveClashes(const Clashing& world, const Conflicts& found, const Strongest& strongest) {
  std::vector<std::vector<FactId>> sets;
  for (const Conflict& conflict : found.all) {
    sets.push_back(conflict.facts);
    demand(conflict.shortBy > 0, "a contradiction that misses by no day");
    demand(!canBeTrue(world.network, conflict.facts), "a contradiction that is none");
    for (const FactId without : conflict.facts) {
      std::vector<FactId> rest = conflict.facts;
      std::erase(rest, without);
      demand(canBeTrue(world.network, rest), "a contradiction that is not minimal");
    }
  }
  std::sort(sets.begin(), sets.end());
  demand(sets == world.planted, "of " + std::to_string(world.planted.size()) + " contradictions " +
                                    std::to_string(sets.size()) + " were found, or others");
  demand(found.rest.empty(), "facts still clash");
  demand(strongest.leftOut.size() == world.planted.size(), "more facts gave way than must");
}

struct Measure {
  const char* name;
  std::vector<Network> networks;  // one after the other; the time is that of one
  Times best = {};
};

// Ten of the tenth: a single small one would stay as near to the processor as a large one never is.
std::vector<Network> tenthsOf(std::uint32_t events, Ties ties) {
  std::vector<Network> ten;
  for (std::uint32_t seed = 1; seed <= 10; ++seed) ten.push_back(sound(events / 10, ties, seed));
  return ten;
}

}  // namespace

int main(int count, char** words) {
  const int rounds = count > 1 ? std::max(1, std::atoi(words[1])) : 5;
  constexpr std::uint32_t kEvents = 100'000;
  std::vector<Measure> measures;
  measures.push_back({"bounds", {sound(kEvents)}});
  measures.push_back({"bounds-tenth", tenthsOf(kEvents, Ties::asInAGuide)});
  measures.push_back({"tangled", {sound(kEvents, Ties::tangled)}});
  measures.push_back({"tangled-tenth", tenthsOf(kEvents, Ties::tangled)});
  measures.push_back({"falling", {fallingSeries(kEvents)}});
  measures.push_back({"falling-tenth", std::vector<Network>(10, fallingSeries(kEvents / 10))});
  measures.push_back({"after", {chainOfAfter(10'000)}});
  measures.push_back({"after-tenth", std::vector<Network>(10, chainOfAfter(1'000))});
  const Clashing clashes = clashing(kEvents, 1'000);
  Times clashing;
  for (int round = 0; round < rounds; ++round) {
    for (Measure& measure : measures) {
      std::vector<FourSets> sets(measure.networks.size());
      measureOnce(measure.best, [&] {
        for (std::size_t i = 0; i < sets.size(); ++i) sets[i] = fourSets(measure.networks[i]);
      });
      for (std::size_t i = 0; round == 0 && i < sets.size(); ++i)
        prove(measure.networks[i], sets[i], measure.name);
    }
    std::optional<Conflicts> found;
    std::optional<Strongest> strongest;
    measureOnce(clashing, [&] {
      const Suspects suspects = suspectsOf(clashes.network, clashes.network.all());
      found = conflictsOf(clashes.network, clashes.network.all(), suspects);
      strongest = strongestOf(clashes.network, clashes.network.all(), suspects);
    });
    if (round == 0) proveClashes(clashes, *found, *strongest);
  }
  std::printf("# %u events, %zu facts; %zu contradictions\n", measures[0].networks[0].nodes() - 1,
              measures[0].networks[0].facts(), clashes.planted.size());
  for (Measure& measure : measures) {
    measure.best.clock /= static_cast<double>(measure.networks.size());
    measure.best.processors /= static_cast<double>(measure.networks.size());
    tell(measure.name, measure.best);
  }
  tell("clashes", clashing);
  return failed > 0 ? 1 : 0;
}
