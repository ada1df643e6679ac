#include "source/source_set.h"

#include <doctest/doctest.h>
#include <stdlib.h>
#include <unistd.h>

#include <fstream>

#include "source/files.h"

using namespace saggar::source;

TEST_CASE("places count code points, whatever the line ends") {
  SourceSet set;
  const FileId file = set.add("a.yaml", "caf\xC3\xA9: 1\r\nb: 2\rc: 3\n");
  const Place place = set.place({file, 7, 8});
  CHECK(place.line == 1);
  CHECK(place.column == 7);
  CHECK(set.place({file, 10, 11}).line == 2);
  CHECK(set.place({file, 15, 16}).line == 3);
  CHECK(set.line({file, 15, 16}) == "c: 3");
  CHECK(set.place({file, 900, 901}).line == 4);
}

TEST_CASE("a byte order mark takes no column") {
  SourceSet set;
  const FileId file = set.add("a.yaml", "\xEF\xBB\xBFkey: x");
  CHECK(set.place({file, 3, 6}).column == 1);
  CHECK(set.line({file, 3, 6}) == "key: x");
}

TEST_CASE("paths that climb out are told apart in the text alone") {
  CHECK(pathStaysInside("images/a.png"));
  CHECK(pathStaysInside("images/../prose/a.md"));
  CHECK_FALSE(pathStaysInside("../a"));
  CHECK_FALSE(pathStaysInside("images/../../etc/passwd"));
  CHECK_FALSE(pathStaysInside("/etc/passwd"));
  CHECK(pathNormalized("a/./b/../c") == "a/c");
}

TEST_CASE("the world in memory has folders") {
  MemoryFiles world;
  world.put("guide/a.yaml", "x");
  world.put("guide/sub/b.yaml", "y");
  CHECK(world.status("guide").type == FileType::folder);
  CHECK(world.status("guide/sub/b.yaml").size == 1);
  const auto entries = world.list("guide");
  REQUIRE(entries);
  REQUIRE(entries->size() == 2);
  CHECK((*entries)[1].status.type == FileType::folder);
  CHECK_FALSE(world.read("guide/none").ok());
}

TEST_CASE("a file is read whole, or its start alone, and takes no more room than it has bytes") {
  char path[] = "/tmp/saggar-source-XXXXXX";
  const int file = mkstemp(path);
  REQUIRE(file >= 0);
  close(file);
  const std::string bytes(100000, 'x');
  std::ofstream(path, std::ios::binary) << bytes;
  const DiskFiles disk;
  const ReadResult whole = disk.read(path);
  CHECK(whole.ok());
  CHECK(whole.bytes == bytes);
  CHECK(whole.bytes.capacity() < bytes.size() + 100);
  CHECK(disk.readStart(path, 10).bytes == "xxxxxxxxxx");
  CHECK(disk.readStart(path, bytes.size()).bytes == bytes);
  CHECK(disk.readStart(path, bytes.size() + 1).bytes == bytes);
  CHECK(disk.readStart(path, 0).bytes.empty());
  unlink(path);
  CHECK_FALSE(disk.read(path).ok());
  CHECK_FALSE(disk.readStart(path, 10).ok());
  CHECK(disk.readStart("/tmp", 10).error == "it is a folder");
  // What has a size of nothing and yet bytes.
  if (disk.status("/proc/self/status").type == FileType::file)
    CHECK(disk.read("/proc/self/status").bytes.size() > 100);
  MemoryFiles world;
  world.put("a", "abcdef");
  CHECK(world.readStart("a", 3).bytes == "abc");
  CHECK(world.readStart("a", 9).bytes == "abcdef");
}
