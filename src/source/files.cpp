#include "source/files.h"

#include <dirent.h>
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <climits>
#include <cstdlib>
#include <cstring>
#include <memory>

#include "base/text.h"

namespace saggar::source {
namespace {

std::string reason(int error) {
  switch (error) {
    case ENOENT: return "no such file";
    case EACCES: return "permission denied";
    case EISDIR: return "it is a folder";
    case ELOOP: return "its links run in a ring";
    case EMFILE: return "too many files are open";
    default: {
      std::string text = std::strerror(error);
      if (!text.empty() && base::isUpper(text[0])) text[0] = static_cast<char>(text[0] - 'A' + 'a');
      return text;
    }
  }
}

FileType typeOf(const struct stat& info) {
  if (S_ISREG(info.st_mode)) return FileType::file;
  if (S_ISDIR(info.st_mode)) return FileType::folder;
  return FileType::other;
}

}  // namespace

FileStatus DiskFiles::status(const std::string& path) const {
  FileStatus result;
  struct stat info;
  if (lstat(path.c_str(), &info) != 0) return result;
  result.link = S_ISLNK(info.st_mode);
  if (result.link && stat(path.c_str(), &info) != 0) return result;
  result.type = typeOf(info);
  result.size = static_cast<std::uint64_t>(info.st_size);
  return result;
}

ReadResult Files::readStart(const std::string& path, std::size_t most) const {
  ReadResult result = read(path);
  if (result.bytes.size() > most) result.bytes.resize(most);
  return result;
}

namespace {

ReadResult readFile(const std::string& path, std::size_t most) {
  ReadResult result;
  const int file = open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK);
  if (file < 0) {
    result.error = reason(errno);
    return result;
  }
  struct stat info;
  if (fstat(file, &info) != 0 || !S_ISREG(info.st_mode)) {
    result.error = S_ISDIR(info.st_mode) ? "it is a folder" : "it is no ordinary file";
    close(file);
    return result;
  }
  // One byte more than there should be, to see the end: a string that had to grow for it would take twice the room.
  const auto size = static_cast<std::size_t>(info.st_size);
  result.bytes.resize(size < most ? size + 1 : most);
  std::size_t filled = 0;
  while (filled < most) {
    if (filled == result.bytes.size()) result.bytes.resize(filled + 1);
    const ssize_t got = ::read(file, result.bytes.data() + filled, result.bytes.size() - filled);
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) {
      result.error = reason(errno);
      filled = 0;
    }
    if (got <= 0) break;
    filled += static_cast<std::size_t>(got);
  }
  result.bytes.resize(filled);
  close(file);
  return result;
}

}  // namespace

ReadResult DiskFiles::read(const std::string& path) const {
  return readFile(path, std::string().max_size());
}

ReadResult DiskFiles::readStart(const std::string& path, std::size_t most) const {
  return readFile(path, most);
}

std::optional<std::vector<FolderEntry>> DiskFiles::list(const std::string& path) const {
  std::unique_ptr<DIR, int (*)(DIR*)> folder(opendir(path.c_str()), closedir);
  if (!folder) return std::nullopt;
  std::vector<FolderEntry> entries;
  while (const dirent* entry = readdir(folder.get())) {
    const std::string name = entry->d_name;
    if (name == "." || name == "..") continue;
    entries.push_back({name, status(pathJoined(path, name))});
  }
  std::sort(entries.begin(), entries.end(),
            [](const FolderEntry& a, const FolderEntry& b) { return a.name < b.name; });
  return entries;
}

std::optional<std::string> DiskFiles::realPath(const std::string& path) const {
  std::unique_ptr<char, void (*)(void*)> real(realpath(path.c_str(), nullptr), std::free);
  if (!real) return std::nullopt;
  return std::string(real.get());
}

void MemoryFiles::put(std::string path, std::string bytes) {
  files_[pathNormalized(path)] = std::move(bytes);
}

FileStatus MemoryFiles::status(const std::string& path) const {
  const std::string wanted = pathNormalized(path);
  if (auto it = files_.find(wanted); it != files_.end()) return {FileType::file, false, it->second.size()};
  const std::string prefix = wanted.empty() || wanted == "." ? std::string() : wanted + '/';
  const auto it = files_.lower_bound(prefix);
  if (it != files_.end() && it->first.compare(0, prefix.size(), prefix) == 0)
    return {FileType::folder, false, 0};
  return {};
}

ReadResult MemoryFiles::read(const std::string& path) const {
  const auto it = files_.find(pathNormalized(path));
  if (it == files_.end()) return {{}, reason(ENOENT)};
  return {it->second, {}};
}

std::optional<std::vector<FolderEntry>> MemoryFiles::list(const std::string& path) const {
  if (status(path).type != FileType::folder) return std::nullopt;
  const std::string wanted = pathNormalized(path);
  const std::string prefix = wanted.empty() || wanted == "." ? std::string() : wanted + '/';
  std::vector<FolderEntry> entries;
  for (auto it = files_.lower_bound(prefix); it != files_.end() && it->first.starts_with(prefix); ++it) {
    const std::string rest = it->first.substr(prefix.size());
    const std::string name = rest.substr(0, rest.find('/'));
    if (entries.empty() || entries.back().name != name)
      entries.push_back({name, status(pathJoined(prefix.empty() ? "" : wanted, name))});
  }
  return entries;
}

std::optional<std::string> MemoryFiles::realPath(const std::string& path) const {
  if (status(path).type == FileType::missing) return std::nullopt;
  return pathNormalized(path);
}

std::string pathJoined(std::string_view folder, std::string_view name) {
  if (folder.empty()) return std::string(name);
  std::string out(folder);
  if (out.back() != '/') out += '/';
  return out.append(name);
}

std::string pathNormalized(std::string_view path) {
  const bool absolute = !path.empty() && path.front() == '/';
  std::vector<std::string> steps;
  for (std::string_view step : base::split(path, '/')) {
    if (step.empty() || step == ".") continue;
    if (step == ".." && !steps.empty() && steps.back() != "..") {
      steps.pop_back();
    } else if (step != ".." || !absolute) {
      steps.emplace_back(step);
    }
  }
  return (absolute ? "/" : "") + base::joined(steps, "/");
}

bool pathStaysInside(std::string_view relative) {
  if (!relative.empty() && relative.front() == '/') return false;
  const std::string normal = pathNormalized(relative);
  return normal != ".." && !normal.starts_with("../");
}

}  // namespace saggar::source
