#include "publishing/workplace.h"

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <cerrno>
#include <charconv>

#include "publishing/walk.h"
#include "source/files.h"

namespace saggar::publishing {
namespace {

bool isThere(const std::string& path, std::uint64_t* inode = nullptr) {
  struct stat info;
  if (statusOf(path, info) != 0) return false;
  if (inode != nullptr) *inode = info.st_ino;
  return true;
}

// flock, through interruptions.
int flocked(int file, int how) {
  while (flock(file, how) != 0)
    if (errno != EINTR) return errno;
  return 0;
}

std::string holderInWords(int file) {
  char text[24] = {};
  const ssize_t length = pread(file, text, sizeof text - 1, 0);
  std::string pid;
  for (ssize_t i = 0; i < length && text[i] >= '0' && text[i] <= '9'; ++i) pid += text[i];
  return pid.empty() ? "another run of saggar" : "another run of saggar (process " + pid + ")";
}

}  // namespace

Workplace::~Workplace() {
  if (lock_ >= 0) {
    if (building_) removeTree(disk_, newTree());
    if (!isThere(newTree()) && !isThere(oldTree())) disk_.removeFile(note());
    disk_.removeFile(lockFile());
    disk_.removeFolder(
        place_.work);  // stays if something in it could not be cleared; the next run tries again
    close(lock_);
  }
  for (auto it = madeParents_.rbegin(); it != madeParents_.rend(); ++it)
    if (disk_.removeFolder(*it) != 0) break;
}

std::optional<Problem> Workplace::lock(const std::function<void(const std::string&)>& onWait) {
  std::string missing = place_.parent;
  while (missing.size() > 1 && !isThere(missing)) {
    madeParents_.insert(madeParents_.begin(), missing);
    missing = missing.substr(0, missing.rfind('/'));
  }
  const auto failed = [&](int error) {
    return diskProblem("cannot work in " + shownPath(place_.parent) + ", beside " + place_.shown, error,
                       place_.option);
  };
  bool told = false;
  // A run that ends takes the lock's file away; whoever waited on it then holds a file without a name, and
  // begins again.
  for (int attempt = 0; attempt < 10000; ++attempt) {
    if (const int error = disk_.makeFolders(place_.work))
      return error == ENOTDIR && isThere(place_.work)
                 ? Problem{shownPath(place_.work) + " is in the way: saggar works in a folder of that name",
                           "move it away, or choose another folder with " + place_.option}
                 : failed(error);
    const int file = open(lockFile().c_str(), O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW, 0666);
    if (file < 0 && errno == ENOENT) continue;
    if (file < 0) return failed(errno);
    int error = flocked(file, LOCK_EX | LOCK_NB);
    if (error == EWOULDBLOCK) {
      if (onWait && !told)
        onWait(holderInWords(file) + " is writing " + place_.shown + "; waiting until it is done");
      told = true;
      error = flocked(file, LOCK_EX);
    }
    struct stat held;
    std::uint64_t named = 0;
    if (error == 0 && fstat(file, &held) == 0 && isThere(lockFile(), &named) && named == held.st_ino) {
      lock_ = file;
      const std::string pid = std::to_string(getpid()) + '\n';
      if (ftruncate(file, 0) != 0 || pwrite(file, pid.data(), pid.size(), 0) < 0)
        errno = 0;  // a courtesy only
      return std::nullopt;
    }
    close(file);
    if (error != 0) return failed(error);
  }
  return failed(EBUSY);
}

std::uint64_t Workplace::notedInode() const {
  const auto read = source::DiskFiles().read(note());
  std::uint64_t inode = 0;
  std::from_chars(read.bytes.data(), read.bytes.data() + read.bytes.size(), inode);
  return read.bytes.ends_with('\n') ? inode : 0;
}

int Workplace::clear(const std::string& tree, std::vector<std::string>& notices) {
  std::uint64_t inode = 0;
  std::uint64_t standing = 0;
  if (!isThere(tree, &inode)) return 0;
  const std::uint64_t noted = notedInode();
  if (inode == noted) return removeTree(disk_, tree);  // was never put in place
  const bool whole = manifestIn(tree).has_value();
  if (!isThere(place_.path, &standing)) {
    if (!whole) return removeTree(disk_, tree);
    notices.push_back(place_.shown +
                      " was missing; the tree that an interrupted run had set aside is put back");
    return disk_.rename(tree, place_.path);
  }
  if (!whole && standing != noted)
    return removeTree(disk_, tree);  // an unfinished tree: it holds nothing alone
  return retire(disk_, tree, place_.path, place_.shown, notices);
}

std::optional<Problem> Workplace::settle(std::vector<std::string>& notices) {
  std::uint64_t inode = 0;
  int error = 0;
  // Between the two renames of a disk that cannot exchange: the second one is still to be done.
  if (isThere(oldTree()) && !isThere(place_.path) && isThere(newTree(), &inode) && inode == notedInode() &&
      manifestIn(newTree())) {
    error = disk_.rename(newTree(), place_.path);
    if (error == 0)
      notices.push_back("an interrupted run had finished its work; " + place_.shown + " is now its result");
  }
  if (error == 0) error = clear(newTree(), notices);
  if (error == 0) error = clear(oldTree(), notices);
  if (error == 0) error = disk_.removeFile(note());
  if (error == 0 || error == ENOENT) return std::nullopt;
  return diskProblem("cannot clear what an interrupted run left in " + shownPath(place_.work), error,
                     place_.option);
}

std::optional<Problem> Workplace::beginNew() {
  int error = disk_.makeFolder(newTree());
  building_ = error == 0;
  std::uint64_t inode = 0;
  if (error == 0 && !isThere(newTree(), &inode)) error = ENOENT;
  NewFile file(disk_);
  if (error == 0) error = file.create(note());
  if (error == 0) error = file.write(std::to_string(inode) + '\n');
  if (error == 0) error = file.close();
  if (error == 0) return std::nullopt;
  return diskProblem("cannot begin a new tree beside " + place_.shown, error, place_.option);
}

std::optional<Problem> Workplace::exchange(bool exists) {
  int error = exists ? disk_.exchange(newTree(), place_.path) : disk_.rename(newTree(), place_.path);
  if (exists && (error == EINVAL || error == ENOSYS || error == EOPNOTSUPP)) {
    error = disk_.rename(place_.path, oldTree());
    if (error == 0) {
      error = disk_.rename(newTree(), place_.path);
      if (error != 0 && disk_.rename(oldTree(), place_.path) != 0) building_ = false;  // the next run ends it
    }
  }
  if (error == ENOTEMPTY || error == EEXIST || (error == ENOTDIR && !exists))
    return Problem{
        "something was put at " + place_.shown + " while saggar was writing beside it; it is left alone",
        "move it away and run the command again, or choose another folder with " + place_.option};
  if (error != 0)
    return diskProblem("cannot put the new tree in the place of " + place_.shown, error, place_.option);
  building_ = false;
  return std::nullopt;
}

void Workplace::clearOld(std::vector<std::string>& notices) {
  int error = disk_.sync(place_.parent);
  for (const std::string& tree : {newTree(), oldTree()})
    if (const int failed = clear(tree, notices); error == 0) error = failed;
  if (error != 0)
    notices.push_back(place_.shown + " is made, but what is left in " + shownPath(place_.work) +
                      " could not be cleared: " + reasonInWords(error));
}

}  // namespace saggar::publishing
