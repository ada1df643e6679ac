#include <sys/resource.h>

#include <chrono>
#include <cstdio>
#include <cstdlib>

#include "diagnostics/report.h"
#include "reading/guide_reader.h"

// time_reading FOLDER [THREADS]: the stage of reading alone, in the form of event_parse's line.
int main(int count, char** words) {
  if (count < 2) {
    std::fputs("time_reading FOLDER [THREADS]\n", stderr);
    return 2;
  }
  saggar::reading::ReadOptions options;
  if (count > 2) options.threads = static_cast<unsigned>(std::atoi(words[2]));
  const auto begin = std::chrono::steady_clock::now();
  saggar::diagnostics::Findings findings;
  const auto guide = saggar::reading::readGuide(saggar::source::DiskFiles(), words[1], findings, options);
  const double seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
  std::size_t bytes = 0;
  for (std::size_t i = 0; i < guide.sources.size(); ++i)
    bytes += guide.sources.text(static_cast<saggar::source::FileId>(i)).size();
  rusage used{};
  getrusage(RUSAGE_SELF, &used);
  auto inSeconds = [](const timeval& time) {
    return static_cast<double>(time.tv_sec) + 1e-6 * static_cast<double>(time.tv_usec);
  };
  const double cpu = inSeconds(used.ru_utime) + inSeconds(used.ru_stime);
  std::printf("%.4f s %.4f cpu-s %zu bytes %ld peak-bytes %zu records %zu findings\n", seconds, cpu, bytes,
              used.ru_maxrss * 1024, guide.records.size(), findings.all().size());
  if (!findings.empty()) {
    const auto report = saggar::diagnostics::makeReport(std::move(findings), {}, guide.sources);
    std::fputs(saggar::diagnostics::asText(report, guide.sources).substr(0, 4000).c_str(), stderr);
    return 1;
  }
}
