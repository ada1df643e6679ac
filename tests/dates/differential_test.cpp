// Our reading of EDTF against that of the npm package `edtf`, on expressions of levels 0 and 1, without
// seasons and without 29 February beside an X (which the package does not bound). It needs `npm install` in
// tests/.
#include <doctest/doctest.h>

#include <array>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>

#include <unistd.h>

#include "generator.h"

namespace saggar::dates::testing {
namespace {

std::string dayOf(Random& random) {
  const int year = random.oneIn(6) ? random.below(10000) : 1800 + random.below(250);
  std::string out = random.oneIn(12) && year != 0 ? "-" : "";
  appendNumber(out, year, 4);
  const int parts = random.below(3);
  for (int part = 0; part < parts; ++part) {
    out += '-';
    appendNumber(out, 1 + random.below(part == 0 ? 13 : 32), 2);
  }
  if (random.oneIn(4)) out += random.pick(std::string_view("?~%"));
  return out;
}

// X where level 1 has it: one or two digits of a year alone, the month, the day, or both.
std::string unspecified(Random& random) {
  std::string year = random.oneIn(5) ? "-" : "";
  appendNumber(year, 1000 + random.below(1100), 4);
  std::string month;
  appendNumber(month, 1 + random.below(12), 2);
  switch (random.below(5)) {
    case 0: return year.substr(0, year.size() - 1) + "X";
    case 1: return year.substr(0, year.size() - 2) + "XX";
    case 2: return year + "-XX";
    case 3: return year + "-" + month + "-XX";
    default: return year + "-XX-XX";
  }
}

std::string longYear(Random& random) {
  std::string out = random.oneIn(2) ? "Y-" : "Y";
  appendNumber(out, 10000 + random.below(200000));  // as far as the clock of the package goes
  return out;
}

std::string timed(Random& random) {
  std::string out = "19";
  const auto two = [&out](char before, int value) {
    if (before != '\0') out += before;
    appendNumber(out, value, 2);
  };
  two('\0', random.below(100));
  two('-', 1 + random.below(12));
  two('-', 1 + random.below(28));
  two('T', random.below(24));
  two(':', random.below(60));
  two(':', random.below(60));
  constexpr std::array<std::string_view, 5> kZones = {"", "Z", "+05", "-04", "+04:30"};
  return out += random.pick(kZones);
}

// An end of a range that lies in the same year as its start.
std::string sameYear(Random& random, const std::string& start) {
  std::string out = start.substr(0, start.front() == '-' ? 5 : 4);
  if (random.oneIn(3)) return out;
  out += '-';
  appendNumber(out, 1 + random.below(12), 2);
  return out;
}

std::string expression(Random& random) {
  const int form = random.below(10);
  if (form == 0) return unspecified(random);
  if (form == 1) return longYear(random);
  if (form == 2) return timed(random);
  const std::string date = dayOf(random);
  if (form == 3) return date + "/" + dayOf(random);
  if (form == 4) return date + "/" + sameYear(random, date);
  if (form == 5) return date + (random.oneIn(2) ? "/.." : "/");
  if (form == 6) return (random.oneIn(2) ? "../" : "/") + date;
  return date;
}

TEST_CASE("levels 0 and 1 agree with an implementation by other hands") {
  const auto folder =
      std::filesystem::temp_directory_path() / ("dates-differential-" + std::to_string(getpid()));
  std::filesystem::create_directories(folder);
  {
    std::ofstream list(folder / "list"), answers(folder / "answers");
    Random random(1889);
    for (int i = 0; i < 20'000; ++i) {
      const std::string text = expression(random);
      list << text << '\n';
      answers << readLine(text) << '\n';
    }
    REQUIRE(list.good());
    REQUIRE(answers.good());
  }
  // With SAGGAR_PROGRAM set, the program is asked in place of the library.
  const char* program = std::getenv("SAGGAR_PROGRAM");
  const std::string how = program != nullptr ? std::string("--program '") + program + "'"
                                             : "--answers '" + (folder / "answers").string() + "'";
  const std::string command = std::string("node '") + TEST_DATA + "/edtf-differential/compare.mjs' '" +
                              (folder / "list").string() + "' " + how + " 2>&1";
  std::string output;
  FILE* pipe = popen(command.c_str(), "r");
  REQUIRE(pipe != nullptr);
  std::array<char, 4096> buffer{};
  while (std::fgets(buffer.data(), buffer.size(), pipe) != nullptr) output += buffer.data();
  const int status = pclose(pipe);
  std::filesystem::remove_all(folder);
  INFO("needs node, and `npm install` in tests/");
  INFO(output);
  CHECK(status == 0);
}

}  // namespace
}  // namespace saggar::dates::testing
