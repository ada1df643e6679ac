#include <cstdlib>
#include <string>

#include "choosing/choose.h"
#include "choosing/code_readings.h"
#include "chronology/chronology.h"
#include "linking/link.h"
#include "reading/guide_reader.h"
#include "stopwatch.h"

// time_chronology FOLDER NAME [ROUNDS]: the stage of chronology alone, from the records to the days of every event and
// what clashes, and then the chains of reasons of the bounds of a thousand events spread evenly, likely and proven. Two lines that bench.sh reads: NAME and
// NAME-chains, the best of the rounds (3); before them `# events facts clashes`.
int main(int count, char** words) {
  if (count < 3) {
    std::fputs("time_chronology FOLDER NAME [ROUNDS]\n", stderr);
    return 2;
  }
  using namespace saggar;
  const std::string name = words[2];
  const int rounds = count > 3 ? std::max(1, std::atoi(words[3])) : 3;
  diagnostics::Findings findings;
  diagnostics::Settings settings;
  const linking::Collection collection =
      linking::link(reading::readGuide(source::DiskFiles(), words[1], findings), findings, settings);
  const evidence::Weights weights(collection);
  const choosing::OwnBounds bounds(collection, dates::Reading::Plain);
  const choosing::Chooser chooser(collection, bounds);
  const choosing::CodeReadings codes = choosing::CodeReadings::read(chooser, findings);
  constexpr std::uint64_t kChains = 1'000;
  bench::Times reason, chains;
  for (int round = 0; round < rounds; ++round) {
    chronology::Chronology made;
    bench::measureOnce(reason,
                       [&] { made = chronology::Chronology::reason(collection, weights, *codes.days()); });
    std::size_t steps = 0;
    bench::measureOnce(chains, [&] {
      const chronology::Node events = made.events().count() - 1;
      for (std::uint64_t i = 0; i < kChains; ++i) {
        const auto node = static_cast<chronology::Node>(1 + i * events / kChains);
        for (const auto which : {chronology::BoundsOf::proven, chronology::BoundsOf::likely})
          for (const auto end : {dates::End::Earliest, dates::End::Latest})
            steps += made.because(node, which, end).size();
      }
    });
    if (round == 0)
      std::printf("# %u events, %zu facts, %zu contradictions, %zu reasons\n", made.events().count() - 1,
                  made.facts(), made.clashes().size(), steps);
  }
  bench::tell(name.c_str(), reason);
  bench::tell((name + "-chains").c_str(), chains);
}
