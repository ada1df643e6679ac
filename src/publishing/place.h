#pragma once
#include <sys/stat.h>

#include <optional>
#include <string>
#include <string_view>

#include "publishing/manifest.h"
#include "publishing/problem.h"

// Where an output folder really is, and whether it may be written.
namespace saggar::publishing {

struct Place {
  std::string shown;   // as the author wrote it, fit to print
  std::string option;  // "-o" or "--own"
  std::string path;    // absolute, every link followed; the folder itself need not exist
  std::string parent;  // the folder around it, where the new tree is made
  std::string work;    // parent/.NAME.saggar-work, or .saggar-work-HASH where NAME is too long for that
};

// Follows links and finds the place; changes nothing on the disk. Refused: no name, a control character, a
// link that leads nowhere, a file, "/", the folder the author stands in or one around it, the guide's own
// folder or one around it. `from` is where the author stands (absolute), `guide` the guide's folder or empty.
struct Placing {
  std::optional<Problem> problem;
  Place place;
};
Placing placeOf(std::string_view folder, std::string_view option, const std::string& from,
                const std::string& guide);

// Refused if the two are one folder or one lies in the other.
std::optional<Problem> foldersApart(const Place& out, const Place& own);

// What stands there now.
struct Standing {
  bool exists = false;
  struct stat info = {};
  std::optional<Manifest> manifest;  // none: missing or empty
  std::string manifestText;
};

// Refused: a file, a folder that is not empty and has no manifest of ours, one whose manifest cannot be read
// or is for the other tree, a disk of its own (it could not be exchanged), one that may not be written or
// read.
struct Inspection {
  std::optional<Problem> problem;
  Standing standing;
};
Inspection inspect(const Place& place, std::string_view tree);

// True if a is b, or b lies in a. Both absolute and normal.
bool holds(std::string_view a, std::string_view b);

}  // namespace saggar::publishing
