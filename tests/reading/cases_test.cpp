#include <algorithm>
#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>

#include "support.h"

// Folders of bad input, each a small guide. What is expected stands in the input beside the offending line:
//   name: one: two   # expect: yaml-broken
// or, where a comment cannot follow, on the line above (`# expect next: rule`), or, where no comment can stand at all,
// in a file `expected` beside them, as `file:line rule`. A rule may name its column, `rule@9`; several are parted by
// commas. What is found and not expected fails as well.
using namespace reading_test;
using namespace saggar;
namespace fs = std::filesystem;

namespace {

using Expected = std::multiset<std::string>;  // "file:line rule" or "file:line:column rule"

std::string trimmedOf(std::string text) {
  const std::size_t begin = text.find_first_not_of(" \t\r");
  const std::size_t end = text.find_last_not_of(" \t\r");
  return begin == std::string::npos ? std::string() : text.substr(begin, end - begin + 1);
}

void addRules(Expected& expected, const std::string& file, std::size_t line, const std::string& rules) {
  std::istringstream list(rules);
  for (std::string rule; std::getline(list, rule, ',');) {
    rule = trimmedOf(rule);
    const std::size_t at = rule.find('@');
    const std::string column = at == std::string::npos ? std::string() : ":" + rule.substr(at + 1);
    expected.insert(file + ":" + std::to_string(line) + column + " " + rule.substr(0, at));
  }
}

Expected expectedIn(const fs::path& folder) {
  Expected expected;
  for (const auto& entry : fs::recursive_directory_iterator(folder)) {
    if (!entry.is_regular_file()) continue;
    const std::string name = fs::relative(entry.path(), folder).string();
    std::ifstream in(entry.path(), std::ios::binary);
    std::size_t number = 0;
    for (std::string line; std::getline(in, line);) {
      ++number;
      if (name == "expected") {
        if (const std::string one = trimmedOf(line); !one.empty() && one[0] != '#') expected.insert(one);
        continue;
      }
      for (const auto& [mark, further] : {std::pair("# expect: ", 0u), std::pair("# expect next: ", 1u)})
        if (const std::size_t at = line.find(mark); at != std::string::npos)
          addRules(expected, name, number + further, line.substr(at + std::string(mark).size()));
    }
  }
  return expected;
}

}  // namespace

TEST_CASE("folders of bad input give what they say, and nothing else") {
  std::vector<fs::path> folders;
  for (const auto& entry : fs::directory_iterator(fs::path(TEST_DATA) / "cases"))
    if (entry.is_directory()) folders.push_back(entry.path());
  std::sort(folders.begin(), folders.end());
  REQUIRE(folders.size() >= 15);
  for (const fs::path& folder : folders) {
    CAPTURE(folder.filename().string());
    Expected expected = expectedIn(folder);
    Read read;
    read.guide = reading::readGuide(source::DiskFiles(), folder.string(), read.findings,
                                    {.threads = 2, .progress = {}});
    for (std::size_t i = 0; i < read.all().size(); ++i) {
      checkWording(read.all()[i]);
      const source::Place place = read.place(i);
      const std::string rule(read.all()[i].rule.id());
      const std::string plain = std::string(place.path) + ":" + std::to_string(place.line) + " " + rule;
      const std::string exact = std::string(place.path) + ":" + std::to_string(place.line) + ":" +
                                std::to_string(place.column) + " " + rule;
      auto found = expected.find(exact);
      if (found == expected.end()) found = expected.find(plain);
      if (found == expected.end()) {
        FAIL_CHECK("not expected: " << exact << "\n"
                                    << diagnostics::asText(read.all()[i], read.guide.sources));
      } else {
        expected.erase(found);
      }
    }
    for (const std::string& one : expected) FAIL_CHECK("expected and not found: " << one);
    // Whatever a case is about, a record that has nothing to do with it is read.
    const records::Record* bystander = read.find(records::Kind::term, "bystander");
    REQUIRE(bystander != nullptr);
    CHECK_FALSE(bystander->broken);
    CHECK(bystander->text("means"_f) == "A word that stands in every case.");
  }
}
