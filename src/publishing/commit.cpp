#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <cassert>
#include <cerrno>
#include <system_error>
#include <thread>

#include "publishing/hash.h"
#include "publishing/tree_state.h"

namespace saggar::publishing {
namespace {

constexpr std::size_t kSyncers = 7;

std::string folderOf(const std::string& path) {
  const std::size_t slash = path.rfind('/');
  return slash == std::string::npos ? std::string() : path.substr(0, slash);
}

bool hasFilesUnder(const std::map<std::string, ManifestFile, std::less<>>& files, const std::string& folder) {
  const auto it = files.lower_bound(folder + '/');
  return it != files.end() && it->first.starts_with(folder + '/');
}

bool mayBeEmptied(const Node& folder, const std::string& path) {
  return geteuid() == 0 || folder.info.st_uid == geteuid() || access(path.c_str(), W_OK | X_OK) == 0;
}

}  // namespace

// Decides about every file of the old manifest: made again, carried over, or gone. `released` gets what was
// ours, is no longer made and bears the author's own changes: it stays, as his.
bool Publication::State::takeOverOld(std::set<std::string>& released) {
  if (!standing.manifest) return true;
  for (const auto& [path, before] : standing.manifest->files) {
    const auto it = entries.find(path);
    const bool again = it != entries.end();
    if (again && !it->second.fresh) continue;
    const FileDigest digest = digestOfFile(oldPath(path));
    const bool edited = digest.error == 0 && digest.sha256 != before.sha256;
    const bool theirs = edited || (digest.error == 0 && before.edited);
    if (again) {
      if (theirs) notices.push_back(shown(path) + " had been changed by hand; it is made anew");
    } else if (makesPart(before.part)) {
      if (!theirs) continue;
      released.insert(path);
      notices.push_back(shown(path) + " is no longer made, but had been changed by hand; it stays, as yours");
    } else if (digest.error == ENOENT || digest.error == ENOTDIR || digest.error == ELOOP ||
               digest.error == EINVAL) {
      notices.push_back(shown(path) + " is gone; saggar make " + before.part + " makes it again");
    } else if (digest.error != 0) {
      fail(diskProblem("cannot read " + shown(path), digest.error, place.option));
      return false;
    } else {
      Entry& entry = entries[path];
      entry.file = before;
      entry.finished = true;
      entry.inode = digest.inode;
      if (!edited) continue;
      entry.file.sha256 = digest.sha256;
      entry.file.bytes = digest.bytes;
      entry.file.edited = true;
      notices.push_back(shown(path) + " has been changed by hand; it is carried over as it is");
    }
  }
  return true;
}

// Every sync waits for the disk, and a disk finishes many waits at once: so several wait together.
bool Publication::State::syncAll(const std::vector<std::string>& paths) {
  std::atomic<std::size_t> next = 0;
  const auto work = [&] {
    for (std::size_t i = next++; i < paths.size() && !failed(); i = next++)
      if (const int error = disk->sync(newPath(paths[i])))
        fail(diskProblem("cannot write " + shown(paths[i]), error, place.option));
  };
  std::vector<std::thread> helpers;
  try {
    while (helpers.size() < kSyncers && helpers.size() * 4 + 4 < paths.size()) helpers.emplace_back(work);
  } catch (const std::system_error&) {
    // fewer threads than we would like; this one does the work
  }
  work();
  for (std::thread& helper : helpers) helper.join();
  return !failed();
}

bool Publication::State::syncFresh() {
  std::vector<std::string> fresh;
  for (const auto& [path, entry] : entries)
    if (entry.fresh) fresh.push_back(path);
  return syncAll(fresh);
}

bool Publication::State::carryOver(const Manifest& manifest, const std::set<std::string>& released) {
  std::map<std::string, const Node*> folders;  // of the new tree, with what they were like in the old one
  std::set<std::string> theirs;                // folders that are the author's alone
  std::set<std::string> closed;                // folders of another user from which we may take nothing
  const auto needFolder = [&](std::string folder) {
    for (; !folder.empty(); folder = folderOf(folder))
      if (!folders.emplace(folder, nullptr).second) break;
  };
  for (const auto& [path, file] : manifest.files) needFolder(folderOf(path));

  Walk seen;
  if (standing.exists) seen = walk(place.path);
  if (seen.error != 0) {
    fail(diskProblem("cannot carry over " + shown(seen.failedAt), seen.error, place.option));
    return false;
  }
  std::size_t found = 0;
  std::size_t wanted = 0;
  for (const auto& [path, entry] : entries) wanted += entry.fresh ? 0 : 1;
  for (const Node& node : seen.nodes) {
    if (standing.manifest && node.path == kManifestName) continue;
    const auto entry = entries.find(node.path);
    const bool named = standing.manifest && standing.manifest->names(node.path) && node.file() &&
                       released.find(node.path) == released.end();
    const bool kept = named && entry != entries.end() && !entry->second.fresh;
    if (named && !kept) continue;                                   // made anew, or no longer made
    if (kept && entry->second.inode != node.info.st_ino) continue;  // counted below
    if (!named) {
      const bool inTheWay = node.folder()
                                ? manifest.names(node.path)
                                : manifest.names(node.path) || hasFilesUnder(manifest.files, node.path) ||
                                      node.path == kManifestName;
      if (inTheWay) {
        fail({shown(node.path) + " is not ours, but stands where a file or folder of ours must go",
              "move it away and run the command again"});
        return false;
      }
    }
    // What could not be taken out of the old tree afterwards is better left where it is.
    if (const std::string around = folderOf(node.path); closed.count(around) > 0) {
      fail(diskProblem("cannot carry over " + shown(around), EACCES, place.option));
      return false;
    }
    if (node.folder()) {
      if (!mayBeEmptied(node, oldPath(node.path))) closed.insert(node.path);
      if (standing.manifest && hasFilesUnder(standing.manifest->files, node.path)) continue;  // made at need
      theirs.insert(node.path);
      needFolder(node.path);
      if (const int error = disk->makeFolders(newPath(node.path))) {
        fail(diskProblem("cannot carry over " + shown(node.path), error, place.option));
        return false;
      }
      continue;
    }
    found += kept ? 1 : 0;
    needFolder(folderOf(node.path));
    const std::string to = newPath(node.path);
    int error = disk->makeFolders(to.substr(0, to.rfind('/')));
    if (error == 0) error = carry(*disk, oldPath(node.path), to, node);
    if (error != 0) {
      fail(diskProblem("cannot carry over " + shown(node.path), error, place.option));
      return false;
    }
  }
  if (found != wanted) {
    fail({place.shown + " was changed while saggar was writing beside it; it is left as it is",
          "run the command again"});
    return false;
  }
  for (const Node& node : seen.nodes)
    if (const auto it = folders.find(node.path); it != folders.end() && node.folder()) it->second = &node;
  // Deepest first, so that a folder's time is set after the last change in it.
  std::vector<std::string> made;
  for (auto it = folders.rbegin(); it != folders.rend(); ++it) {
    made.push_back(it->first);
    if (it->second == nullptr) continue;
    if (const int error = dressFolder(newPath(it->first), it->second->info, theirs.count(it->first) > 0)) {
      fail(diskProblem("cannot write " + shown(it->first), error, place.option));
      return false;
    }
  }
  return syncAll(made);
}

bool Publication::State::writeManifest(const std::string& text) {
  const std::string path = newPath(kManifestName);
  NewFile file(*disk);
  int error = file.create(path);
  if (error == 0) error = file.write(text);
  if (error == 0) error = file.close();
  if (error == 0) error = disk->sync(path);
  if (error == 0 && standing.exists) error = dressFolder(workplace->newTree(), standing.info, false);
  if (error == 0) error = disk->sync(workplace->newTree());
  if (error != 0) fail(diskProblem("cannot write " + shown(kManifestName), error, place.option));
  return error == 0;
}

bool Publication::State::exchange() {
  struct stat now;
  const bool exists = statusOf(place.path, now) == 0;
  std::optional<Problem> found;
  if (standing.exists &&
      (!exists || now.st_ino != standing.info.st_ino || now.st_dev != standing.info.st_dev))
    found =
        Problem{place.shown + " was moved or replaced while saggar was writing beside it; nothing is changed",
                "run the command again"};
  else
    found = workplace->exchange(standing.exists);
  if (found) fail(std::move(*found));
  return !failed();
}

Committed Publication::commit() {
  State& my = *state_;
  assert(!my.committed && "commit() is called once");
  my.committed = true;
  Committed result;
  Manifest manifest;
  std::set<std::string> released;
  const auto steps = [&] {
    if (my.failed()) return false;
    for (const auto& [path, entry] : my.entries) assert(entry.finished && "a file in pieces was left open");
    if (!my.takeOverOld(released)) return false;
    manifest.tree = my.settings.tree;
    std::set<std::string> parts(my.settings.parts.begin(), my.settings.parts.end());
    if (my.standing.manifest)
      parts.insert(my.standing.manifest->parts.begin(), my.standing.manifest->parts.end());
    manifest.parts.assign(parts.begin(), parts.end());
    bool fresh = false;
    for (const auto& [path, entry] : my.entries) {
      manifest.files.emplace(path, entry.file);
      fresh = fresh || entry.fresh;
    }
    const std::string text = manifestText(manifest);
    if (!fresh && text == my.standing.manifestText) return true;
    result.changed = true;
    return my.beginTree() && my.syncFresh() && my.carryOver(manifest, released) && my.writeManifest(text) &&
           my.exchange();
  };
  if (!steps()) {
    result.changed = false;
    result.problem = problem();
    result.notices = std::move(my.notices);
    return result;
  }
  if (result.changed) my.workplace->clearOld(my.notices);
  for (const auto& [path, entry] : my.entries)
    result.files.push_back({path, entry.file.sha256, entry.file.bytes, entry.made});
  result.notices = std::move(my.notices);
  return result;
}

}  // namespace saggar::publishing
