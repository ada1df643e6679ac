#include <doctest/doctest.h>
#include <signal.h>
#include <sys/wait.h>

#include <atomic>
#include <thread>

#include "publishing/manifest.h"
#include "sandbox.h"

using namespace saggar::publishing;

TEST_CASE("a second run waits, says so once, and then goes on from what the first made") {
  const Sandbox box;
  auto first = Publication::open(box.settings("out", {"guide"}));
  REQUIRE(first.publication);
  first.publication->add("guide", "guide/a.md", "a", {});
  std::atomic<int> told = 0;
  std::string words;
  std::atomic<bool> opened = false;
  std::thread second([&] {
    TreeSettings settings = box.settings("./out/", {"talks"});
    settings.onWait = [&](const std::string& text) {
      words = text;
      ++told;
    };
    auto waiting = Publication::open(settings);
    opened = true;
    if (!waiting.publication) return;
    waiting.publication->add("talks", "talks/t.md", "t", {});
    waiting.publication->commit();
  });
  for (int i = 0; i < 500 && told == 0; ++i) usleep(10000);
  CHECK(told == 1);
  usleep(50000);
  CHECK(!opened);
  CHECK(words == "another run of saggar (process " + std::to_string(getpid()) +
                     ") is writing ./out/; waiting until it is done");
  CHECK(!first.publication->commit().problem);
  first.publication.reset();
  second.join();
  CHECK(opened);
  CHECK(told == 1);
  CHECK(box.read("out/guide/a.md") == "a");
  CHECK(box.read("out/talks/t.md") == "t");
  CHECK(verify(box.path("out")).files == 2);
  CHECK(box.names() == std::vector<std::string>{"guide", "out"});
}

TEST_CASE("many runs at once: each whole, one after the other") {
  const Sandbox box;
  std::vector<pid_t> children;
  for (int run = 0; run < 12; ++run) {
    const pid_t child = fork();
    REQUIRE(child >= 0);
    if (child == 0) {
      int failures = 0;
      for (int round = 0; round < 4; ++round) {
        const std::string part = "part-" + std::to_string(run);
        const std::string text = part + std::to_string(round);
        failures +=
            publish(box.settings("deep/er/out", {part}), {{part + "/a.md", text}, {part + "/b.md", text}})
                    .problem
                ? 1
                : 0;
      }
      _exit(failures);
    }
    children.push_back(child);
  }
  for (const pid_t child : children) {
    int status = 0;
    waitpid(child, &status, 0);
    CHECK(WIFEXITED(status));
    CHECK(WEXITSTATUS(status) == 0);
  }
  CHECK(verify(box.path("deep/er/out")).good());
  CHECK(verify(box.path("deep/er/out")).files == 24);
  CHECK(box.read("deep/er/out/part-7/a.md") == "part-73");
  CHECK(box.names("deep/er") == std::vector<std::string>{"out"});
}

TEST_CASE("the kernel gives a dead run's lock back") {
  const Sandbox box;
  const pid_t child = fork();
  REQUIRE(child >= 0);
  if (child == 0) {
    auto opened = Publication::open(box.settings());
    opened.publication->add("guide", "guide/a.md", "half", {});
    box.write("ready", "");
    while (true) pause();
  }
  for (int i = 0; i < 500 && !box.there("ready"); ++i) usleep(10000);
  std::thread killer([&] {
    usleep(100000);
    kill(child, SIGKILL);
  });
  bool waited = false;
  TreeSettings settings = box.settings();
  settings.onWait = [&](const std::string&) { waited = true; };
  const Committed done = publish(settings, {{"guide/b.md", "b"}});
  killer.join();
  waitpid(child, nullptr, 0);
  CHECK(waited);
  CHECK(!done.problem);
  CHECK(!box.there("out/guide/a.md"));
  CHECK(box.names() == std::vector<std::string>{"guide", "out", "ready"});
}

TEST_CASE("files may be added from several threads") {
  const Sandbox box;
  auto opened = Publication::open(box.settings());
  REQUIRE(opened.publication);
  std::vector<std::thread> threads;
  for (int t = 0; t < 4; ++t)
    threads.emplace_back([&, t] {
      for (int i = 0; i < 50; ++i)
        opened.publication->add(
            "guide", "guide/" + std::to_string(i % 5) + "/" + std::to_string(t) + '-' + std::to_string(i),
            std::string(1000, static_cast<char>('a' + t)), {});
    });
  for (std::thread& thread : threads) thread.join();
  CHECK(!opened.publication->commit().problem);
  CHECK(verify(box.path("out")).good());
  CHECK(verify(box.path("out")).files == 200);
}
