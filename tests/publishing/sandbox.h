#pragma once
#include <dirent.h>
#include <doctest/doctest.h>
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <map>
#include <sstream>
#include <string>
#include <vector>

#include "publishing/tree.h"

// A folder of its own for a test, and a few ways of looking at what is in it. All names and bytes here are
// invented.
namespace saggar::publishing {

class Sandbox {
 public:
  explicit Sandbox(const std::string& within = {}) {
    const char* base = std::getenv("TMPDIR");
    std::string pattern = (!within.empty()   ? within
                           : base != nullptr ? base
                                             : "/tmp") +
                          std::string("/saggar-test-XXXXXX");
    root_ = mkdtemp(pattern.data()) == nullptr ? std::string() : pattern;
    REQUIRE(!root_.empty());
    chmod(root_.c_str(), 0777);
    std::filesystem::create_directory(root_ + "/guide");
  }
  ~Sandbox() {
    std::error_code ignored;
    for (auto it = std::filesystem::recursive_directory_iterator(root_, ignored);
         !ignored && it != std::filesystem::recursive_directory_iterator(); it.increment(ignored))
      if (it->is_directory(ignored) && !it->is_symlink(ignored)) chmod(it->path().c_str(), 0700);
    std::filesystem::remove_all(root_, ignored);
  }
  Sandbox(const Sandbox&) = delete;
  Sandbox& operator=(const Sandbox&) = delete;

  std::string path(const std::string& name) const { return root_ + '/' + name; }
  const std::string& root() const { return root_; }

  // A folder in memory where there is one: for tests that make hundreds of trees.
  static std::string quick() { return access("/dev/shm", W_OK) == 0 ? "/dev/shm" : ""; }

  void write(const std::string& name, const std::string& bytes) const {
    std::filesystem::create_directories(std::filesystem::path(path(name)).parent_path());
    std::ofstream(path(name), std::ios::binary) << bytes;
  }
  std::string read(const std::string& name) const {
    std::ifstream in(path(name), std::ios::binary);
    std::ostringstream out;
    out << in.rdbuf();
    return out.str();
  }
  bool there(const std::string& name) const {
    struct stat info;
    return lstat(path(name).c_str(), &info) == 0;
  }
  std::vector<std::string> names(const std::string& folder = {}) const {
    std::vector<std::string> out;
    for (const auto& entry : std::filesystem::directory_iterator(path(folder)))
      out.push_back(entry.path().filename().string());
    std::sort(out.begin(), out.end());
    return out;
  }

  // Path to type, mode, time, inode and bytes: equal before and after means that nothing was touched.
  std::map<std::string, std::string> picture(const std::string& folder) const {
    std::map<std::string, std::string> out;
    const auto look = [&](const std::string& at) {
      struct stat info;
      if (lstat(at.c_str(), &info) != 0) return;
      std::ostringstream text;
      text << std::oct << info.st_mode << std::dec << ' ' << info.st_ino << ' ' << info.st_mtim.tv_sec << '.'
           << info.st_mtim.tv_nsec << ' ';
      if (S_ISREG(info.st_mode)) text << read(at.substr(root_.size() + 1));
      if (S_ISLNK(info.st_mode)) text << std::filesystem::read_symlink(at).string();
      out[at.substr(root_.size())] = text.str();
    };
    look(path(folder));
    if (std::filesystem::is_directory(std::filesystem::symlink_status(path(folder))))
      for (const auto& entry : std::filesystem::recursive_directory_iterator(path(folder)))
        look(entry.path().string());
    return out;
  }

  TreeSettings settings(const std::string& folder = "out", std::vector<std::string> parts = {"guide"}) const {
    TreeSettings result;
    result.folder = folder;
    result.from = root_;
    result.guide = path("guide");
    result.parts = std::move(parts);
    return result;
  }

 private:
  std::string root_;
};

using Contents = std::map<std::string, std::string>;  // path to bytes

// Opens, adds and commits; every file is made from the record "shape:" and its own path.
inline Committed publish(const TreeSettings& settings, const Contents& files) {
  Committed result;
  auto opened = Publication::open(settings);
  if (opened.problem) {
    result.problem = opened.problem;
    return result;
  }
  for (const auto& [path, bytes] : files)
    opened.publication->add(settings.parts.front(), path, bytes, {"shape:" + path});
  return opened.publication->commit();
}

}  // namespace saggar::publishing
