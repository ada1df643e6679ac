#pragma once
#include <cstdint>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

// What one part of a code may be, as an author says it. A rule is a `written` form with such parts in it.
namespace saggar::codes {

// How many signs a part has: each number from 1 to 60 allowed or not.
class Counts {
 public:
  Counts() = default;
  Counts(int least, int most) {
    for (int n = least; n <= most; ++n) allow(n);
  }
  void allow(int n) { bits_ |= std::uint64_t{1} << n; }
  bool allows(std::size_t n) const { return n < 64 && (bits_ >> n & 1) != 0; }
  int least() const;
  int most() const;
  std::string inWords() const;  // "two or three", "two to five"
  bool operator==(const Counts&) const = default;

 private:
  std::uint64_t bits_ = 0;
};

constexpr int kMostSigns = 60;

struct DigitsPart {
  Counts counts;
};

struct LettersPart {
  Counts counts;
};

// `1 to 2880`: typed without leading zeros. `001 to 999`: always as many digits as here.
struct RangePart {
  std::int64_t low = 0;
  std::int64_t high = 0;
  int width = 0;  // 0: no leading zeros
};

struct TextPart {
  std::string text;
};

// What a row of a table asks of the record's own look: this feature is one of these values.
struct LookNeed {
  std::string feature;
  std::vector<std::string> values;
};

// What a row of a table says of the date. Several values are several readings.
struct DateFacts {
  std::vector<int> years, quarters, months, weeks, days;
  // The list for `year`, `quarter`, `month`, `week` or `day`; nullptr for any other word.
  std::vector<int>* of(std::string_view key);
  bool empty() const {
    return years.empty() && quarters.empty() && months.empty() && weeks.empty() && days.empty();
  }
};

struct TableRow {
  std::string text;
  std::string means;
  std::vector<LookNeed> look;
  DateFacts date;
};

struct TablePart {
  std::vector<TableRow> rows;
};

// One of the paths, from the record that carries the code, must give the text of this part; with `last`, must
// end in it (the part then has exactly that many signs).
struct PathPart {
  std::vector<std::string> paths;
  int last = 0;
  // What the paths are known to give: with it a number in a table is read in one way where there are several. Empty: not
  // known.
  std::vector<std::string> known{};
};

// `year 19YY`: the figures before the Ys are not typed. Several templates: several readings.
struct YearPart {
  std::vector<std::string> templates;
};

// The number of a month, quarter, ISO 8601 week or day of the month.
enum class Unit { quarter, month, week, day };
struct UnitPart {
  Unit unit = Unit::month;
  int low = 1;
  int high = 12;
  bool oneDigit = true;  // a number under ten may be typed with one digit
  bool padded = true;    // and may be typed with a nought before it
};

using PartSpec =
    std::variant<DigitsPart, LettersPart, RangePart, TextPart, TablePart, PathPart, YearPart, UnitPart>;

std::string_view unitName(Unit unit);
int unitMost(Unit unit);

// What is wanted, in words: "three digits", "a number from 1 to 2880", "one of A, B, C".
std::string wanted(const PartSpec& part);

// "one" to "twelve", figures beyond.
std::string numberWord(std::int64_t number);

}  // namespace saggar::codes
