#include <algorithm>
#include <chrono>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include "fuzz.h"

// replay FOLDER…: gives every file to the harness it is linked with. A broken promise ends the program.
int main(int count, char** words) {
  std::vector<std::filesystem::path> paths;
  for (int i = 1; i < count; ++i)
    for (const auto& entry : std::filesystem::recursive_directory_iterator(words[i]))
      if (entry.is_regular_file()) paths.push_back(entry.path());
  std::sort(paths.begin(), paths.end());
  for (const std::filesystem::path& path : paths) {
    std::ifstream in(path, std::ios::binary);
    const std::string bytes{std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
    std::printf("%s\n", path.c_str());  // so that a crash names its file
    std::fflush(stdout);
    const auto begin = std::chrono::steady_clock::now();
    LLVMFuzzerTestOneInput(reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size());
    const std::chrono::duration<double> took = std::chrono::steady_clock::now() - begin;
    fuzz::demand(took.count() < 5, "it takes five seconds");
  }
  fuzz::demand(!paths.empty(), "there is nothing to replay");
  std::printf("%zu files\n", paths.size());
}
