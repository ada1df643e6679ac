#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/parser.h>

#include <sys/resource.h>

#include <algorithm>
#include <atomic>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <thread>
#include <vector>

// event_parse FOLDER [THREADS]: what the measure is taken against. yaml-cpp's bare events of every YAML file,
// one file a task, nothing done with them but counting. Prints seconds (texts already in memory), bytes and
// peak memory.
namespace {

class Count final : public YAML::EventHandler {
 public:
  std::size_t events = 0;
  void OnDocumentStart(const YAML::Mark&) override {}
  void OnDocumentEnd() override {}
  void OnNull(const YAML::Mark&, YAML::anchor_t) override { ++events; }
  void OnAlias(const YAML::Mark&, YAML::anchor_t) override { ++events; }
  void OnScalar(const YAML::Mark&, const std::string&, YAML::anchor_t, const std::string&) override {
    ++events;
  }
  void OnSequenceStart(const YAML::Mark&, const std::string&, YAML::anchor_t,
                       YAML::EmitterStyle::value) override {
    ++events;
  }
  void OnSequenceEnd() override {}
  void OnMapStart(const YAML::Mark&, const std::string&, YAML::anchor_t, YAML::EmitterStyle::value) override {
    ++events;
  }
  void OnMapEnd() override {}
};

}  // namespace

int main(int count, char** words) {
  if (count < 2) {
    std::fputs("event_parse FOLDER [THREADS]\n", stderr);
    return 2;
  }
  const unsigned threads = count > 2 ? static_cast<unsigned>(std::max(1, std::atoi(words[2])))
                                     : std::max(1u, std::thread::hardware_concurrency());
  std::vector<std::filesystem::path> paths;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(words[1]))
    if (entry.is_regular_file() && entry.path().extension() == ".yaml") paths.push_back(entry.path());
  std::sort(paths.begin(), paths.end());
  const auto begin = std::chrono::steady_clock::now();
  std::atomic<std::size_t> next{0};
  std::atomic<std::size_t> bytes{0};
  std::atomic<std::size_t> events{0};
  auto work = [&] {
    for (std::size_t i = next++; i < paths.size(); i = next++) {
      std::ifstream in(paths[i], std::ios::binary);
      Count counter;
      YAML::Parser parser(in);
      while (parser.HandleNextDocument(counter)) {
      }
      bytes += std::filesystem::file_size(paths[i]);
      events += counter.events;
    }
  };
  std::vector<std::thread> others;
  for (unsigned i = 1; i < threads; ++i) others.emplace_back(work);
  work();
  for (std::thread& one : others) one.join();
  const double seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
  rusage used{};
  getrusage(RUSAGE_SELF, &used);
  auto inSeconds = [](const timeval& time) {
    return static_cast<double>(time.tv_sec) + 1e-6 * static_cast<double>(time.tv_usec);
  };
  const double cpu = inSeconds(used.ru_utime) + inSeconds(used.ru_stime);
  std::printf("%.4f s %.4f cpu-s %zu bytes %ld peak-bytes %zu events\n", seconds, cpu, bytes.load(),
              used.ru_maxrss * 1024, events.load());
}
