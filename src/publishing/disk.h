#pragma once
#include <sys/stat.h>

#include <string>
#include <string_view>

// Every call by which this room changes the disk, in one place: so that a test can make any of them fail, or
// die there. Each returns 0 or an errno, and never throws.
namespace saggar::publishing {

enum class Step { makeFolder, create, write, close, sync, link, rename, exchange, remove };

class Disk {
 public:
  virtual ~Disk() = default;

  // Asked before each step; what is not 0 is returned as that step's errno in place of doing it. For tests.
  // Called from whatever thread makes the step.
  virtual int before(Step, const std::string& /*path*/) { return 0; }

  int makeFolder(const std::string& path);  // 0777 less the umask
  int makeFolders(
      const std::string& path);       // with those above it; what is there already is well if it is a folder
  int sync(const std::string& path);  // a file's or a folder's bytes onto the disk
  int link(const std::string& from, const std::string& to);  // a second name; a symbolic link is not followed
  int rename(const std::string& from, const std::string& to);
  int exchange(const std::string& a, const std::string& b);  // RENAME_EXCHANGE: both names at once
  int removeFile(const std::string& path);
  int removeFolder(const std::string& path);
};

// A new file, written in pieces. Never an existing one: EEXIST.
class NewFile {
 public:
  explicit NewFile(Disk& disk) : disk_(disk) {}
  NewFile(const NewFile&) = delete;
  NewFile& operator=(const NewFile&) = delete;
  ~NewFile();  // closes, keeps the file

  int create(const std::string& path);
  int write(std::string_view bytes);
  // Starts the bytes on their way to the disk without waiting for them: Disk::sync waits later, for all at
  // once.
  int close();
  int descriptor() const { return file_; }

 private:
  Disk& disk_;
  std::string path_;
  int file_ = -1;
};

// lstat: 0 or an errno.
int statusOf(const std::string& path, struct stat& info);

}  // namespace saggar::publishing
