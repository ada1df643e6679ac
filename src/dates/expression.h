// A date expression, read: what the author wrote about when something happened, and what it means in days.
//
// The problem: the same few characters are a year, a range, a choice or a doubt, and three readers want them:
// the proof (wide bounds, without doubted ends), the likely course of things (plain bounds) and print (the
// words). The choice: one small value that keeps what was written, and works the days out when asked, for the
// settings of the guide that asks. The cost: bounds are computed each time (some tens of nanoseconds); who
// needs them often keeps them.
//
// Sources: Library of Congress, Extended Date/Time Format (EDTF) Specification, 4 February 2019, levels 0
// to 2. The months of seasons are a convention, the specification gives none: spring March to May, summer
// June to August, autumn September to November, winter December to February of the next year; in the south
// each name stands for the season six months away that begins in the year written (autumn March to May,
// summer December to February). Quarters, thirds (four months) and halves are those of the calendar year.
#pragma once

#include <array>
#include <cstdint>
#include <memory>
#include <vector>

#include "dates/bounds.h"
#include "dates/length.h"

namespace saggar::dates {

enum class Hemisphere : std::uint8_t { North, South };

// The guide's settings.
struct Options {
  Length circa = Length::ofYears(5);  // how far `~` on a year moves an end outward
  Hemisphere hemisphere = Hemisphere::North;
};

enum class Precision : std::uint8_t { Year, Month, Day, Season };
enum class Part : std::uint8_t { Year, Month, Day };

// `?`, `~`; `%` is both.
enum Qualifier : std::uint8_t { kCertain = 0, kUncertain = 1, kApproximate = 2 };

// The time of day of a date-time; kept for printing, it moves no bound.
struct TimeOfDay {
  enum class Zone : std::uint8_t { None, Utc, Hours, HoursAndMinutes };
  std::uint8_t hour = 0, minute = 0, second = 0;
  Zone zone = Zone::None;
  std::int16_t offset = 0;  // minutes east of UTC
};

// One date as written: `1932`, `193X-05`, `?1932-~05`, `1932-21`, `Y17E7S2`. Made by the parser, which sees
// to it that at least one real day fits it.
struct Date {
  std::uint64_t yearLow = 0;  // magnitude of the year, X as 0: yearHigh * 2^64 + yearLow
  std::uint8_t yearHigh = 0;
  bool negative : 1 = false;
  bool hasTime : 1 = false;
  Precision precision : 2 = Precision::Year;
  std::uint8_t yearMask : 4 = 0;   // bit 3: the thousands are X … bit 0: the last digit is
  std::uint8_t monthMask : 2 = 0;  // bit 1: the tens are X
  std::uint8_t dayMask : 2 = 0;
  std::uint8_t yearQualifier : 2 = kCertain;
  std::uint8_t monthQualifier : 2 = kCertain;
  std::uint8_t dayQualifier : 2 = kCertain;
  std::uint8_t month = 0;  // 1 to 12, or the season 21 to 41; X as 0
  std::uint8_t day = 0;
  std::uint8_t significant = 0;  // of S: how many digits of the year count; 0 without S
  std::uint8_t exponent = 0;     // of E, as written; already in the year
  TimeOfDay time;

  static Date ofYear(Int128 year);
  static Date ofMonth(Int128 year, int month);
  static Date ofDay(Int128 year, int month, int day);

  Int128 magnitude() const { return (static_cast<Int128>(yearHigh) << 64) | yearLow; }
  Int128 year() const { return negative ? -magnitude() : magnitude(); }
  void setMagnitude(Int128 value);

  bool isMasked() const { return yearMask != 0 || monthMask != 0 || dayMask != 0; }
  // `?`, `~` of a part; kCertain of parts that are not written.
  std::uint8_t qualifier(Part part) const;
  void qualify(std::uint8_t with);             // every written part
  void qualify(Part part, std::uint8_t with);  // added to what is there
  bool isDoubted() const { return ((yearQualifier | monthQualifier | dayQualifier) & kUncertain) != 0; }
  // True if every written part has the same qualifier: that of the year.
  bool isEvenlyQualified() const;
  // One of 21 to 32, whose months are a convention; quarters and the like are exact.
  bool isSeason() const { return precision == Precision::Season && month <= 32; }

  Bounds plain(Hemisphere hemisphere) const;
  // `~` or `%` on the year moves both days outward by circa, on the month alone gives the whole year, on the
  // day alone the whole month; a date with X or S, a season, quarter, third or half stays as it is.
  Bounds wide(const Options& options) const;
};

// The first and last year that fit it.
struct YearRange {
  Int128 first, last;
};
YearRange yearsOf(const Date& date);

// The months of a season, quarter, third or half: the first month, and how many.
struct SeasonMonths {
  int first, count;
};
SeasonMonths monthsOfSeason(int code, Hemisphere hemisphere);

// What stands at one end of a range.
enum class Edge : std::uint8_t { Dated, Open, Unknown };  // `..` is open, a blank end unknown

// A date alone, or a range from one date to another: an interval, or a member of a set.
struct Piece {
  Date from, to;  // of a date alone `to` is not used
  Edge fromEdge = Edge::Dated, toEdge = Edge::Dated;
  bool isRange = false;

  static Piece ofDate(const Date& date);
  static Piece ofRange(const Date& from, const Date& to);
  static Piece upTo(const Date& to, Edge from = Edge::Open);
  static Piece startingAt(const Date& from, Edge to = Edge::Open);

  const Date& last() const { return isRange ? to : from; }
  Edge edge(End end) const { return end == End::Earliest ? fromEdge : toEdge; }
  // The date at that end, if there is one.
  const Date* dateAt(End end) const;
  bool isDoubted(End end) const;
  Bounds plain(const Options& options) const;
  Bounds wide(const Options& options) const;
};

enum class Shape : std::uint8_t { Date, Interval, OneOf, AllOf };
enum class Level : std::uint8_t { Zero, One, Two, Words };
std::string_view levelName(Level level);  // "0", "1", "2", "words"

enum class Reading : std::uint8_t { Plain, Wide };

class Expression {
 public:
  Expression() = default;  // the year 0000
  Expression(Shape shape, Level level, const Piece& piece) : first_(piece), shape_(shape), level_(level) {}
  Expression(Shape shape, Level level, std::vector<Piece> members);

  Shape shape() const { return shape_; }
  Level level() const { return level_; }  // of what was written; date words have a level of their own
  bool isSet() const { return shape_ == Shape::OneOf || shape_ == Shape::AllOf; }
  bool isAllOf() const { return shape_ == Shape::AllOf; }  // unfit for a moment

  // A date or interval is one piece; a set has as many as it has members, in the order written.
  std::size_t size() const { return members_ ? members_->size() : 1; }
  const Piece& piece(std::size_t index) const { return members_ ? (*members_)[index] : first_; }

  // The hull of all pieces. A member's own bounds are those of its piece.
  Bounds bounds(Reading reading, const Options& options = {}) const;
  Bounds plain(const Options& options = {}) const { return bounds(Reading::Plain, options); }
  Bounds wide(const Options& options = {}) const { return bounds(Reading::Wide, options); }
  std::vector<Bounds> memberBounds(Reading reading, const Options& options = {}) const;

  // The date that gives this end has `?` or `%`; in a set of several, any member has. Never of an end that is
  // open or unknown.
  bool isDoubted(End end) const;
  // A season of the year gives this end of the plain bounds.
  bool usesSeason(End end, const Options& options = {}) const;
  // `1932-35` is the third quarter of 1932, but an author may have meant 1932 to 1935: true of a year
  // followed by a code from 21 to 41 that would also end such a range.
  bool looksLikeYears() const;

 private:
  Piece first_;
  std::shared_ptr<const std::vector<Piece>> members_;  // of a set with several
  Shape shape_ = Shape::Date;
  Level level_ = Level::Zero;
};

// The expression read as something that lasted. The left date of an interval bounds the day it began, the
// right one the day it ended; a date alone, or a one-of set, bounds both with all it has; an all-of set began
// in its earliest member and ended in its latest. An end that is open or unknown binds nothing: -inf and
// +inf, or unknown.
SpanBounds spanOf(const Expression& expression, Reading reading, const Options& options = {});

// That end alone, as a date: of `1925/1951` 1925 or 1951; of anything but an interval all of it, which bounds both. Of
// an end that is open or unknown, also all of it: ask Piece::edge first.
Expression endOf(const Expression& expression, End end);

}  // namespace saggar::dates
