#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <string>

#include "invented.h"

// generate FOLDER [--treatments N] [--specimens N] [--sources N] [--files N] [--one-file]
int main(int count, char** words) {
  bench::Size size;
  std::string folder;
  for (int i = 1; i < count; ++i) {
    const std::string word = words[i];
    auto number = [&](unsigned& into) {
      if (i + 1 < count) into = static_cast<unsigned>(std::strtoul(words[++i], nullptr, 10));
    };
    if (word == "--treatments")
      number(size.treatments);
    else if (word == "--specimens")
      number(size.specimens);
    else if (word == "--sources")
      number(size.sources);
    else if (word == "--files")
      number(size.files);
    else if (word == "--one-file")
      size.oneFile = true;
    else
      folder = word;
  }
  if (folder.empty()) {
    std::fputs("generate FOLDER [--treatments N] [--specimens N] [--sources N] [--files N] [--one-file]\n",
               stderr);
    return 2;
  }
  std::size_t bytes = 0;
  std::size_t files = 0;
  for (const bench::TextFile& file : bench::inventGuide(size)) {
    const std::filesystem::path path = std::filesystem::path(folder) / file.path;
    std::filesystem::create_directories(path.parent_path());
    std::ofstream out(path, std::ios::binary);
    out.write(file.text.data(), static_cast<std::streamsize>(file.text.size()));
    if (!out.flush()) {
      std::fprintf(stderr, "cannot write %s: %s\n", path.c_str(), std::strerror(errno));
      return 2;
    }
    bytes += file.text.size();
    ++files;
  }
  std::printf("%zu bytes in %zu files\n", bytes, files);
}
