// The pages of `--help` name all that there is.
#include "commands/help.h"

#include <doctest/doctest.h>

#include "commands/command.h"
#include "records/kind.h"

using namespace saggar;

TEST_CASE("every command has its page, and stands in the program's own") {
  for (const commands::CommandHelp& one : commands::commandHelp()) {
    CAPTURE(one.name);
    CHECK(commands::helpOf(one.name) == &one);
    CHECK(one.text.starts_with("saggar " + std::string(one.name)));
    CHECK(commands::programHelp().find("  saggar " + std::string(one.name)) != std::string_view::npos);
    for (std::size_t at = 0; at < one.text.size();) {
      const std::size_t end = one.text.find('\n', at);
      CHECK(end - at <= 90);
      at = end + 1;
    }
  }
  CHECK(commands::helpOf("umbrella") == nullptr);
}

TEST_CASE("the page of `blank` names every kind") {
  const std::string_view page = commands::helpOf("blank")->text;
  for (const auto& kind : records::kKindNames) CHECK(page.find(kind.one) != std::string_view::npos);
}

TEST_CASE("the example of every command is one that it understands") {
  source::MemoryFiles world;
  world.put("guide/guide.yaml", "guide: An example\n");
  world.put("guide/records.yaml", "- maker: wesperling\n  name: Wesperling & Sarnock\n");
  for (const commands::CommandHelp& one : commands::commandHelp()) {
    if (one.name == "make") continue;  // writes
    CAPTURE(one.example);
    std::string said;
    const commands::Environment environment{.files = world,
                                            .currentFolder = "guide",
                                            .out = [](std::string_view) {},
                                            .err = [&](std::string_view text) { said += text; },
                                            .readLine = [](std::string&) { return false; }};
    std::vector<std::string> words;
    bool quoted = false;
    std::string word;
    for (const char c : std::string(one.example) + ' ') {
      if (c == '"') {
        quoted = !quoted;
      } else if (c == ' ' && !quoted) {
        words.push_back(std::move(word));
        word.clear();
      } else {
        word += c;
      }
    }
    std::vector<const char*> all;
    for (const std::string& each : words) all.push_back(each.c_str());
    commands::run(environment, static_cast<int>(all.size()), all.data());
    CHECK(said.find("--help") == std::string::npos);
    CHECK(said.find("wants") == std::string::npos);
    CHECK(said.find("no command") == std::string::npos);
  }
}
