#pragma once
#include <map>
#include <memory>
#include <mutex>
#include <set>
#include <string>
#include <vector>

#include "publishing/manifest.h"
#include "publishing/place.h"
#include "publishing/tree.h"
#include "publishing/walk.h"
#include "publishing/workplace.h"

// What Publication keeps between opening and exchanging. Not for other rooms.
namespace saggar::publishing {

struct Entry {
  ManifestFile file;
  bool finished = false;
  bool made = false;        // added in this run
  bool fresh = false;       // lies in the new tree; else in the old one, under `inode`
  std::uint64_t inode = 0;  // of the old tree's file when its hash was found right
};

struct Publication::State {
  TreeSettings settings;
  std::unique_ptr<Disk> ownDisk;
  Disk* disk = nullptr;
  Place place;
  Standing standing;
  std::unique_ptr<Workplace> workplace;
  std::vector<std::string> notices;

  mutable std::mutex lock;  // guards what follows
  std::optional<Problem> problem;
  std::map<std::string, Entry, std::less<>> entries;
  bool begun = false;
  bool committed = false;

  bool failed() const;
  void fail(Problem found);
  Entry* claim(std::string_view part, const std::string& path);
  void forget(const std::string& path);
  bool makesPart(std::string_view part) const;
  bool beginTree();  // makes the new tree's folder at the first need
  bool createFresh(const std::string& path, NewFile& file);
  bool removeFresh(const std::string& path);
  // The file has this hash: left where it is in the old tree if it is the same there, else written or closed.
  bool settleFile(const std::string& path, Entry& entry, std::unique_ptr<NewFile> file,
                  std::string_view pending);

  std::string shown(std::string_view path) const { return place.shown + '/' + shownPath(path); }
  std::string oldPath(std::string_view path) const { return place.path + '/' + std::string(path); }
  std::string newPath(std::string_view path) const { return workplace->newTree() + '/' + std::string(path); }

  // The steps of commit(), in commit.cpp; each false after a failure.
  bool takeOverOld(std::set<std::string>& released);
  bool syncFresh();
  bool syncAll(const std::vector<std::string>& paths);  // of the new tree
  bool carryOver(const Manifest& manifest, const std::set<std::string>& released);
  bool writeManifest(const std::string& text);
  bool exchange();
};

}  // namespace saggar::publishing
