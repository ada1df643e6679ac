#pragma once
#include <cstdint>
#include <optional>
#include <set>
#include <string>
#include <vector>

// SEMANTICS, "Facts, conflicts, proofs", points 1 to 3, spelled out for the tests alone: every smallest set that cannot
// be true by trying, all pairs of points, facts taken one by one. It shares no code with what it checks.
namespace saggar::chronology::spelled {

enum : std::uint8_t { kWide = 1, kPlain = 2, kBoth = 3 };

// Point `to` is at most so many days after point `from`. Point 0 is the day 0.
struct Step {
  int from = 0, to = 0;
  long days = 0;
  std::uint8_t use = kBoth;
};

// A fact, as the page calls it.
struct Statement {
  std::string what;  // "treatment:t1 introduced"
  long place = 0;    // rises with file and line; no two have the same
  int standing = 4;  // 0 documented … 4 uncited
  bool doubted = false;
  bool offered = false;  // "on offer then": gives way to any other
  std::vector<Step> steps;

  bool proves() const { return standing == 0 && !doubted && !offered; }
};

struct Told {
  int points = 1;
  std::vector<Statement> statements;
  std::vector<Step> always;  // designed ≤ introduced: needs no evidence
};

struct Days {
  std::optional<long> first, last;  // none: open
  friend bool operator==(const Days&, const Days&) = default;
};

struct Answer {
  std::vector<Days> proven, likely, tests;  // of each point
  std::vector<Statement> proving;           // what proves, without its open bounds
  std::vector<Statement> taken;             // what the likely days follow from
  std::set<long> disputed;                  // places
  // Disputed, or left out, though doubted or ready to give way to any other.
  std::set<long> clashing;
};

// Nothing if the facts are in such a tangle that trying takes too long.
std::optional<Answer> spelledOut(const Told& told);

// The days of a point by these statements alone; nothing if they cannot all be true.
std::optional<std::vector<Days>> daysBy(const Told& told, const std::vector<const Statement*>& statements,
                                        std::uint8_t use);

}  // namespace saggar::chronology::spelled
