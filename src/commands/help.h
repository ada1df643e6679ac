#pragma once
#include <span>
#include <string>
#include <string_view>

// What `--help` prints, written by hand: somebody who is no programmer reads it.
namespace saggar::commands {

struct CommandHelp {
  std::string_view name;
  std::string_view wants;    // what must follow the command, in words: "a record"; empty if nothing must
  std::string_view example;  // a line that can be typed as it stands
  std::string_view text;     // the whole page
};

// Every command, in the order in which they are listed.
std::span<const CommandHelp> commandHelp();
const CommandHelp* helpOf(std::string_view command);  // null if there is no such command

// The page of the program itself.
std::string_view programHelp();

}  // namespace saggar::commands
