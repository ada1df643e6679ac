#include <doctest/doctest.h>
#include <signal.h>
#include <sys/mount.h>
#include <sys/resource.h>
#include <sys/wait.h>

#include "publishing/manifest.h"
#include "sandbox.h"

using namespace saggar::publishing;

TEST_CASE("a disk that fills up leaves the last good tree, and nothing beside it") {
  const Sandbox box;
  std::filesystem::create_directories(box.path("disk"));
  if (mount("tmpfs", box.path("disk").c_str(), "tmpfs", 0, "size=1m") != 0) {
    MESSAGE("skipped: only root may mount a small disk");
    return;
  }
  REQUIRE(!publish(box.settings("disk/out"), {{"guide/a.md", std::string(300000, '1')}}).problem);
  box.write("disk/out/mine.txt", "mine");
  const auto before = box.picture("disk/out");
  for (const std::size_t size :
       {std::size_t{800000}, std::size_t{3000000}}) {  // held in memory; written in pieces
    const Committed done = publish(box.settings("disk/out"), {{"guide/a.md", std::string(size, '2')}});
    REQUIRE(done.problem);
    CHECK(done.problem->error == "cannot write disk/out/guide/a.md: the disk is full");
    CHECK(done.problem->hint == "make room, or choose a folder on another disk with -o");
    CHECK(box.picture("disk/out") == before);
    CHECK(box.names("disk") == std::vector<std::string>{"out"});
  }
  Contents many;
  for (int i = 0; i < 400; ++i) many["guide/" + std::to_string(i)] = std::string(5000, 'x');
  Committed done = publish(box.settings("disk/out"), many);
  REQUIRE(done.problem);
  CHECK(done.problem->error.ends_with("the disk is full"));
  CHECK(box.picture("disk/out") == before);
  CHECK(box.names("disk") == std::vector<std::string>{"out"});
  CHECK(!publish(box.settings("disk/out"), {{"guide/a.md", std::string(300000, '3')}}).problem);
  CHECK(box.read("disk/out/mine.txt") == "mine");

  // A disk of its own cannot be exchanged; one mounted inside cannot be carried over.
  done = publish(box.settings("disk"), {});
  REQUIRE(done.problem);
  CHECK(done.problem->error == "disk is a disk or share of its own and cannot be exchanged in one step");
  CHECK(done.problem->hint == "name a folder inside it, as in -o disk/out");
  std::filesystem::create_directories(box.path("disk/out/inner"));
  REQUIRE(mount("tmpfs", box.path("disk/out/inner").c_str(), "tmpfs", 0, "size=64k") == 0);
  done = publish(box.settings("disk/out"), {{"guide/a.md", "4"}});
  REQUIRE(done.problem);
  CHECK(done.problem->error == "cannot carry over disk/out/inner: it lies on another disk");
  CHECK(umount(box.path("disk/out/inner").c_str()) == 0);

  if (mount(nullptr, box.path("disk").c_str(), nullptr, MS_REMOUNT | MS_RDONLY, nullptr) == 0) {
    done = publish(box.settings("disk/out"), {{"guide/a.md", "5"}});
    REQUIRE(done.problem);
    CHECK(done.problem->error == "cannot write in disk/out: the disk can only be read");
    CHECK(done.problem->hint == "choose a folder on a disk that can be written with -o");
    done = publish(box.settings("disk/new/out"), {{"guide/a.md", "5"}});
    REQUIRE(done.problem);
    CHECK(done.problem->error.ends_with("the disk can only be read"));
  }
  CHECK(umount(box.path("disk").c_str()) == 0);
}

TEST_CASE("a file larger than the system allows") {
  const Sandbox box;
  REQUIRE(!publish(box.settings(), {{"guide/a.md", "1"}}).problem);
  const auto before = box.picture("out");
  const pid_t child = fork();
  REQUIRE(child >= 0);
  if (child == 0) {
    signal(SIGXFSZ, SIG_IGN);
    const rlimit limit = {100000, 100000};
    if (setrlimit(RLIMIT_FSIZE, &limit) != 0) _exit(9);
    const Committed done = publish(box.settings(), {{"guide/a.md", std::string(200000, '2')}});
    _exit(done.problem && done.problem->error ==
                              "cannot write out/guide/a.md: the file is larger than this system allows"
              ? 0
              : 1);
  }
  int status = 0;
  waitpid(child, &status, 0);
  CHECK(WIFEXITED(status));
  CHECK(WEXITSTATUS(status) == 0);
  CHECK(box.picture("out") == before);
  CHECK(box.names() == std::vector<std::string>{"guide", "out"});
}

TEST_CASE("a full disk that is noticed late: on closing, on syncing, in the manifest") {
  const Sandbox box;
  REQUIRE(!publish(box.settings(), {{"guide/a.md", "1"}}).problem);
  const auto before = box.picture("out");
  class Late : public Disk {
   public:
    int before(Step step, const std::string& path) override {
      return step == wanted && path.ends_with(suffix) ? ENOSPC : 0;
    }
    Step wanted = Step::write;
    std::string suffix;
  } late;
  for (const Step step : {Step::create, Step::write, Step::close, Step::sync})
    for (const char* name : {"guide/a.md", "manifest.json"}) {
      late.wanted = step;
      late.suffix = name;
      TreeSettings settings = box.settings();
      settings.disk = &late;
      const Committed done = publish(settings, {{"guide/a.md", "2"}});
      REQUIRE(done.problem);
      CHECK(done.problem->error == std::string("cannot write out/") + name + ": the disk is full");
      CHECK(box.picture("out") == before);
      CHECK(box.names() == std::vector<std::string>{"guide", "out"});
    }
}
