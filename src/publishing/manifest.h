#pragma once
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "publishing/problem.h"

// manifest.json: what in a folder is ours. Same tree, same bytes: keys in a fixed order, files and records
// sorted, one line a file, no clock.
//   {"manifest": "saggar", "version": 1, "tree": "out"|"own", "parts": [name…],
//    "files": [{"path", "part", "sha256", "bytes", "records": [ref…]}…]}
// A file that the author changed by hand and that was carried over has "edited": true before its records; its
// hash is the one of the changed file.
namespace saggar::publishing {

inline constexpr std::string_view kManifestName = "manifest.json";
inline constexpr int kManifestVersion = 1;

struct ManifestFile {
  std::string part;
  std::string sha256;
  std::uint64_t bytes = 0;
  bool edited = false;
  std::vector<std::string> records;
};

struct Manifest {
  std::string tree;
  std::vector<std::string> parts;                          // sorted
  std::map<std::string, ManifestFile, std::less<>> files;  // by path

  bool names(std::string_view path) const { return files.find(path) != files.end(); }
};

std::string manifestText(const Manifest& manifest);

// Whatever the text, a manifest or the reason why it is none: not JSON, not ours, another version, a path
// that leaves the folder. The error is a phrase that follows "its manifest.json ".
struct ManifestReading {
  std::optional<Manifest> manifest;
  std::string error;
  bool ours = false;  // the marker was seen, whatever the rest
};
ManifestReading manifestFrom(std::string_view text);

// Empty if a path may stand in a tree: relative, valid UTF-8 without control characters or backslashes, no
// empty step, none that begins with '.', and not the manifest's own name. Else why not: "it climbs out of the
// folder".
std::string pathFault(std::string_view path);

// Every file that a folder's manifest names is there with its hash. `faults` has a path and what is wrong
// with it.
struct Verification {
  std::optional<Problem> problem;  // there is no manifest that can be read
  std::size_t files = 0;
  std::vector<std::pair<std::string, std::string>> faults;
  bool good() const { return !problem && faults.empty(); }
};
Verification verify(const std::string& folder);

}  // namespace saggar::publishing
