#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <string>

#include "invented.h"
#include "long_rows.h"

// generate FOLDER [--treatments N] [--specimens N] [--sources N] [--files N] [--firsts N] [--one-file]
// generate FOLDER --falling N|--after N: a long row of so many decorations
int main(int count, char** words) {
  bench::Size size;
  unsigned falling = 0;
  unsigned after = 0;
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
    else if (word == "--firsts")
      number(size.firsts);
    else if (word == "--falling")
      number(falling);
    else if (word == "--after")
      number(after);
    else if (word == "--one-file")
      size.oneFile = true;
    else
      folder = word;
  }
  if (folder.empty()) {
    std::fputs(
        "generate FOLDER [--treatments N] [--specimens N] [--sources N] [--files N] [--firsts N] "
        "[--one-file]\n"
        "generate FOLDER --falling N|--after N\n",
        stderr);
    return 2;
  }
  std::size_t bytes = 0;
  std::size_t files = 0;
  for (const bench::TextFile& file : falling > 0 ? bench::fallingNumbers(falling)
                                     : after > 0 ? bench::oneAfterAnother(after)
                                                 : bench::inventGuide(size)) {
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
