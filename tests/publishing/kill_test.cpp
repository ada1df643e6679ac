#include <doctest/doctest.h>
#include <signal.h>
#include <sys/wait.h>

#include <atomic>
#include <chrono>
#include <random>

#include "publishing/manifest.h"
#include "sandbox.h"

// A build is killed, or fails, at every moment there is: the folder must hold the whole old tree or the whole
// new one, the author's files must be the very same, and the next run must find nothing in its way.

using namespace saggar::publishing;

namespace {

constexpr int kFiles = 60;

// Every file says which version it is of, but for a third that never change, and some that come and go.
Contents version(int number) {
  Contents files;
  for (int i = 0; i < kFiles; ++i) {
    const std::string name = "guide/part-" + std::to_string(i % 7) + "/page-" + std::to_string(i) + ".md";
    if (i % 10 == 9 && number % 2 == 1) continue;
    const std::string text = i % 3 == 0 ? std::string("same") : "version " + std::to_string(number);
    files[name] =
        text + '\n' + std::string(static_cast<std::size_t>(i) * 150, static_cast<char>('a' + i % 26));
  }
  files["guide/version.md"] = std::to_string(number);
  return files;
}

void addForeign(const Sandbox& box) {
  box.write("out/mine.txt", "mine");
  box.write("out/guide/part-1/mine too.txt", "mine too");
  box.write("out/photos/a/b.jpg", std::string(5000, 'j'));
  std::filesystem::create_symlink("photos", box.path("out/link"));
  std::filesystem::create_directories(box.path("out/empty"));
}

std::map<std::string, std::string> foreignPicture(const Sandbox& box) {
  std::map<std::string, std::string> out;  // by name, so that a difference is seen
  for (const char* path : {"out/mine.txt", "out/guide/part-1/mine too.txt", "out/photos/a/b.jpg", "out/link"})
    out.merge(box.picture(path));
  return out;
}

// True if the folder holds one version and nothing of any other. Cheap: no doctest assertion a file.
bool wholeTree(const Sandbox& box) {
  if (!verify(box.path("out")).good()) return false;
  const auto manifest = manifestFrom(box.read("out/manifest.json")).manifest;
  const Contents wanted = version(std::stoi(box.read("out/guide/version.md")));
  if (manifest->files.size() != wanted.size()) return false;
  std::size_t ours = 0;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(box.path("out/guide")))
    ours += entry.is_regular_file() && entry.path().extension() == ".md" ? 1 : 0;
  if (ours != wanted.size()) return false;
  for (const auto& [path, bytes] : wanted)
    if (!manifest->names(path) || box.read("out/" + path) != bytes) return false;
  return std::filesystem::is_directory(box.path("out/empty"));
}

bool nothingLeft(const Sandbox& box) {
  return box.names() == std::vector<std::string>{"guide", "out"};
}

// Counts the steps and does something at one of them; can also be a disk that cannot exchange two names.
class Counting : public Disk {
 public:
  Counting(int at, int error, bool canExchange) : at_(at), error_(error), canExchange_(canExchange) {}
  int before(Step step, const std::string&) override {
    if (steps++ == at_) {
      failed = step;
      if (error_ == 0) raise(SIGKILL);
      return error_;
    }
    return step == Step::exchange && !canExchange_ ? EINVAL : 0;
  }
  std::atomic<int> steps = 0;
  std::optional<Step> failed;

 private:
  int at_;
  int error_;
  bool canExchange_;
};

int inChild(const std::function<void()>& what) {
  const pid_t child = fork();
  REQUIRE(child >= 0);
  if (child == 0) {
    what();
    _exit(0);
  }
  int status = 0;
  waitpid(child, &status, 0);
  return status;
}

Committed build(const Sandbox& box, int number, Disk* disk = nullptr) {
  TreeSettings settings = box.settings();
  settings.disk = disk;
  settings.onWait = [](const std::string&) { FAIL("the lock of a dead run is still held"); };
  return publish(settings, version(number));
}

}  // namespace

TEST_CASE("killed at 200 random moments") {
  const Sandbox box(Sandbox::quick());
  REQUIRE(!build(box, 1).problem);
  addForeign(box);
  const auto foreign = foreignPicture(box);
  const auto begin = std::chrono::steady_clock::now();
  REQUIRE(!build(box, 2).problem);
  const auto once =
      std::chrono::duration_cast<std::chrono::microseconds>(std::chrono::steady_clock::now() - begin);

  std::mt19937 random(20240229);
  int leftovers = 0;
  int versions = 0;
  std::string last;
  for (int round = 0; round < 200; ++round) {
    const pid_t child = fork();
    REQUIRE(child >= 0);
    if (child == 0) {
      for (int number = 100 * round;; ++number) {
        TreeSettings settings = box.settings();
        settings.onWait = [](const std::string&) { _exit(3); };
        if (publish(settings, version(number)).problem) _exit(2);
      }
    }
    usleep(static_cast<useconds_t>(random() % static_cast<unsigned>(once.count() * 2 + 1)));
    kill(child, SIGKILL);
    int status = 0;
    waitpid(child, &status, 0);
    REQUIRE(WIFSIGNALED(status));
    REQUIRE(wholeTree(box));
    REQUIRE(foreignPicture(box) == foreign);
    leftovers += nothingLeft(box) ? 0 : 1;
    versions += box.read("out/guide/version.md") == last ? 0 : 1;
    last = box.read("out/guide/version.md");
    if (round % 20 != 19) continue;
    const Committed done = build(box, round);
    REQUIRE(!done.problem);
    CHECK(nothingLeft(box));
    CHECK(wholeTree(box));
    CHECK(foreignPicture(box) == foreign);
  }
  CHECK(leftovers > 50);  // or the moments were not in the midst of the work
  CHECK(versions > 20);
  MESSAGE("one build: " << once.count() << " us; killed in its midst: " << leftovers
                        << " of 200; trees seen: " << versions);
}

TEST_CASE(
    "killed at every step near the exchange and every few before, with disks that can exchange and that "
    "cannot") {
  for (const bool canExchange : {true, false}) {
    const Sandbox box(Sandbox::quick());
    REQUIRE(!build(box, 1).problem);
    addForeign(box);
    const auto foreign = foreignPicture(box);
    Counting counter(-1, 0, canExchange);
    REQUIRE(!build(box, 2, &counter).problem);
    REQUIRE(!build(box, 1).problem);
    REQUIRE(counter.steps > 200);
    int missing = 0;
    const int stride = canExchange ? 3 : 5;  // and each of the last, where the exchange is
    for (int at = 0; at<counter.steps; at += at + 140> counter.steps ? 1 : stride) {
      const int status = inChild([&] {
        Counting killer(at, 0, canExchange);
        build(box, 2, &killer);
      });
      REQUIRE(WIFSIGNALED(status));
      if (box.there("out")) {
        REQUIRE(wholeTree(box));
        REQUIRE(foreignPicture(box) == foreign);
      } else {
        ++missing;
      }
      TreeSettings nothing =
          box.settings("out", {"talks"});  // a run that makes something else: settles, carries over
      Committed done;
      {
        auto opened = Publication::open(nothing);
        REQUIRE(opened.publication);
        REQUIRE(wholeTree(box));
        REQUIRE(foreignPicture(box) == foreign);
      }
      REQUIRE(nothingLeft(box));
      REQUIRE(!build(box, 1).problem);
      REQUIRE(wholeTree(box));
    }
    CHECK((missing > 0) == !canExchange);
    CHECK(missing <= 1);
  }
}

TEST_CASE("steps that fail: an error in words, the old tree as it was") {
  for (const int error : {ENOSPC, EACCES, EIO}) {
    const bool canExchange = error != EIO;
    const Sandbox box(Sandbox::quick());
    REQUIRE(!build(box, 1).problem);
    addForeign(box);
    // Where a second name is forbidden, a copy is made: all is the same but the inode.
    const auto foreignNow = [&] {
      auto now = foreignPicture(box);
      if (error == EACCES)
        for (auto& [path, text] : now)
          text.erase(text.find(' '), text.find(' ', text.find(' ') + 1) - text.find(' '));
      return now;
    };
    const auto foreign = foreignNow();
    Counting counter(-1, 0, canExchange);
    REQUIRE(!build(box, 2, &counter).problem);
    REQUIRE(!build(box, 1).problem);
    int refused = 0;
    for (int at = 0; at<counter.steps; at += at + 140> counter.steps ? 1 : 7) {
      const auto before = box.picture("out");
      Counting breaker(at, error, canExchange);
      const Committed done = build(box, 2, &breaker);
      REQUIRE(breaker.failed);
      REQUIRE(wholeTree(box));
      REQUIRE(foreignNow() == foreign);
      if (done.problem) {
        ++refused;
        const auto after = box.picture("out");
        // Going there and back again (two renames) leaves all but the folder's own time.
        REQUIRE(after == before);
        REQUIRE(done.problem->error.find(reasonInWords(error)) != std::string::npos);
        REQUIRE(!done.problem->hint.empty());
        REQUIRE(!done.changed);
        REQUIRE(box.read("out/guide/version.md") == "1");
      } else if (box.read("out/guide/version.md") == "2") {
        REQUIRE(done.changed);
      } else {
        FAIL("no problem told, and nothing made");
      }
      if (*breaker.failed != Step::remove) REQUIRE(nothingLeft(box));
      REQUIRE(!build(box, 1).problem);
      REQUIRE(nothingLeft(box));
      REQUIRE(wholeTree(box));
    }
    CHECK(refused > 20);
  }
}

TEST_CASE("a first build that is killed leaves no folder; one that fails, nothing at all") {
  const Sandbox box(Sandbox::quick());
  Counting counter(-1, 0, true);
  REQUIRE(!build(box, 1, &counter).problem);
  std::filesystem::remove_all(box.path("out"));
  for (int at = 0; at < counter.steps; at += 9) {
    Counting breaker(at, ENOSPC, true);
    const Committed done = build(box, 1, &breaker);
    if (done.problem) {
      REQUIRE(box.names() == std::vector<std::string>{"guide"});
    }
    std::filesystem::remove_all(box.path("out"));
    inChild([&] {
      Counting killer(at, 0, true);
      build(box, 1, &killer);
    });
    if (box.there("out")) {
      REQUIRE(verify(box.path("out")).good());
    }
    REQUIRE(!build(box, 2).problem);
    REQUIRE(verify(box.path("out")).good());
    REQUIRE(nothingLeft(box));
    std::filesystem::remove_all(box.path("out"));
  }
}

TEST_CASE("what the author does between a killed run and the next one stands") {
  const Sandbox box;
  class DiesWhileClearing : public Disk {
   public:
    int before(Step step, const std::string&) override {
      exchanged_ = exchanged_ || step == Step::exchange;
      if (exchanged_ && step == Step::remove && ++removed_ == 3) raise(SIGKILL);
      return 0;
    }

   private:
    bool exchanged_ = false;
    int removed_ = 0;
  };
  REQUIRE(!build(box, 1).problem);
  addForeign(box);
  inChild([&] {
    DiesWhileClearing disk;
    build(box, 2, &disk);
  });
  REQUIRE(wholeTree(box));
  CHECK(!nothingLeft(box));
  box.write("edited", "mine, later");
  std::filesystem::rename(box.path("edited"), box.path("out/mine.txt"));
  box.write("out/new.txt", "new");
  const Committed done = build(box, 3);
  REQUIRE(!done.problem);
  CHECK(done.notices.empty());
  CHECK(box.read("out/mine.txt") == "mine, later");
  CHECK(box.read("out/new.txt") == "new");
  CHECK(box.read("out/photos/a/b.jpg").size() == 5000);
  CHECK(wholeTree(box));
  CHECK(nothingLeft(box));
}
