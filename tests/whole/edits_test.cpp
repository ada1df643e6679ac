// Ten thousand one-byte edits of the demo: whatever an author's finger does, the program answers with findings, soon.
#include <doctest/doctest.h>

#include <ctime>
#include <random>

#include "commands/pipeline.h"

using namespace saggar;

namespace {

void addFolder(const source::Files& disk, const std::string& folder, const std::string& as,
               source::MemoryFiles& world, std::vector<std::pair<std::string, std::string>>& texts) {
  const auto entries = disk.list(folder);
  REQUIRE(entries);
  for (const source::FolderEntry& entry : *entries) {
    const std::string path = source::pathJoined(folder, entry.name);
    const std::string name = source::pathJoined(as, entry.name);
    if (entry.status.type == source::FileType::folder) {
      addFolder(disk, path, name, world, texts);
      continue;
    }
    const bool text = entry.name.ends_with(".yaml") || entry.name.ends_with(".md");
    std::string bytes = text ? disk.read(path).bytes : std::string("a picture");
    if (text) texts.emplace_back(name, bytes);
    world.put(name, std::move(bytes));
  }
}

double processSeconds() {
  timespec now;
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
  return static_cast<double>(now.tv_sec) + static_cast<double>(now.tv_nsec) * 1e-9;
}

}  // namespace

TEST_CASE("ten thousand random one-byte edits of the demo: no crash, no hang") {
  const source::DiskFiles disk;
  source::MemoryFiles world;
  std::vector<std::pair<std::string, std::string>> texts;
  addFolder(disk, DEMO, "guide", world, texts);
  REQUIRE(texts.size() > 40);
  const commands::Environment environment{.files = world,
                                          .currentFolder = "",
                                          .out = [](std::string_view) {},
                                          .err = [](std::string_view) {},
                                          .readLine = [](std::string&) { return false; }};
  const std::size_t unedited = commands::runPipeline(environment, "guide")->report.findings.size();
  std::size_t all = 0;
  for (const auto& [name, text] : texts) all += text.size();
  constexpr std::string_view kTyped = "abcXYZ019 \t\n:-'\"[]{},#&*!|>%@`?~.\\/\x01\xC3\x80<";
  std::mt19937 random(20261125);
  double slowest = 0;
  std::size_t withFindings = 0;
  for (int round = 0; round < ROUNDS; ++round) {
    std::size_t at = random() % all;
    auto file = texts.begin();
    while (at >= file->second.size()) at -= (file++)->second.size();
    std::string edited = file->second;
    const char typed = kTyped[random() % kTyped.size()];
    switch (random() % 3) {
      case 0: edited[at] = typed; break;
      case 1: edited.insert(at, 1, typed); break;
      default: edited.erase(at, 1);
    }
    world.put(file->first, edited);
    const double before = processSeconds();
    const auto guide = commands::runPipeline(environment, "guide");
    slowest = std::max(slowest, processSeconds() - before);
    withFindings += guide->report.findings.size() > unedited ? 1 : 0;
    CHECK(guide->report.findings.size() < 2000);
    world.put(file->first, file->second);
  }
  CHECK_MESSAGE(slowest < 1.0, "the slowest took " << slowest << " s of processor time");
  CHECK(withFindings > ROUNDS / 20);  // most letters stand in prose, where another letter is no fault
}
