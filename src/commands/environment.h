#pragma once
#include <functional>
#include <string>
#include <string_view>

#include "source/files.h"

namespace saggar::commands {

// What a command may touch of the outside world. Tests run the commands on a world in memory and collect what they
// say.
struct Environment {
  const source::Files& files;
  std::string currentFolder;
  std::function<void(std::string_view)> out;   // standard output
  std::function<void(std::string_view)> err;   // standard error
  std::function<bool(std::string&)> readLine;  // standard input, without its line end; false at the end
  bool colour = false;                         // on a terminal, and NO_COLOR is not set
  bool progress = false;                       // standard error is a terminal
};

enum ExitStatus { kFine = 0, kFindings = 1, kCannot = 2 };

// A command that could not be carried out: on standard error as text, or on standard output as
// {"error","hint"} under --format json. Gives kCannot.
int cannot(const Environment& environment, bool json, const std::string& error, const std::string& hint);

}  // namespace saggar::commands
