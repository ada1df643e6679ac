#pragma once

#include <cstdint>
#include <fstream>
#include <sstream>
#include <string>
#include <string_view>
#include <vector>

#include "dates/dates.h"

namespace saggar::dates::testing {

// Rows of a tab-separated file; lines that begin with # and the head line are left out.
inline std::vector<std::vector<std::string>> rowsOf(const std::string& name) {
  std::ifstream file(std::string(TEST_DATA) + "/" + name);
  std::vector<std::vector<std::string>> rows;
  std::string line;
  bool head = true;
  while (std::getline(file, line)) {
    if (line.empty() || line.front() == '#') continue;
    if (head) {
      head = false;
      continue;
    }
    std::vector<std::string> cells(1);
    for (const char c : line) {
      if (c == '\t') {
        cells.emplace_back();
      } else {
        cells.back() += c;
      }
    }
    rows.push_back(std::move(cells));
  }
  return rows;
}

// `1932-01-01..1932-12-31`.
inline std::string text(const Bounds& bounds) {
  return bounds.earliest.toString() + ".." + bounds.latest.toString();
}

inline std::string plainOf(std::string_view expression, const Options& options = {}) {
  const Result result = parse(expression, options);
  return result ? text(result->plain(options)) : "refused: " + result.error().sentence();
}

inline std::string wideOf(std::string_view expression, const Options& options = {}) {
  const Result result = parse(expression, options);
  return result ? text(result->wide(options)) : "refused: " + result.error().sentence();
}

// The same numbers on every run and machine.
class Random {
 public:
  explicit Random(std::uint64_t seed) : state_(seed) {}
  std::uint64_t next() {
    state_ += 0x9E3779B97F4A7C15ULL;
    std::uint64_t mixed = state_;
    mixed = (mixed ^ (mixed >> 30)) * 0xBF58476D1CE4E5B9ULL;
    mixed = (mixed ^ (mixed >> 27)) * 0x94D049BB133111EBULL;
    return mixed ^ (mixed >> 31);
  }
  int below(int limit) { return static_cast<int>(next() % static_cast<std::uint64_t>(limit)); }
  bool oneIn(int count) { return below(count) == 0; }
  template <class List>
  const auto& pick(const List& list) {
    return list[static_cast<std::size_t>(below(static_cast<int>(list.size())))];
  }

 private:
  std::uint64_t state_;
};

}  // namespace saggar::dates::testing
