#include <unistd.h>

#include <cerrno>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <iostream>

#include "commands/command.h"
#include "publishing/problem.h"

int main(int count, char** words) {
  std::signal(SIGXFSZ, SIG_IGN);  // a file that grows too long is an error like any other, and is told
  const saggar::source::DiskFiles files;
  std::error_code none;
  int cut = 0;  // why the answer could not be written out
  const bool plain = std::getenv("NO_COLOR") != nullptr;
  const saggar::commands::Environment environment{
      .files = files,
      .currentFolder = std::filesystem::current_path(none).string(),
      .out =
          [&](std::string_view text) {
            if (std::fwrite(text.data(), 1, text.size(), stdout) < text.size() && cut == 0) cut = errno;
          },
      .err = [](std::string_view text) { std::fwrite(text.data(), 1, text.size(), stderr); },
      .readLine = [](std::string& line) { return static_cast<bool>(std::getline(std::cin, line)); },
      .colour = isatty(STDOUT_FILENO) == 1 && !plain,
      .progress = isatty(STDERR_FILENO) == 1,
  };
  const int status = saggar::commands::run(environment, count, words);
  if (std::fflush(stdout) != 0 && cut == 0) cut = errno;
  if (cut == 0) return status;
  const std::string why = saggar::publishing::reasonInWords(cut);
  std::fputs(("saggar: the answer could not be written out: " + why + '\n').c_str(), stderr);
  return saggar::commands::kCannot;
}
