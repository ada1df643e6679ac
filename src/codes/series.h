#pragma once
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "codes/part_language.h"
#include "dates/bounds.h"

// Numbers that were given out in order, and what is known of when: the first number of a date, numbers known
// to be of one, the last, and stretches of the book that are lost.
namespace saggar::codes {

// A number, and the series it counts in: the folded texts of the parts after `within`, empty where there are
// none.
struct CodeNumber {
  std::string series;
  std::int64_t number = 0;
  bool operator==(const CodeNumber&) const = default;
};

enum class SeriesTable { firstOf, onDate, lastOf };
std::string_view tableName(SeriesTable table);  // "first-of"

// A bound and the entry that gives it.
struct NumberBound {
  dates::Day day;
  SeriesTable table = SeriesTable::firstOf;
  std::int64_t number = 0;  // of the entry
  std::string_view code;    // … as typed
  bool byOrder = false;     // holds only because later numbers were not booked before earlier ones
};

struct NumberBounds {
  std::optional<NumberBound> earliest, latest;
  std::optional<std::int64_t> beyondLast;  // the number is above this one, which was the last
  bool clash() const { return earliest && latest && earliest->day > latest->day; }
};

struct MissingRange {
  std::int64_t first = 0;
  std::int64_t last = 0;
  std::string because;
};

class Series {
 public:
  struct Entry {
    CodeNumber at;
    SeriesTable table = SeriesTable::firstOf;
    dates::Bounds when;     // open or unknown ends bind nothing
    std::string code = {};  // as typed
  };

  Series() = default;
  struct Lost {
    std::string series;
    MissingRange range;
  };
  Series(const std::vector<Entry>& entries, const std::vector<Lost>& lost);

  // When a number was booked, as the tables have it:
  //   first-of {n: D}: n within D, higher ones not before its first day, lower ones before it;
  //   on-date {n: D}: n within D; last-of {n: D}: n by the end of D, and no number is above n;
  //   if `ordered`, also that a higher number was not booked before a lower one that one of these dates.
  // Of several bounds the tightest, of equal ones that of the nearest number.
  NumberBounds bounds(const CodeNumber& number, bool ordered) const;

  // The stretch that the number is lost in, or nullptr.
  const MissingRange* missing(const CodeNumber& number) const;

  // Every stretch that is lost, by its first number; the last number there was, where a table says it.
  std::span<const MissingRange> lostOf(const std::string& series) const;
  std::optional<std::int64_t> lastOf(const std::string& series) const;
  // What the tables date, by number.
  std::span<const Entry> entriesOf(const std::string& series) const;

  // How many numbers between the two (neither counted) are not lost: gaps in what is on record.
  std::int64_t presentBetween(const CodeNumber& low, std::int64_t high) const;

  // Pairs of entries that contradict each other: a higher number that is dated before a lower one, or stands
  // above a last one.
  struct Clash {
    Entry lower, higher;
  };
  std::vector<Clash> clashes(bool ordered) const;

  bool empty() const { return tables_.empty(); }

 private:
  // For each place in `entries`, which of those before it (from it on) bounds most tightly.
  struct Tightest {
    std::vector<std::size_t> below, above;
  };
  struct Table {
    std::vector<Entry> entries;      // by number
    std::vector<MissingRange> lost;  // by first number
    std::vector<std::size_t> reach;  // for each of `lost`, which one up to it reaches furthest
    std::optional<std::int64_t> last;
    Tightest strict, all;  // `first-of` alone; with what the order adds
  };
  std::unordered_map<std::string, Table> tables_;
};

// `1601-1688`, `1601 to 1688`, `1601`.
Parsed<MissingRange> parseMissing(std::string_view text);

// A number of up to 18 digits, and nothing else.
std::optional<std::int64_t> plainNumber(std::string_view text);

}  // namespace saggar::codes
