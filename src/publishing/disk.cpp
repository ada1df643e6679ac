#include "publishing/disk.h"

#include <fcntl.h>
#include <stdio.h>
#include <unistd.h>

#include <cerrno>
#include <utility>

namespace saggar::publishing {
namespace {
int outcome(int result) {
  return result == 0 ? 0 : errno;
}
}  // namespace

int Disk::makeFolder(const std::string& path) {
  if (const int error = before(Step::makeFolder, path)) return error;
  return outcome(mkdir(path.c_str(), 0777));
}

int Disk::makeFolders(const std::string& path) {
  struct stat info;
  // From the far end backwards to the first that is there, then forwards: no step is tried for nothing.
  std::size_t end = path.size();
  while (true) {
    const int error = statusOf(path.substr(0, end), info);
    if (error == 0 && !S_ISDIR(info.st_mode)) return ENOTDIR;
    if (error == 0) break;
    if (error != ENOENT) return error;
    const std::size_t slash = path.rfind('/', end - 1);
    if (slash == std::string::npos || slash == 0) {
      end = 0;
      break;
    }
    end = slash;
  }
  while (end < path.size()) {
    const std::size_t slash = path.find('/', end + 1);
    end = slash == std::string::npos ? path.size() : slash;
    const int error = makeFolder(path.substr(0, end));
    if (error != 0 && error != EEXIST) return error;  // another thread may have been first
  }
  return 0;
}

int Disk::sync(const std::string& path) {
  if (const int error = before(Step::sync, path)) return error;
  const int file = open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK);
  if (file < 0)
    return errno == EACCES ? 0 : errno;  // a carried folder whose mode forbids it: it goes when it goes
  int error = outcome(fsync(file));
  if (error == EINVAL || error == EROFS) error = 0;  // a kind of disk that has nothing to sync
  ::close(file);
  return error;
}

int Disk::link(const std::string& from, const std::string& to) {
  if (const int error = before(Step::link, to)) return error;
  return outcome(linkat(AT_FDCWD, from.c_str(), AT_FDCWD, to.c_str(), 0));
}

int Disk::rename(const std::string& from, const std::string& to) {
  if (const int error = before(Step::rename, to)) return error;
  return outcome(::rename(from.c_str(), to.c_str()));
}

int Disk::exchange(const std::string& a, const std::string& b) {
  if (const int error = before(Step::exchange, b)) return error;
  return outcome(renameat2(AT_FDCWD, a.c_str(), AT_FDCWD, b.c_str(), RENAME_EXCHANGE));
}

int Disk::removeFile(const std::string& path) {
  if (const int error = before(Step::remove, path)) return error;
  return outcome(unlink(path.c_str()));
}

int Disk::removeFolder(const std::string& path) {
  if (const int error = before(Step::remove, path)) return error;
  return outcome(rmdir(path.c_str()));
}

NewFile::~NewFile() {
  if (file_ >= 0) ::close(file_);
}

int NewFile::create(const std::string& path) {
  path_ = path;
  if (const int error = disk_.before(Step::create, path)) return error;
  file_ = open(path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC | O_NOFOLLOW, 0666);
  return file_ < 0 ? errno : 0;
}

int NewFile::write(std::string_view bytes) {
  while (!bytes.empty()) {
    if (const int error = disk_.before(Step::write, path_)) return error;
    const ssize_t done = ::write(file_, bytes.data(), bytes.size());
    if (done < 0 && errno == EINTR) continue;
    if (done < 0) return errno;
    if (done == 0) return ENOSPC;
    bytes.remove_prefix(static_cast<std::size_t>(done));
  }
  return 0;
}

int NewFile::close() {
  const int error = disk_.before(Step::close, path_);
  sync_file_range(file_, 0, 0, SYNC_FILE_RANGE_WRITE);
  const int file = std::exchange(file_, -1);
  const int closed = outcome(::close(file));
  return error ? error : closed == EINTR ? 0 : closed;
}

int statusOf(const std::string& path, struct stat& info) {
  return outcome(lstat(path.c_str(), &info));
}

}  // namespace saggar::publishing
