#include "publishing/walk.h"

#include <dirent.h>
#include <fcntl.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <climits>

#include "source/files.h"

namespace saggar::publishing {
namespace {

bool sameContent(const struct stat& a, const struct stat& b) {
  return (a.st_mode & S_IFMT) == (b.st_mode & S_IFMT) && a.st_size == b.st_size &&
         a.st_mtim.tv_sec == b.st_mtim.tv_sec && a.st_mtim.tv_nsec == b.st_mtim.tv_nsec;
}

bool later(const struct stat& a, const struct stat& b) {
  return a.st_mtim.tv_sec != b.st_mtim.tv_sec ? a.st_mtim.tv_sec > b.st_mtim.tv_sec
                                              : a.st_mtim.tv_nsec > b.st_mtim.tv_nsec;
}

int copyFile(Disk& disk, const std::string& from, const std::string& to, const Node& node) {
  const int in = open(from.c_str(), O_RDONLY | O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK);
  if (in < 0) return errno;
  NewFile out(disk);
  int error = out.create(to);
  std::vector<char> buffer(1 << 18);
  while (error == 0) {
    const ssize_t got = ::read(in, buffer.data(), buffer.size());
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) error = errno;
    if (got <= 0) break;
    error = out.write({buffer.data(), static_cast<std::size_t>(got)});
  }
  ::close(in);
  if (error != 0) return error;
  if (fchown(out.descriptor(), node.info.st_uid, node.info.st_gid) != 0)
    errno = 0;  // only root may give away
  const timespec times[2] = {node.info.st_atim, node.info.st_mtim};
  if (fchmod(out.descriptor(), node.info.st_mode & 07777) != 0) return errno;
  if (futimens(out.descriptor(), times) != 0) return errno;
  if (fsync(out.descriptor()) != 0) return errno;
  return out.close();
}

int copyLink(const std::string& from, const std::string& to, const Node& node) {
  char target[PATH_MAX + 1];
  const ssize_t length = readlink(from.c_str(), target, PATH_MAX);
  if (length < 0) return errno;
  target[length] = '\0';
  if (symlink(target, to.c_str()) != 0) return errno;
  const timespec times[2] = {node.info.st_atim, node.info.st_mtim};
  return utimensat(AT_FDCWD, to.c_str(), times, AT_SYMLINK_NOFOLLOW) == 0 ? 0 : errno;
}

// Read whole before anything is done with them: removing while reading may skip some.
int namesIn(const std::string& folder, std::vector<std::string>& names) {
  names.clear();
  DIR* handle = opendir(folder.c_str());
  if (handle == nullptr) return errno;
  errno = 0;
  while (const dirent* entry = readdir(handle)) {
    std::string name = entry->d_name;
    if (name != "." && name != "..") names.push_back(std::move(name));
    errno = 0;
  }
  const int error = errno;
  closedir(handle);
  return error;
}

// Carried modes may forbid taking things out of a folder that is on its way out. If it is not ours to change,
// the removal itself tells.
void chmodForEmptying(const std::string& folder) {
  if (chmod(folder.c_str(), 0700) != 0) errno = 0;
}

std::string freeName(const std::string& path) {
  struct stat info;
  std::string name = path + ".kept";
  for (int i = 2; statusOf(name, info) == 0; ++i) name = path + ".kept-" + std::to_string(i);
  return name;
}

std::string folderOf(const std::string& path) {
  return path.substr(0, path.rfind('/'));
}

// Moves what the manifest does not name out of an old tree.
int moveOver(Disk& disk, const std::string& old, const std::string& now, const Node& node, bool ours,
             const std::string& shown, std::vector<std::string>& notices) {
  const std::string from = old + '/' + node.path;
  std::string to = now + '/' + node.path;
  struct stat there;
  if (statusOf(to, there) == 0) {
    const bool same = there.st_ino == node.info.st_ino && there.st_dev == node.info.st_dev;
    if (same || (!ours && (sameContent(there, node.info) || later(there, node.info))))
      return disk.removeFile(from);
    if (ours || S_ISDIR(there.st_mode)) to = freeName(to);
  } else if (const int error = disk.makeFolders(folderOf(to))) {
    return error;
  }
  const int error = disk.rename(from, to);
  if (error == 0)
    notices.push_back(shown + '/' + shownPath(node.path) +
                      " was saved while saggar was writing; it is kept as " + shown +
                      shownPath(to.substr(now.size())));
  return error;
}

}  // namespace

Walk walk(const std::string& root) {
  Walk result;
  struct stat rootInfo;
  const auto fail = [&](int error, const std::string& at) {
    result.error = error;
    result.failedAt = at;
    return result;
  };
  if (const int error = statusOf(root, rootInfo)) return fail(error, {});
  std::vector<std::string> open = {std::string()};
  std::vector<std::string> names;
  while (!open.empty()) {
    const std::string folder = std::move(open.back());
    open.pop_back();
    if (const int error = namesIn(folder.empty() ? root : root + '/' + folder, names))
      return fail(error, folder);
    for (const std::string& name : names) {
      Node node{source::pathJoined(folder, name), {}};
      const int error = statusOf(root + '/' + node.path, node.info);
      if (error == ENOENT) continue;  // gone since
      if (error != 0) return fail(error, node.path);
      if (node.info.st_dev != rootInfo.st_dev) return fail(EXDEV, node.path);
      if (node.folder()) open.push_back(node.path);
      result.nodes.push_back(std::move(node));
    }
  }
  std::sort(result.nodes.begin(), result.nodes.end(),
            [](const Node& a, const Node& b) { return a.path < b.path; });
  return result;
}

int carry(Disk& disk, const std::string& from, const std::string& to, const Node& node) {
  const int error = disk.link(from, to);
  switch (error) {
    case EPERM:
    case EACCES:
    case EMLINK:
    case ENOSYS:
    case EOPNOTSUPP: break;
    default: return error;
  }
  if (node.file()) return copyFile(disk, from, to, node);
  if (S_ISLNK(node.info.st_mode)) return copyLink(from, to, node);
  return error;
}

int dressFolder(const std::string& path, const struct stat& like, bool times) {
  if (chown(path.c_str(), like.st_uid, like.st_gid) != 0) errno = 0;  // only root may give away
  if (chmod(path.c_str(), like.st_mode & 07777) != 0) return errno;
  const timespec stamps[2] = {like.st_atim, like.st_mtim};
  return !times || utimensat(AT_FDCWD, path.c_str(), stamps, AT_SYMLINK_NOFOLLOW) == 0 ? 0 : errno;
}

int removeTree(Disk& disk, const std::string& root) {
  struct stat info;
  const int missing = statusOf(root, info);
  if (missing != 0) return missing == ENOENT ? 0 : missing;
  if (!S_ISDIR(info.st_mode)) return disk.removeFile(root);
  int first = 0;
  const auto keep = [&](int error) {
    if (first == 0 && error != ENOENT) first = error;
  };
  std::vector<std::string> open = {root};
  std::vector<std::string> folders;
  std::vector<std::string> names;
  while (!open.empty()) {
    const std::string folder = std::move(open.back());
    open.pop_back();
    folders.push_back(folder);
    chmodForEmptying(folder);
    keep(namesIn(folder, names));
    for (const std::string& name : names) {
      const std::string path = folder + '/' + name;
      if (statusOf(path, info) == 0 && S_ISDIR(info.st_mode))
        open.push_back(path);
      else
        keep(disk.removeFile(path));
    }
  }
  for (auto it = folders.rbegin(); it != folders.rend(); ++it) keep(disk.removeFolder(*it));
  return first;
}

int retire(Disk& disk, const std::string& old, const std::string& now, const std::string& shown,
           std::vector<std::string>& notices) {
  const auto before = manifestIn(old);
  const auto after = manifestIn(now);
  const Walk seen = walk(old);
  int first = seen.error;
  const auto keep = [&](int error) {
    if (first == 0) first = error;
  };
  const auto ourFolder = [&](const std::string& path) {
    if (!before) return false;
    const auto it = before->files.lower_bound(path + '/');
    return it != before->files.end() && it->first.starts_with(path + '/');
  };
  // Backwards: what is in a folder before the folder. The manifest goes last, so that a run killed here is
  // understood.
  for (const Node& node : seen.nodes)
    if (node.folder()) chmodForEmptying(old + '/' + node.path);
  for (auto it = seen.nodes.rbegin(); it != seen.nodes.rend(); ++it) {
    const std::string path = old + '/' + it->path;
    if (before && it->path == kManifestName) continue;
    if (it->folder()) {
      struct stat there;
      if (!ourFolder(it->path) && statusOf(now + '/' + it->path, there) == ENOENT)
        keep(disk.makeFolders(now + '/' + it->path));
      if (first == 0) keep(disk.removeFolder(path));
    } else if (before && before->names(it->path) && it->file()) {
      keep(disk.removeFile(path));
    } else {
      keep(moveOver(disk, old, now, *it, after && after->names(it->path), shown, notices));
    }
  }
  if (first != 0) return first;
  if (before) keep(disk.removeFile(old + '/' + std::string(kManifestName)));
  if (first == 0) keep(disk.removeFolder(old));
  return first;
}

std::optional<Manifest> manifestIn(const std::string& folder) {
  const auto read = source::DiskFiles().read(folder + '/' + std::string(kManifestName));
  if (!read.ok()) return std::nullopt;
  return manifestFrom(read.bytes).manifest;
}

}  // namespace saggar::publishing
