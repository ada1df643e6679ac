#include <unistd.h>

#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <iostream>

#include "commands/command.h"

int main(int count, char** words) {
  const saggar::source::DiskFiles files;
  std::error_code none;
  const bool plain = std::getenv("NO_COLOR") != nullptr;
  const saggar::commands::Environment environment{
      .files = files,
      .currentFolder = std::filesystem::current_path(none).string(),
      .out = [](std::string_view text) { std::fwrite(text.data(), 1, text.size(), stdout); },
      .err = [](std::string_view text) { std::fwrite(text.data(), 1, text.size(), stderr); },
      .readLine = [](std::string& line) { return static_cast<bool>(std::getline(std::cin, line)); },
      .colour = isatty(STDOUT_FILENO) == 1 && !plain,
      .progress = isatty(STDERR_FILENO) == 1,
  };
  const int status = saggar::commands::run(environment, count, words);
  const bool written = std::fflush(stdout) == 0 && std::ferror(stdout) == 0;
  return written ? status : saggar::commands::kCannot;
}
