#pragma once
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

// The outside world's files behind one small interface, so that tests run on a world in memory. Paths use '/'.
// Every call is const and may be made from several threads at once.
namespace saggar::source {

enum class FileType { missing, file, folder, other };

struct FileStatus {
  FileType type =
      FileType::missing;  // of what a link leads to; a link that leads nowhere or in a ring is `missing`
  bool link = false;      // the name itself is a symbolic link
  std::uint64_t size = 0;
};

struct FolderEntry {
  std::string name;
  FileStatus status;
};

struct ReadResult {
  std::string bytes;
  std::string error;  // empty on success; else the reason in words ("permission denied")
  bool ok() const { return error.empty(); }
};

class Files {
 public:
  virtual ~Files() = default;
  virtual FileStatus status(const std::string& path) const = 0;
  virtual ReadResult read(const std::string& path) const = 0;
  // The first bytes alone, at most so many: to see what a large file is.
  virtual ReadResult readStart(const std::string& path, std::size_t most) const;
  // Sorted by name, whatever order the disk gives; nullopt if the folder cannot be read.
  virtual std::optional<std::vector<FolderEntry>> list(const std::string& path) const = 0;
  // The path with every link followed, or nullopt.
  virtual std::optional<std::string> realPath(const std::string& path) const = 0;
};

class DiskFiles final : public Files {
 public:
  FileStatus status(const std::string& path) const override;
  ReadResult read(const std::string& path) const override;
  ReadResult readStart(const std::string& path, std::size_t most) const override;
  std::optional<std::vector<FolderEntry>> list(const std::string& path) const override;
  std::optional<std::string> realPath(const std::string& path) const override;
};

// A world in memory: paths to contents; folders exist through the files in them.
class MemoryFiles final : public Files {
 public:
  void put(std::string path, std::string bytes);
  FileStatus status(const std::string& path) const override;
  ReadResult read(const std::string& path) const override;
  std::optional<std::vector<FolderEntry>> list(const std::string& path) const override;
  std::optional<std::string> realPath(const std::string& path) const override;

 private:
  std::map<std::string, std::string> files_;
};

// "a/b" + "c" = "a/b/c"; an empty folder gives the name alone.
std::string pathJoined(std::string_view folder, std::string_view name);

// Without "." and ".." steps where they can be resolved in the text alone; a path that climbs out keeps its "..".
std::string pathNormalized(std::string_view path);

// True if a path, taken from the folder it is relative to, stays inside it (no leading '/', no climbing out).
bool pathStaysInside(std::string_view relative);

}  // namespace saggar::source
