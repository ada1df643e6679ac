#include <doctest/doctest.h>
#include <grp.h>
#include <sys/wait.h>

#include <functional>

#include "publishing/hash.h"
#include "publishing/manifest.h"
#include "sandbox.h"

// Everything that is no folder for us: an error in words with a hint, and nothing touched.

using namespace saggar::publishing;

namespace {

Problem refusalOf(const TreeSettings& settings) {
  const Committed done = publish(settings, {{"guide/a.md", "a"}});
  return done.problem.value_or(Problem{"not refused", ""});
}

// Runs a check as a user without rights; its words come back through a file.
std::string asNobody(const Sandbox& box, const std::function<std::string()>& what) {
  const std::string report = box.path("report");
  std::ofstream(report) << "";
  chmod(report.c_str(), 0666);
  const pid_t child = fork();
  REQUIRE(child >= 0);
  if (child == 0) {
    if (geteuid() == 0 && (setgroups(0, nullptr) != 0 || setgid(65534) != 0 || setuid(65534) != 0)) _exit(2);
    std::ofstream(report) << what();
    _exit(0);
  }
  int status = 0;
  waitpid(child, &status, 0);
  CHECK(WEXITSTATUS(status) == 0);
  const std::string words = box.read("report");
  unlink(report.c_str());
  return words;
}

}  // namespace

TEST_CASE("a folder with a file that is not ours") {
  const Sandbox box;
  for (const char* name : {"taxes.ods", ".hidden", "folder/deep.txt"}) {
    std::filesystem::remove_all(box.path("out"));
    box.write(std::string("out/") + name, "not yours");
    const auto before = box.picture("");
    const Problem problem = refusalOf(box.settings());
    CHECK(problem.error == "out is not empty and has no manifest.json of ours, so what it holds (" +
                               std::string(name).substr(0, std::string(name).find('/')) + ") is left alone");
    CHECK(problem.hint == "choose an empty or a new folder with -o");
    CHECK(box.picture("") == before);
  }
  std::filesystem::remove_all(box.path("out"));
  std::filesystem::create_directories(box.path("out/even an empty one"));
  CHECK(refusalOf(box.settings()).error.starts_with("out is not empty"));
  std::filesystem::remove(box.path("out/even an empty one"));
  CHECK(refusalOf(box.settings()).error == "not refused");
}

TEST_CASE(
    "a manifest that is broken, another's, older, newer or for the other tree: refused, never deleted") {
  const Sandbox box;
  const std::map<std::string, std::string> cases = {
      {"{\"manifest\": \"saggar\", \"ver",
       "out is left alone, because its manifest.json is broken (no well-formed JSON)"},
      {"", "out is left alone, because its manifest.json is broken (no well-formed JSON)"},
      {"{\"name\": \"page\"}", "out is left alone, because its manifest.json was not written by saggar"},
      {"{\"manifest\": \"saggar\", \"version\": 7}",
       "out is left alone, because its manifest.json was written by a newer saggar"},
      {"{\"manifest\": \"saggar\", \"version\": 0}",
       "out is left alone, because its manifest.json was written by an older saggar, in a form that is no "
       "longer read"},
      {"{\"manifest\": \"saggar\", \"version\": 1, \"tree\": \"own\", \"parts\": [], \"files\": []}",
       "out holds what only you see (its manifest.json says so), not what is published"}};
  for (const auto& [text, error] : cases) {
    box.write("out/manifest.json", text);
    box.write("out/guide/a.md", "precious");
    const auto before = box.picture("");
    const Problem problem = refusalOf(box.settings());
    CHECK(problem.error == error);
    CHECK(!problem.hint.empty());
    CHECK(box.picture("") == before);
  }
  std::filesystem::remove(box.path("out/manifest.json"));
  std::filesystem::create_directories(box.path("out/manifest.json"));
  CHECK(refusalOf(box.settings()).error.starts_with("out is not empty and has no manifest.json"));
  std::filesystem::remove(box.path("out/manifest.json"));
  box.write("manifest",
            "{\"manifest\": \"saggar\", \"version\": 1, \"tree\": \"out\", \"parts\": [], \"files\": []}");
  std::filesystem::create_symlink("../manifest", box.path("out/manifest.json"));
  CHECK(refusalOf(box.settings()).error.starts_with("out is not empty and has no manifest.json"));
}

TEST_CASE("places that can be no output folder") {
  const Sandbox box;
  box.write("file", "x");
  std::filesystem::create_symlink("nowhere", box.path("dangling"));
  std::filesystem::create_symlink("ring-b", box.path("ring-a"));
  std::filesystem::create_symlink("ring-a", box.path("ring-b"));
  std::filesystem::create_symlink("guide", box.path("guide-link"));
  box.write("guide/chapters/one.md", "text");
  const auto before = box.picture("");
  const std::string name = box.root().substr(box.root().rfind('/') + 1);
  const std::map<std::string, std::string> cases = {
      {"", "no output folder is named after -o"},
      {"/", "/ is the root of the whole disk"},
      {"//", "// is the root of the whole disk"},
      {".", ". is the folder you stand in, which cannot be exchanged under your feet"},
      {"./guide/..", "./guide/.. is the folder you stand in, which cannot be exchanged under your feet"},
      {"../" + name + "/",
       "../" + name + "/ is the folder you stand in, which cannot be exchanged under your feet"},
      {"..", ".. holds the folder you stand in"},
      {"guide", "guide is the guide's own folder"},
      {"guide-link/", "guide-link/ is the guide's own folder"},
      {"guide/chapters",
       "guide/chapters is not empty and has no manifest.json of ours, so what it holds (one.md) is left "
       "alone"},
      {"file", "file is a file, not a folder"},
      {"/dev/null", "/dev/null is a file, not a folder"},
      {"file/out", "cannot reach file/out: a part of its path is a file, not a folder"},
      {"dangling", "dangling is a link that leads nowhere"},
      {"dangling/out", "cannot reach dangling/out: no such file or folder"},
      {"ring-a", "ring-a is a link that leads nowhere"},
      {"none/../../x", "cannot reach none/../../x: no such file or folder"},
      {"a\nb",
       "a\xEF\xBF\xBD"
       "b has a control character in its name"},
      {std::string(300, 'n'), "cannot reach " + std::string(300, 'n') + ": the name is too long"}};
  for (const auto& [folder, error] : cases) {
    const Problem problem = refusalOf(box.settings(folder));
    CHECK(problem.error == error);
    CHECK(!problem.hint.empty());
    CHECK(box.picture("") == before);
  }
  TreeSettings settings = box.settings("collection");
  settings.guide = box.path("collection/guide");
  std::filesystem::create_directories(settings.guide);
  CHECK(refusalOf(settings).error == "collection holds the guide itself");
  settings.guide = "collection/guide";
  CHECK(refusalOf(settings).error == "collection holds the guide itself");
  settings.tree = "own";
  settings.folder = "";
  CHECK(refusalOf(settings).error == "no output folder is named after --own");
  std::string deep;
  for (int i = 0; i < 3000; ++i) deep += "d/";
  CHECK(refusalOf(box.settings(deep)).error.ends_with("the name is too long"));
}

TEST_CASE("places that are well: a link to a folder, an empty folder, the guide's subfolder, a long name") {
  const Sandbox box;
  std::filesystem::create_directories(box.path("elsewhere/real"));
  std::filesystem::create_symlink("elsewhere/real", box.path("out"));
  CHECK(!publish(box.settings(), {{"guide/a.md", "a"}}).problem);
  CHECK(!publish(box.settings(), {{"guide/a.md", "b"}}).problem);
  CHECK(std::filesystem::is_symlink(box.path("out")));
  CHECK(box.read("elsewhere/real/guide/a.md") == "b");
  CHECK(box.names("elsewhere") == std::vector<std::string>{"real"});
  CHECK(!publish(box.settings("guide/out/"), {{"guide/a.md", "a"}}).problem);
  for (const std::string& name :
       {std::string(240, 'n'), std::string(255, 'm'), std::string("- 'odd' $name;")}) {
    for (const char* text : {"1", "2"}) CHECK(!publish(box.settings(name), {{"guide/a.md", text}}).problem);
    CHECK(box.read(name + "/guide/a.md") == "2");
  }
  TreeSettings settings = box.settings(box.path("absolute"));
  settings.from = "/";
  CHECK(!publish(settings, {}).problem);
  CHECK(verify(box.path("absolute")).files == 0);
  CHECK(box.names().size() == 7);
}

TEST_CASE("no permission") {
  const Sandbox box;
  REQUIRE(!publish(box.settings("ours/out"), {{"guide/a.md", "1"}}).problem);
  std::filesystem::create_directories(box.path("locked/out"));
  std::filesystem::create_directories(box.path("open/out"));
  chmod(box.path("locked").c_str(), 0555);
  chmod(box.path("open").c_str(), 0777);
  chmod(box.path("open/out").c_str(), 0555);
  const auto attempt = [&](const std::string& folder) {
    return asNobody(box, [&] {
      const Problem problem = refusalOf(box.settings(folder));
      return problem.error + " | " + problem.hint;
    });
  };
  const std::string hint =
      " | make the folder and the one around it writable for you, or choose another with -o";
  CHECK(attempt("locked/new") ==
        "cannot work in " + box.path("locked") + ", beside locked/new: permission denied" + hint);
  if (geteuid() != 0) return;  // the rest needs folders of somebody else
  CHECK(attempt("ours/out") == "cannot write in ours/out: permission denied" + hint);
  CHECK(attempt("open/out") == "cannot write in open/out: permission denied" + hint);
  chmod(box.path("locked/out").c_str(), 0777);
  CHECK(attempt("locked/out") ==
        "cannot work in " + box.path("locked") + ", beside locked/out: permission denied" + hint);
  chmod(box.path("ours").c_str(), 0700);
  CHECK(attempt("ours/out") == "cannot reach ours/out: permission denied" + hint);
  CHECK(box.read("ours/out/guide/a.md") == "1");
}

TEST_CASE("what another user put into the folder is carried over, or the run refused") {
  if (geteuid() != 0) {
    MESSAGE("skipped: needs files of two users, so root");
    return;
  }
  const Sandbox box;
  std::filesystem::create_directories(box.path("shared"));
  chmod(box.path("shared").c_str(), 0777);
  const auto make = [&](const char* text) {
    return asNobody(box, [&] {
      return publish(box.settings("shared/out"), {{"guide/a.md", text}}).problem.value_or(Problem{}).error;
    });
  };
  CHECK(make("1").empty());
  box.write("shared/out/root.txt", "of another user, readable");  // many systems forbid a second name for it
  std::filesystem::create_directories(box.path("shared/out/closed"));
  CHECK(make("2").empty());
  CHECK(box.read("shared/out/guide/a.md") == "2");
  CHECK(box.read("shared/out/root.txt") == "of another user, readable");
  box.write("shared/out/theirs/file.txt", "in a folder of another user");
  CHECK(make("3") == "cannot carry over shared/out/theirs: permission denied");
  std::filesystem::remove_all(box.path("shared/out/theirs"));
  chmod(box.path("shared/out/closed").c_str(), 0700);
  REQUIRE(chown(box.path("shared/out/closed").c_str(), 0, 0) == 0);
  CHECK(make("3") == "cannot carry over shared/out/closed: permission denied");
  CHECK(box.read("shared/out/guide/a.md") == "2");
  CHECK(box.names("shared") == std::vector<std::string>{"out"});
}

TEST_CASE("something foreign where the work would be done") {
  const Sandbox box;
  box.write(".out.saggar-work", "a file");
  Problem problem = refusalOf(box.settings());
  CHECK(problem.error ==
        box.path(".out.saggar-work") + " is in the way: saggar works in a folder of that name");
  CHECK(box.read(".out.saggar-work") == "a file");
  std::filesystem::remove(box.path(".out.saggar-work"));
  std::filesystem::create_symlink(box.path("guide"), box.path(".out.saggar-work"));
  problem = refusalOf(box.settings());
  CHECK(problem.error.find("is in the way") != std::string::npos);
  CHECK(box.names("guide").empty());
  std::filesystem::remove(box.path(".out.saggar-work"));
  box.write(".out.saggar-work/mine.txt", "mine");
  CHECK(refusalOf(box.settings()).error == "not refused");
  CHECK(box.names(".out.saggar-work") == std::vector<std::string>{"mine.txt"});
}

TEST_CASE("the folder is replaced or made while we work beside it") {
  const Sandbox box;
  REQUIRE(!publish(box.settings(), {{"guide/a.md", "1"}}).problem);
  {
    auto opened = Publication::open(box.settings());
    opened.publication->add("guide", "guide/a.md", "2", {});
    std::filesystem::rename(box.path("out"), box.path("moved"));
    box.write("out/other.txt", "other");
    const Committed done = opened.publication->commit();
    REQUIRE(done.problem);
    CHECK(done.problem->error ==
          "out was moved or replaced while saggar was writing beside it; nothing is changed");
  }
  CHECK(box.read("out/other.txt") == "other");
  CHECK(box.read("moved/guide/a.md") == "1");
  {
    auto opened = Publication::open(box.settings("new"));
    opened.publication->add("guide", "guide/a.md", "2", {});
    box.write("new/other.txt", "other");
    const Committed done = opened.publication->commit();
    REQUIRE(done.problem);
    CHECK(done.problem->error ==
          "something was put at new while saggar was writing beside it; it is left alone");
  }
  CHECK(box.names("new") == std::vector<std::string>{"other.txt"});
  CHECK(box.names() == std::vector<std::string>{"guide", "moved", "new", "out"});
}

TEST_CASE("two renames that cannot be undone are ended by the next run") {
  const Sandbox box;
  class Stuck : public Disk {
   public:
    explicit Stuck(std::string place) : place_(std::move(place)) {}
    int before(Step step, const std::string& path) override {
      if (step == Step::exchange) return EINVAL;
      return step == Step::rename && path == place_ ? EIO : 0;
    }
    std::string place_;
  } stuck(box.path("out"));
  REQUIRE(!publish(box.settings(), {{"guide/a.md", "1"}}).problem);
  box.write("out/mine.txt", "mine");
  TreeSettings settings = box.settings();
  settings.disk = &stuck;
  Committed done = publish(settings, {{"guide/a.md", "2"}});
  REQUIRE(done.problem);
  CHECK(done.problem->error == "cannot put the new tree in the place of out: the disk reported a fault");
  CHECK(!box.there("out"));
  done = publish(box.settings(), {{"guide/a.md", "2"}});
  REQUIRE(!done.problem);
  CHECK(!done.changed);
  CHECK(done.notices ==
        std::vector<std::string>{"an interrupted run had finished its work; out is now its result"});
  CHECK(box.read("out/guide/a.md") == "2");
  CHECK(box.read("out/mine.txt") == "mine");
  CHECK(verify(box.path("out")).good());
  CHECK(box.names() == std::vector<std::string>{"guide", "out"});
}
