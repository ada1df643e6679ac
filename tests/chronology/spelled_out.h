#pragma once
#include <cstdint>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

// SEMANTICS, "Facts, conflicts, proofs", points 1 to 3, and the striking out of members, spelled out for the tests alone: every smallest set that cannot
// be true by trying, all pairs of points, facts taken one by one. It shares no code with what it checks.
namespace saggar::chronology::spelled {

enum : std::uint8_t { kWide = 1, kPlain = 2, kBoth = 3 };

// Point `to` is at most so many days after point `from`. Point 0 is the day 0.
struct Step {
  int from = 0, to = 0;
  long days = 0;
  std::uint8_t use = kBoth;
};

struct Days {
  std::optional<long> first, last;  // none: open
  friend bool operator==(const Days&, const Days&) = default;
};

// Of a date that is one of several.
struct Member {
  Days wide, plain;
  bool struckOut = false;
};

// A fact, as the page calls it.
struct Statement {
  std::string what;  // "treatment:t1 introduced"
  long place = 0;    // rises with file and line; no two have the same
  int standing = 4;  // 0 documented … 4 uncited
  bool doubted = false;
  bool disputed = false;  // another source says otherwise, and it is not set aside
  bool offered = false;   // "on offer then": gives way to any other
  std::vector<Step> steps;
  // Of a date that is one of several: its point, and what it can be. Its steps are those of the hull.
  int at = 0;
  std::vector<Member> members;

  bool proves() const { return standing == 0 && !doubted && !disputed && !offered; }
};

struct Told {
  int points = 1;
  std::vector<Statement> statements;
  std::vector<Step> always;  // designed ≤ introduced: needs no evidence
};

struct Answer {
  std::vector<Days> proven, likely, tests;  // of each point
  std::vector<Statement> proving;           // what proves, without its open bounds
  std::vector<Statement> taken;             // what the likely days follow from
  std::set<long> disputed;                  // places
  // Disputed, or left out, though doubted or ready to give way to any other.
  std::set<long> clashing;
  std::map<long, std::vector<Member>>
      oneOf;       // what is left of each date that is one of several, by its place
  int rounds = 0;  // in which members were struck out
};

// Nothing if the facts are in such a tangle that trying takes too long.
std::optional<Answer> spelledOut(Told told);

// The days of a point by these statements alone; nothing if they cannot all be true.
std::optional<std::vector<Days>> daysBy(const Told& told, const std::vector<const Statement*>& statements,
                                        std::uint8_t use);

}  // namespace saggar::chronology::spelled
