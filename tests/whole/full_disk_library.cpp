// A disk that fills up, for a program that is started with this library before the C library (LD_PRELOAD). Of all that
// is written to files beneath the folder FULL_DISK the first FULL_DISK_ROOM bytes fit; what comes then gets "no space
// left on device", as the last write that fits only in part does on a real disk. Unlike a small disk that is mounted it
// needs no rights.
#include <dlfcn.h>
#include <limits.h>
#include <sys/types.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <mutex>
#include <string_view>

namespace {

using Write = ssize_t (*)(int, const void*, size_t);

std::mutex lock;
long long left = -1;  // -1: not read yet

bool liesOnTheDisk(int file) {
  const char* const folder = std::getenv("FULL_DISK");
  if (folder == nullptr) return false;
  char name[64];
  char path[PATH_MAX];
  std::snprintf(name, sizeof name, "/proc/self/fd/%d", file);
  const ssize_t length = readlink(name, path, sizeof path);
  if (length <= 0) return false;
  const std::string_view own(path, static_cast<std::size_t>(length));
  const std::string_view disk(folder);
  return own.size() > disk.size() && own.substr(0, disk.size()) == disk && own[disk.size()] == '/';
}

}  // namespace

extern "C" ssize_t write(int file, const void* bytes, size_t size) {
  static const Write real = reinterpret_cast<Write>(dlsym(RTLD_NEXT, "write"));
  if (!liesOnTheDisk(file)) return real(file, bytes, size);
  const std::lock_guard guard(lock);
  if (left < 0) {
    const char* const room = std::getenv("FULL_DISK_ROOM");
    left = room == nullptr ? 0 : std::atoll(room);
  }
  if (left == 0 && size > 0) {
    errno = ENOSPC;
    return -1;
  }
  const size_t fits = size < static_cast<size_t>(left) ? size : static_cast<size_t>(left);
  const ssize_t done = real(file, bytes, fits);
  if (done > 0) left -= done;
  return done;
}
