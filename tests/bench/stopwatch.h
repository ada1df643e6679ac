#pragma once
#include <sys/resource.h>

#include <algorithm>
#include <chrono>
#include <cstdio>

// The best of several rounds, on the clock and by the processors.
namespace bench {

struct Times {
  double clock = 1e9;
  double processors = 1e9;
};

inline double processorSeconds() {
  rusage used{};
  getrusage(RUSAGE_SELF, &used);
  auto inSeconds = [](const timeval& time) {
    return static_cast<double>(time.tv_sec) + 1e-6 * static_cast<double>(time.tv_usec);
  };
  return inSeconds(used.ru_utime) + inSeconds(used.ru_stime);
}

template <class Work>
void measureOnce(Times& best, Work work) {
  const double before = processorSeconds();
  const auto begin = std::chrono::steady_clock::now();
  work();
  const double clock = std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
  best.clock = std::min(best.clock, clock);
  best.processors = std::min(best.processors, processorSeconds() - before);
}

// A line that bench.sh reads.
inline void tell(const char* name, const Times& best) {
  std::printf("%s %.6f %.6f\n", name, best.clock, best.processors);
}

}  // namespace bench
