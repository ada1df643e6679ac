#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "publishing/disk.h"
#include "publishing/manifest.h"

// Whole trees: looked through, carried, taken away. Nothing here recurses, follows a link, or opens a file
// for writing that was there before.
namespace saggar::publishing {

struct Node {
  std::string path;  // relative to the tree
  struct stat info;
  bool folder() const { return S_ISDIR(info.st_mode); }
  bool file() const { return S_ISREG(info.st_mode); }
};

// Every entry below a folder, sorted by path, so that a folder stands before what is in it. `error` is an
// errno and `failedAt` where; EXDEV for a folder on which another disk is mounted.
struct Walk {
  std::vector<Node> nodes;
  int error = 0;
  std::string failedAt;
};
Walk walk(const std::string& root);

// Gives `from` a second name; where the disk or its owner forbids that, a copy with the same bytes, time,
// mode and (if we may) owner.
int carry(Disk& disk, const std::string& from, const std::string& to, const Node& node);

// Gives a folder the mode and (if we may) owner of another, with `times` its times as well.
int dressFolder(const std::string& path, const struct stat& like, bool times);

// Takes a tree of our own making away. 0 or the first errno; goes on after one.
int removeTree(Disk& disk, const std::string& root);

// Takes an old tree away after `now` took its place. Our files go, and second names of what was carried over;
// what is neither (somebody saved it while we were at work) is moved into `now`: the later of two versions stays,
// and a name that is ours there is left to us, the other file getting ".kept" after its name. Notices say what was
// moved; `shown` is how the author calls the folder. A run killed here can be taken up by another.
int retire(Disk& disk, const std::string& old, const std::string& now, const std::string& shown,
           std::vector<std::string>& notices);

// The manifest in a folder, or nothing.
std::optional<Manifest> manifestIn(const std::string& folder);

}  // namespace saggar::publishing
