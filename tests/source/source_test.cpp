#include "source/source_set.h"

#include <doctest/doctest.h>

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
