#include <doctest/doctest.h>

#include "publishing/hash.h"
#include "publishing/manifest.h"
#include "sandbox.h"

using namespace saggar::publishing;

namespace {

bool says(const std::vector<std::string>& notices, const std::string& sentence) {
  return std::find(notices.begin(), notices.end(), sentence) != notices.end();
}

std::uint64_t inodeOf(const std::string& path) {
  struct stat info;
  return lstat(path.c_str(), &info) == 0 ? info.st_ino : 0;
}

}  // namespace

TEST_CASE("a new tree, and what is told about it") {
  const Sandbox box;
  const Committed done =
      publish(box.settings("build/pages/out"), {{"guide/b.md", "bee"}, {"guide/a/a.md", ""}});
  REQUIRE(!done.problem);
  CHECK(done.changed);
  REQUIRE(done.files.size() == 2);
  CHECK(done.files[0].path == "guide/a/a.md");
  CHECK(done.files[0].bytes == 0);
  CHECK(done.files[1].sha256 == sha256Of("bee"));
  CHECK(done.files[1].bytes == 3);
  CHECK(done.files[1].made);
  CHECK(done.notices.empty());
  CHECK(box.read("build/pages/out/guide/b.md") == "bee");
  CHECK(box.names("build/pages") == std::vector<std::string>{"out"});
  CHECK(box.names("build/pages/out") == std::vector<std::string>{"guide", "manifest.json"});
  CHECK(verify(box.path("build/pages/out")).files == 2);
}

TEST_CASE("same input, same bytes; and then nothing is touched") {
  const Sandbox box;
  const Contents files = {{"guide/a.md", "a"}, {"guide/b.md", "b"}};
  REQUIRE(!publish(box.settings("one"), files).problem);
  {
    auto opened =
        Publication::open(box.settings("two"));  // added in another order, records in another order, twice
    REQUIRE(opened.publication);
    CHECK(opened.publication->add("guide", "guide/b.md", "b", {"shape:guide/b.md", "shape:guide/b.md"}));
    CHECK(opened.publication->add("guide", "guide/a.md", "a", {"shape:guide/a.md"}));
    CHECK(!opened.publication->commit().problem);
  }
  CHECK(box.read("one/manifest.json") == box.read("two/manifest.json"));
  const auto before = box.picture("one");
  const Committed again = publish(box.settings("one"), files);
  CHECK(!again.problem);
  CHECK(!again.changed);
  CHECK(again.files.size() == 2);
  CHECK(box.picture("one") == before);
}

TEST_CASE("a file that comes out as it was keeps its place on the disk; a changed one gets a new one") {
  const Sandbox box;
  REQUIRE(!publish(box.settings(), {{"guide/a.md", "a"}, {"guide/b.md", "b"}}).problem);
  const auto a = inodeOf(box.path("out/guide/a.md"));
  std::filesystem::create_hard_link(box.path("out/guide/b.md"), box.path("copy-of-b"));
  CHECK(publish(box.settings(), {{"guide/a.md", "a"}, {"guide/b.md", "B"}}).changed);
  CHECK(inodeOf(box.path("out/guide/a.md")) == a);
  CHECK(box.read("out/guide/b.md") == "B");
  CHECK(box.read("copy-of-b") == "b");  // nothing that exists is ever written into
}

TEST_CASE("an unchanged file whose bytes were damaged on the disk is written again") {
  const Sandbox box;
  REQUIRE(!publish(box.settings(), {{"guide/a.md", "abc"}}).problem);
  box.write("out/guide/a.md", "aXc");
  const Committed done = publish(box.settings(), {{"guide/a.md", "abc"}});
  CHECK(done.changed);
  CHECK(says(done.notices, "out/guide/a.md had been changed by hand; it is made anew"));
  CHECK(box.read("out/guide/a.md") == "abc");
}

TEST_CASE("what the manifest does not name is carried over untouched") {
  const Sandbox box;
  REQUIRE(!publish(box.settings(), {{"guide/a.md", "1"}}).problem);
  box.write("out/mine.txt", "my notes");
  box.write("out/guide/also mine.txt", "more");
  box.write("out/photos/deep/er/p.jpg", std::string(3000, '\1'));
  std::filesystem::create_directories(box.path("out/empty/inside"));
  std::filesystem::create_symlink("../elsewhere", box.path("out/dangling"));
  std::filesystem::create_symlink("photos", box.path("out/pictures"));
  REQUIRE(mkfifo(box.path("out/pipe").c_str(), 0640) == 0);
  chmod(box.path("out/mine.txt").c_str(), 0604);
  chmod(box.path("out/photos").c_str(), 0750);
  chmod(box.path("out/photos/deep").c_str(), 0555);
  chmod(box.path("out").c_str(), 02771);
  const timespec old[2] = {{1000000000, 5}, {1000000001, 7}};
  for (const char* name :
       {"out/mine.txt", "out/photos/deep/er/p.jpg", "out/photos/deep", "out/empty", "out/dangling"})
    REQUIRE(utimensat(AT_FDCWD, box.path(name).c_str(), old, AT_SYMLINK_NOFOLLOW) == 0);
  auto before = box.picture("out");

  const Committed done = publish(box.settings(), {{"guide/a.md", "2"}});
  REQUIRE(!done.problem);
  CHECK(done.changed);
  CHECK(done.files.size() == 1);
  CHECK(box.read("out/guide/a.md") == "2");
  auto after = box.picture("out");
  CHECK(after.size() == before.size());
  // Folders are new ones with the old mode and time; everything else is the very same file.
  for (const auto& item : before) {
    const std::string& path = item.first;
    const std::string& was = item.second;
    if (path == "/out" || path == "/out/guide" || path == "/out/guide/a.md" || path == "/out/manifest.json")
      continue;
    const bool folder = std::filesystem::is_directory(std::filesystem::symlink_status(box.root() + path));
    const auto words = [&](const std::string& text) {
      std::istringstream in(text);
      std::string mode, inode, time;
      in >> mode >> inode >> time;
      return mode + ' ' + time;
    };
    if (folder)
      CHECK_MESSAGE(words(after[path]) == words(was), path);
    else
      CHECK_MESSAGE(after[path] == was, path);
  }
  struct stat info;
  REQUIRE(stat(box.path("out").c_str(), &info) == 0);
  CHECK((info.st_mode & 07777) == 02771);
  REQUIRE(lstat(box.path("out/mine.txt").c_str(), &info) == 0);
  CHECK(info.st_nlink == 1);
  CHECK(box.names() == std::vector<std::string>{"guide", "out"});
}

TEST_CASE("making a part replaces it and carries the rest over") {
  const Sandbox box;
  TreeSettings all = box.settings("out", {"guide", "talks", "corrections"});
  {
    auto opened = Publication::open(all);
    REQUIRE(opened.publication);
    opened.publication->add("guide", "guide/a.md", "a", {"shape:a"});
    opened.publication->add("guide", "guide/gone/b.md", "b", {"shape:b"});
    opened.publication->add("talks", "talks/t/outline.md", "t", {"talk:t"});
    opened.publication->add("corrections", "corrections.md", "c", {});
    REQUIRE(!opened.publication->commit().problem);
  }
  const auto talk = inodeOf(box.path("out/talks/t/outline.md"));
  const Committed done = publish(box.settings("out", {"guide"}), {{"guide/a.md", "new"}});
  REQUIRE(!done.problem);
  CHECK(done.files.size() == 3);
  CHECK(!done.files[0].made);
  CHECK(done.files[1].path == "guide/a.md");
  CHECK(done.files[1].made);
  CHECK(!box.there("out/guide/gone"));
  CHECK(box.read("out/corrections.md") == "c");
  CHECK(inodeOf(box.path("out/talks/t/outline.md")) == talk);
  CHECK(verify(box.path("out")).good());
  const auto reading = manifestFrom(box.read("out/manifest.json"));
  REQUIRE(reading.manifest);
  CHECK(reading.manifest->parts == std::vector<std::string>{"corrections", "guide", "talks"});
  CHECK(reading.manifest->files.at("talks/t/outline.md").records == std::vector<std::string>{"talk:t"});
}

TEST_CASE("hand edits of carried, remade and vanished files") {
  const Sandbox box;
  const auto makeAll = [&](const std::string& guide) {
    auto opened = Publication::open(box.settings("out", {"guide", "talks"}));
    REQUIRE(opened.publication);
    opened.publication->add("guide", "guide/a.md", guide, {});
    opened.publication->add("talks", "talks/t.md", "t", {"talk:t"});
    opened.publication->add("talks", "talks/u.md", "u", {});
    opened.publication->add("talks", "talks/v.md", "v", {});
    return opened.publication->commit();
  };
  REQUIRE(!makeAll("1").problem);
  box.write("out/talks/t.md", "t, better");
  std::filesystem::remove(box.path("out/talks/u.md"));
  std::filesystem::remove(box.path("out/talks/v.md"));
  std::filesystem::create_symlink("/somewhere/else", box.path("out/talks/v.md"));

  Committed done = publish(box.settings("out", {"guide"}), {{"guide/a.md", "2"}});
  REQUIRE(!done.problem);
  CHECK(says(done.notices, "out/talks/t.md has been changed by hand; it is carried over as it is"));
  CHECK(says(done.notices, "out/talks/u.md is gone; saggar make talks makes it again"));
  CHECK(box.read("out/talks/t.md") == "t, better");
  CHECK(std::filesystem::is_symlink(box.path("out/talks/v.md")));
  CHECK(verify(box.path("out")).good());
  CHECK(manifestFrom(box.read("out/manifest.json")).manifest->files.at("talks/t.md").edited);

  CHECK(!publish(box.settings("out", {"guide"}), {{"guide/a.md", "2"}}).changed);  // told once

  done = makeAll("2");  // the link is no file of ours, and stands where one must go
  REQUIRE(done.problem);
  CHECK(done.problem->error ==
        "out/talks/v.md is not ours, but stands where a file or folder of ours must go");
  std::filesystem::remove(box.path("out/talks/v.md"));
  done = makeAll("2");
  REQUIRE(!done.problem);
  CHECK(says(done.notices, "out/talks/t.md had been changed by hand; it is made anew"));
  CHECK(!manifestFrom(box.read("out/manifest.json")).manifest->files.at("talks/t.md").edited);
  CHECK(verify(box.path("out")).files == 4);

  box.write("out/talks/u.md", "all my own work");
  done = publish(box.settings("out", {"talks"}), {{"talks/t.md", "t"}});
  REQUIRE(!done.problem);
  CHECK(says(done.notices,
             "out/talks/u.md is no longer made, but had been changed by hand; it stays, as yours"));
  CHECK(box.read("out/talks/u.md") == "all my own work");
  CHECK(!box.there("out/talks/v.md"));
  CHECK(verify(box.path("out")).files == 2);

  box.write("out/talks/t.md", "edited, carried, deleted");
  REQUIRE(!publish(box.settings("out", {"guide"}), {{"guide/a.md", "3"}}).problem);
  std::filesystem::remove(box.path("out/talks/t.md"));
  done = publish(box.settings("out", {"talks"}), {});
  CHECK(!done.problem);
  CHECK(done.notices.empty());
  CHECK(!box.there("out/talks/t.md"));
}

TEST_CASE("a file of the author's in the way is never written over") {
  const Sandbox box;
  REQUIRE(!publish(box.settings(), {{"guide/a.md", "a"}}).problem);
  const auto refused = [&](const Contents& files, const std::string& path) {
    const auto before = box.picture("out");
    const Committed done = publish(box.settings(), files);
    REQUIRE(done.problem);
    CHECK(done.problem->error == path + " is not ours, but stands where a file or folder of ours must go");
    CHECK(done.problem->hint == "move it away and run the command again");
    CHECK(!done.changed);
    CHECK(box.picture("out") == before);
    CHECK(box.names() == std::vector<std::string>{"guide", "out"});
  };
  box.write("out/guide/b.md", "mine");
  refused({{"guide/a.md", "a"}, {"guide/b.md", "b"}}, "out/guide/b.md");
  refused({{"guide/a.md", "a"}, {"guide/b.md/c.md", "b"}}, "out/guide/b.md");
  std::filesystem::create_directories(box.path("out/guide/folder.md"));
  refused({{"guide/folder.md", "b"}}, "out/guide/folder.md");
  std::filesystem::remove_all(box.path("out/guide"));
  std::filesystem::create_symlink(box.path("guide"), box.path("out/guide"));
  refused({{"guide/new.md", "b"}}, "out/guide");
  CHECK(box.names("guide").empty());
}

TEST_CASE("names that cannot be written are refused in words") {
  const Sandbox box;
  const auto errorOf = [&](const Contents& files) {
    const Committed done = publish(box.settings(), files);
    CHECK(!box.there("out"));
    CHECK(box.names() == std::vector<std::string>{"guide"});
    return done.problem ? done.problem->error : std::string();
  };
  CHECK(errorOf({{"../x", ""}}) == "cannot write out/../x: it climbs out of the folder");
  CHECK(errorOf({{"manifest.json", ""}}) == "cannot write out/manifest.json: that name is the manifest's");
  CHECK(errorOf({{std::string(256, 'n'), ""}}) ==
        "cannot write out/" + std::string(256, 'n') + ": the name is too long");
  CHECK(errorOf({{"a", ""}, {"a/b", ""}}) ==
        "out/a/b is to be written, but one name on its path is both a file and a folder");
  auto opened = Publication::open(box.settings());
  REQUIRE(opened.publication);
  CHECK(opened.publication->add("guide", "a/b", "", {}));
  CHECK(!opened.publication->add("guide", "a", "", {}));
  CHECK(!opened.publication->add("guide", "c", "", {}));  // idle after the first failure
  CHECK(opened.publication->problem());
  opened = Publication::open(box.settings("out2"));
  CHECK(opened.publication->add("guide", "a", "1", {}));
  CHECK(!opened.publication->add("guide", "a", "2", {}));
  CHECK(opened.publication->commit().problem->error == "two things are to be written to out2/a");
  CHECK(!box.there("out2"));
}

TEST_CASE("the bytes of what will be carried over, and of nothing else") {
  const Sandbox box;
  const auto open = [&](std::vector<std::string> parts) {
    auto opened = Publication::open(box.settings("out", std::move(parts)));
    REQUIRE(opened.publication);
    return std::move(opened.publication);
  };
  const auto of = [&](std::vector<std::string> parts, std::string_view path) {
    return open(std::move(parts))->carriedOver(path);
  };
  CHECK_FALSE(of({"talks"}, "guide/a.md"));  // no folder yet
  {
    auto all = open({"guide", "talks", "corrections"});
    all->add("guide", "guide/a.md", "a", {"shape:a"});
    all->add("guide", "guide/deep/er/b.md", std::string(70000, 'b'), {});
    all->add("guide", "guide/empty.md", "", {});
    all->add("guide", "guide/gone.md", "gone", {});
    all->add("guide", "guide/folder.md", "no longer a file", {});
    all->add("guide", "guide/pipe.md", "no longer a file", {});
    all->add("talks", "talks/t.md", "t", {});
    all->add("corrections", "corrections.md", "c", {});
    CHECK_FALSE(all->carriedOver("guide/a.md"));  // being made, and not yet there
    REQUIRE(!all->commit().problem);
  }
  box.write("out/mine.md", "mine");
  box.write("out/guide/mine.md", "mine");
  box.write("out/guide/deep/er/b.md", "edited by hand");
  for (const char* name : {"gone.md", "folder.md", "pipe.md"})
    std::filesystem::remove(box.path("out/guide/" + std::string(name)));
  std::filesystem::create_directory(box.path("out/guide/folder.md"));
  REQUIRE(mkfifo(box.path("out/guide/pipe.md").c_str(), 0640) == 0);

  CHECK(of({"talks"}, "guide/a.md") == "a");
  CHECK(of({"talks"}, "corrections.md") == "c");
  CHECK(of({"talks"}, "guide/empty.md") == "");
  CHECK(of({"talks"}, "guide/deep/er/b.md") == "edited by hand");  // as it stands, so it is carried over
  CHECK_FALSE(of({"talks"}, "talks/t.md"));                        // its part is made anew
  CHECK_FALSE(of({"guide", "talks"}, "guide/a.md"));
  CHECK(of({"guide", "talks"}, "corrections.md") == "c");
  // What the manifest does not name is the author's, wherever it lies; so is the manifest itself.
  for (const char* path : {"mine.md", "guide/mine.md", "manifest.json", "guide", "", "/", "guide/./a.md",
                           "./guide/a.md", "guide//a.md", "../out/guide/a.md", "GUIDE/a.md", "guide/a"})
    CHECK_FALSE_MESSAGE(of({"talks"}, path), path);
  // Named, but there is nothing to read.
  for (const char* path : {"guide/gone.md", "guide/folder.md", "guide/pipe.md"})
    CHECK_FALSE_MESSAGE(of({"talks"}, path), path);
  // What is added in this run is not what will be carried over, and asking changes nothing.
  auto talks = open({"talks"});
  CHECK(talks->add("talks", "talks/new.md", "new", {}));
  CHECK_FALSE(talks->carriedOver("talks/new.md"));
  const auto before = box.picture("out");
  CHECK(talks->carriedOver("guide/a.md") == "a");
  CHECK(box.picture("out") == before);
}

TEST_CASE("whether a file was published is what the manifest says of it") {
  const Sandbox box;
  const TreeSettings out = box.settings();
  CHECK_FALSE(isPublished(out, "guide/a.md"));
  CHECK_FALSE(box.there("out"));  // asking makes no folder
  REQUIRE(!publish(out, {{"guide/a.md", "a"}, {"b.md", "b"}}).problem);
  box.write("out/mine.md", "mine");
  CHECK(isPublished(out, "guide/a.md"));
  CHECK(isPublished(out, "b.md"));
  for (const char* path :
       {"mine.md", "guide", "guide/", "guide/a", "a.md", "manifest.json", "", "../out/b.md"})
    CHECK_FALSE_MESSAGE(isPublished(out, path), path);
  box.write("out/guide/a.md", "edited");
  std::filesystem::remove(box.path("out/b.md"));
  CHECK(isPublished(out, "guide/a.md"));
  CHECK(isPublished(out, "b.md"));  // it was, and making the part makes it again
  // Whatever parts are made, by another way to the folder, and seen from elsewhere.
  CHECK(isPublished(box.settings("out", {"talks"}), "b.md"));
  CHECK(isPublished(box.settings("./guide/../out/"), "b.md"));
  CHECK_FALSE(isPublished(box.settings("guide"), "b.md"));
  CHECK_FALSE(isPublished(box.settings("out/guide"), "a.md"));

  TreeSettings own = box.settings();
  own.tree = "own";
  CHECK_FALSE(isPublished(own, "b.md"));  // an output folder of one sort is never taken for the other
  const std::string manifest = box.read("out/manifest.json");
  REQUIRE(manifest.size() > 20);
  for (const std::string& broken : {std::string(), std::string("{}"), std::string("not json"),
                                    manifest.substr(0, manifest.size() / 2), "x" + manifest}) {
    box.write("out/manifest.json", broken);
    CHECK_FALSE_MESSAGE(isPublished(out, "b.md"), broken);
  }
  box.write("out/manifest.json", manifest);
  CHECK(isPublished(out, "b.md"));
  std::filesystem::remove(box.path("out/manifest.json"));
  CHECK_FALSE(isPublished(out, "b.md"));
}

TEST_CASE("a file in pieces, small, large, unchanged, abandoned") {
  const Sandbox box;
  const std::string piece(300000, 'p');
  std::string whole;
  const auto make = [&] {
    auto opened = Publication::open(box.settings("out", {"checklists"}));
    REQUIRE(opened.publication);
    whole.clear();
    {
      FileInPieces large = opened.publication->begin("checklists", "checklists/large.pdf");
      FileInPieces small = opened.publication->begin("checklists", "checklists/small.pdf");
      FileInPieces dropped = opened.publication->begin("checklists", "checklists/dropped.pdf");
      for (int i = 0; i < 10; ++i) {
        CHECK(large.write(piece + std::to_string(i)));
        whole += piece + std::to_string(i);
        CHECK(small.write("s"));
        CHECK(dropped.write(piece));
      }
      CHECK(large.finish({"b", "a", "b"}));
      CHECK(small.finish({}));
    }
    return opened.publication->commit();
  };
  Committed done = make();
  REQUIRE(!done.problem);
  CHECK(done.files.size() == 2);
  CHECK(box.read("out/checklists/large.pdf") == whole);
  CHECK(done.files[0].sha256 == sha256Of(whole));
  CHECK(done.files[0].bytes == whole.size());
  CHECK(box.read("out/checklists/small.pdf") == "ssssssssss");
  CHECK(box.names("out/checklists") == std::vector<std::string>{"large.pdf", "small.pdf"});
  CHECK(verify(box.path("out")).good());
  const auto before = box.picture("out");
  done = make();
  CHECK(!done.problem);
  CHECK(!done.changed);
  CHECK(box.picture("out") == before);
}

TEST_CASE("what somebody saves while the tree is being exchanged is not lost") {
  const Sandbox box;
  // Writes into the old tree at the last moment, when everything has been looked through.
  class Meddler : public Disk {
   public:
    explicit Meddler(const Sandbox& box) : box_(box) {}
    int before(Step step, const std::string&) override {
      if (step != Step::exchange) return 0;
      box_.write("out/late.txt", "late");
      box_.write("out/new/folder/late.txt", "late too");
      std::filesystem::remove(box_.path("out/saved.txt"));
      box_.write("out/saved.txt", "saved again, as editors do it");
      box_.write("out/guide/b.md", "mine, where a file of ours comes");
      return 0;
    }
    const Sandbox& box_;
  } meddler(box);
  REQUIRE(!publish(box.settings(), {{"guide/a.md", "1"}}).problem);
  box.write("out/saved.txt", "first");
  TreeSettings settings = box.settings();
  settings.disk = &meddler;
  const Committed done = publish(settings, {{"guide/a.md", "2"}, {"guide/b.md", "b"}});
  REQUIRE(!done.problem);
  CHECK(box.read("out/guide/a.md") == "2");
  CHECK(box.read("out/guide/b.md") == "b");
  CHECK(box.read("out/late.txt") == "late");
  CHECK(box.read("out/new/folder/late.txt") == "late too");
  CHECK(box.read("out/saved.txt") == "saved again, as editors do it");
  CHECK(box.read("out/guide/b.md.kept") == "mine, where a file of ours comes");
  CHECK(says(done.notices,
             "out/guide/b.md was saved while saggar was writing; it is kept as out/guide/b.md.kept"));
  CHECK(verify(box.path("out")).good());
  CHECK(box.names() == std::vector<std::string>{"guide", "out"});
}

TEST_CASE("an own tree beside out, never in it") {
  const Sandbox box;
  const auto pairOf = [&](const std::string& out, const std::string& own) {
    TreeSettings second = box.settings(own, {"talks"});
    second.tree = "own";
    return openPair(box.settings(out), second);
  };
  {
    OpenedPair pair = pairOf("out", "own");
    REQUIRE(!pair.problem);
    CHECK(pair.out->add("guide", "guide/a.md", "a", {}));
    CHECK(pair.own->add("talks", "talks/t/pieces.md", "shelf 4", {}));
    CHECK(!pair.own->commit().problem);
    CHECK(!pair.out->commit().problem);
  }
  CHECK(box.read("own/talks/t/pieces.md") == "shelf 4");
  CHECK(manifestFrom(box.read("own/manifest.json")).manifest->tree == "own");
  CHECK(box.names() == std::vector<std::string>{"guide", "out", "own"});
  std::filesystem::create_symlink("out", box.path("alias"));
  for (const auto& [out, own] : std::map<std::string, std::string>{
           {"out", "out/own"}, {"x/y", "x/"}, {"z", "./guide/../z"}, {"alias/deep", "out"}}) {
    const OpenedPair pair = pairOf(out, own);
    REQUIRE(pair.problem);
    CHECK(pair.problem->hint == "choose two folders side by side, as -o out --own own");
  }
  OpenedPair swapped = pairOf("own", "out");
  REQUIRE(swapped.problem);
  CHECK(swapped.problem->error.find("holds what") != std::string::npos);
  CHECK(!swapped.out);
  CHECK(!pairOf("outer", "out2").problem);
}
