#include <sys/stat.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>

#include "support.h"

// Which files of a guide's folder are read, and what is told of those that cannot be.
using namespace reading_test;
using namespace saggar;
namespace fs = std::filesystem;

namespace {

// A folder on the disk that goes away again.
class Folder {
 public:
  Folder() {
    std::string name = (fs::temp_directory_path() / "guide-XXXXXX").string();
    REQUIRE(mkdtemp(name.data()) != nullptr);
    root_ = name;
  }
  ~Folder() {
    std::error_code ignored;
    for (const auto& entry :
         fs::recursive_directory_iterator(root_, fs::directory_options::skip_permission_denied, ignored))
      fs::permissions(entry.path(), fs::perms::owner_all, fs::perm_options::add | fs::perm_options::nofollow,
                      ignored);
    fs::remove_all(root_, ignored);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;

  void put(const std::string& path, const std::string& text) const {
    fs::create_directories((root_ / path).parent_path());
    std::ofstream(root_ / path, std::ios::binary) << text;
  }
  void link(const std::string& path, const std::string& target) const {
    fs::create_directories((root_ / path).parent_path());
    fs::create_symlink(target, root_ / path);
  }
  fs::path path(const std::string& path) const { return root_ / path; }
  Read read() const {
    Read read;
    read.guide = reading::readGuide(source::DiskFiles(), root_.string(), read.findings);
    return read;
  }

 private:
  fs::path root_;
};

std::string ids(const Read& read) {
  std::string out;
  for (const records::Record& record : read.guide.records)
    out += (out.empty() ? "" : " ") + std::string(record.id);
  return out;
}

// "path rule" of each finding, in order.
std::string told(const Read& read) {
  std::string out;
  for (std::size_t i = 0; i < read.all().size(); ++i)
    out += (out.empty() ? "" : "; ") + std::string(read.place(i).path) + ' ' +
           std::string(read.all()[i].rule.id());
  return out;
}

// A world in memory in which some files claim another size or cannot be read.
class OddFiles final : public source::Files {
 public:
  source::MemoryFiles files;
  std::string large;
  std::string locked;

  source::FileStatus status(const std::string& path) const override {
    source::FileStatus status = files.status(path);
    if (source::pathNormalized(path) == large) status.size = 64ull * 1024 * 1024 + 1;
    return status;
  }
  source::ReadResult read(const std::string& path) const override {
    REQUIRE(source::pathNormalized(path) != large);
    if (source::pathNormalized(path) == locked) return {{}, "permission denied"};
    return files.read(path);
  }
  std::optional<std::vector<source::FolderEntry>> list(const std::string& path) const override {
    return files.list(path);
  }
  std::optional<std::string> realPath(const std::string& path) const override { return files.realPath(path); }
};

}  // namespace

TEST_CASE("records stand in whatever files and folders, prose under prose, the guide in guide.yaml") {
  const Folder folder;
  folder.put("guide.yaml", "guide: Tableware of Tollivane\nby: Odile Marrenby\n");
  folder.put("b.yaml", "- shape: two\n");
  folder.put("a/deep/er/x.yml", "- shape: one\n");
  folder.put("C.YAML", "- shape: zero\n");
  folder.put("notes.txt", "- shape: no\n");
  folder.put("readme.md", "no");
  folder.put("prose/firm.md", "# The firm\n");
  folder.put("prose/shapes/one.md", "One.\n");
  folder.put(".git/x.yaml", "- shape: hidden\n");
  folder.put(".x.yaml", "- shape: hidden\n");
  folder.put("out/manifest.json", "{\"made-by\": \"saggar\"}");
  folder.put("out/x.yaml", "- shape: made\n");
  const Read read = folder.read();
  CHECK_MESSAGE(read.all().empty(), read.report());
  CHECK(ids(read) == "zero one two");
  CHECK(read.guide.guide.id == "Tableware of Tollivane");
  REQUIRE(read.guide.prose.size() == 2);
  CHECK(read.guide.prose[0].path == "prose/firm.md");
  CHECK(read.guide.prose[1].path == "prose/shapes/one.md");
  CHECK_FALSE(read.guide.lostFiles);
}

TEST_CASE("a broken file among many costs its own broken record only") {
  const Folder folder;
  folder.put("a.yaml", "- shape: a\n  name: x\n");
  folder.put("b.yaml", "- shape: b\n  name: x: y\n- shape: c\n  name: z\n");
  folder.put("c.yaml", "- shape: d\n");
  const Read read = folder.read();
  CHECK(told(read) == "b.yaml yaml-broken");
  CHECK(ids(read) == "a b c d");
}

TEST_CASE(
    "links: inside they are followed once, outside they are refused, dangling and looping they are told") {
  const Folder outside;
  outside.put("other.yaml", "- shape: outside\n");
  const Folder folder;
  folder.put("a.yaml", "- shape: a\n");
  folder.put("shapes/b.yaml", "- shape: b\n");
  folder.put("hidden.txt", "- shape: t\n");
  folder.link("again.yaml", "a.yaml");
  folder.link("t.yaml", "hidden.txt");
  folder.link("more", "shapes");
  folder.link("round/up", "..");
  folder.link("dangling.yaml", "nowhere.yaml");
  folder.link("loop-1.yaml", "loop-2.yaml");
  folder.link("loop-2.yaml", "loop-1.yaml");
  folder.link("out.yaml", outside.path("other.yaml").string());
  folder.link("passwd.yaml", "../../../../../../etc/passwd");
  folder.link("elsewhere", outside.path("").string());
  folder.link("prose/p.md", outside.path("other.yaml").string());
  folder.link("dangling.png", "nowhere.png");
  const Read read = folder.read();
  CHECK(ids(read) == "a b t");
  CHECK(told(read) ==
        "dangling.yaml file-unreadable; elsewhere path-outside; loop-1.yaml file-unreadable; loop-2.yaml "
        "file-unreadable; out.yaml path-outside; passwd.yaml "
        "path-outside; prose/p.md path-outside");
  for (const auto& finding : read.all()) checkWording(finding);
  CHECK(read.guide.lostFiles);
}

TEST_CASE("a file that is a folder, a pipe, a file nobody may read") {
  const Folder folder;
  folder.put("a.yaml", "- shape: a\n");
  folder.put("folder.yaml/b.yaml", "- shape: b\n");
  REQUIRE(mkfifo(folder.path("pipe.yaml").c_str(), 0600) == 0);
  const Read read = folder.read();
  CHECK(ids(read) == "a b");
  CHECK(told(read) == "folder.yaml file-unreadable; pipe.yaml file-unreadable");
  OddFiles odd;
  odd.files.put("g/a.yaml", "- shape: a\n");
  odd.files.put("g/locked.yaml", "- shape: l\n");
  odd.files.put("g/prose/p.md", "text");
  odd.locked = "g/locked.yaml";
  Read locked;
  locked.guide = reading::readGuide(odd, "g", locked.findings);
  CHECK(told(locked) == "locked.yaml file-unreadable");
  CHECK(locked.all()[0].message.find("permission denied") != std::string::npos);
  CHECK(locked.guide.lostFiles);
  odd.locked = "g/prose/p.md";
  Read prose;
  prose.guide = reading::readGuide(odd, "g", prose.findings);
  CHECK(told(prose) == "prose/p.md file-unreadable");
  CHECK_FALSE(prose.guide.lostFiles);
}

TEST_CASE("an unreadable file and folder on the disk") {
  if (geteuid() == 0) return;  // the superuser reads everything
  const Folder folder;
  folder.put("a.yaml", "- shape: a\n");
  folder.put("b.yaml", "- shape: b\n");
  folder.put("c/d.yaml", "- shape: d\n");
  fs::permissions(folder.path("b.yaml"), fs::perms::none);
  fs::permissions(folder.path("c"), fs::perms::none);
  const Read read = folder.read();
  CHECK(ids(read) == "a");
  CHECK(told(read) == "c file-unreadable; b.yaml file-unreadable");
}

TEST_CASE("a file over 64 MB is told and not read") {
  OddFiles odd;
  odd.files.put("g/a.yaml", "- shape: a\n");
  odd.files.put("g/big.yaml", "- shape: big\n");
  odd.large = "g/big.yaml";
  Read read;
  read.guide = reading::readGuide(odd, "g", read.findings);
  CHECK(told(read) == "big.yaml yaml-too-big");
  CHECK(ids(read) == "a");
  CHECK(read.guide.lostFiles);
}

TEST_CASE("a guide file that is broken, empty, a list, or two") {
  auto readGuideFile = [](const std::string& text) {
    source::MemoryFiles files;
    files.put("g/guide.yaml", text);
    files.put("g/a.yaml", "- shape: a\n");
    Read read;
    read.guide = reading::readGuide(files, "g", read.findings);
    CHECK(ids(read) == "a");
    return read;
  };
  const Read broken = readGuideFile("guide: A: B\nby: x\n");
  CHECK(broken.places() == "1:8 yaml-broken\n");
  CHECK(broken.guide.guide.broken);
  CHECK(broken.guide.guide.file != source::kNoFile);
  const Read half = readGuideFile(
      "guide: A\nby: x\nsettings:\n  circa: 3y\n  pace: a: b\nedition: 2\nwaivers:\n  - {rule: uncited, "
      "record: shape:a, because: x\nrules: {uncited: off}\n");
  CHECK(half.places() == "5:9 yaml-broken\n8:5 yaml-broken\n");
  CHECK(half.guide.guide.broken);
  CHECK(half.guide.guide.id == "A");
  CHECK(half.guide.guide.find("edition"_f)->number() == 2);
  CHECK(half.guide.guide.find("rules"_f)->count() == 1);
  CHECK(half.guide.guide.find("waivers"_f) == nullptr);
  CHECK(broken.guide.guide.text("by"_f) == "x");
  CHECK(readGuideFile("").all().empty());
  CHECK(readGuideFile("# nothing yet\n").all().empty());
  CHECK(readGuideFile("- shape: b\n").places() == "1:1 kind-unknown\n");
  CHECK(readGuideFile("guide: A\n---\nguide: B\n").places() == "2:1 yaml-broken\n");
  CHECK(readGuideFile("by: x\nguide: A\n").places() == "1:1 kind-unknown\n");
  CHECK(readGuideFile("guide:\nby: x\n").places() == "1:7 value-unfit\n");
  CHECK(readGuideFile("--- # the guide\nguide: A\nby: x\n").all().empty());
  CHECK(readGuideFile("guide: A\nedtion: 2\n").places() == "2:1 field-unknown\n");
}

TEST_CASE("a folder that is not there has nothing in it") {
  Read read;
  read.guide = reading::readGuide(source::MemoryFiles(), "nowhere", read.findings);
  CHECK(read.all().empty());
  CHECK(read.guide.records.empty());
}

TEST_CASE("progress rises to all there is") {
  source::MemoryFiles files;
  for (int i = 0; i < 30; ++i)
    files.put("g/" + std::to_string(i) + ".yaml", "- shape: s" + std::to_string(i) + "\n");
  Read read;
  std::size_t last = 0;
  std::size_t whole = 0;
  const reading::ReadOptions options{.threads = 3, .progress = [&](std::size_t done, std::size_t all) {
                                       CHECK(done == last + 1);
                                       last = done;
                                       whole = all;
                                     }};
  read.guide = reading::readGuide(files, "g", read.findings, options);
  CHECK(last == whole);
  CHECK(whole == 30);
}
