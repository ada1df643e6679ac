#pragma once
#include <string>
#include <string_view>

// What could not be done, for the person at the keyboard: what was seen, and what to do instead.
namespace saggar::publishing {

struct Problem {
  std::string error;
  std::string hint;  // may be empty
};

// An errno in words: "the disk is full".
std::string reasonInWords(int error);

// "cannot write out/guide/a.md: the disk is full" with a hint that fits the reason. `option` is how the
// author names the folder on the command line: "-o" or "--own".
Problem diskProblem(std::string_view what, int error, std::string_view option);

// The name as it may be printed: control characters and malformed UTF-8 made visible as U+FFFD, cut at 300
// characters.
std::string shownPath(std::string_view path);

}  // namespace saggar::publishing
