#include "dates/expression.h"

#include <algorithm>
#include <cassert>

namespace saggar::dates {

Date Date::ofYear(Int128 year) {
  Date date;
  date.negative = year < 0;
  date.setMagnitude(year < 0 ? -year : year);
  return date;
}

Date Date::ofMonth(Int128 year, int month) {
  Date date = ofYear(year);
  date.precision = month > 12 ? Precision::Season : Precision::Month;
  date.month = static_cast<std::uint8_t>(month);
  return date;
}

Date Date::ofDay(Int128 year, int month, int day) {
  Date date = ofMonth(year, month);
  date.precision = Precision::Day;
  date.day = static_cast<std::uint8_t>(day);
  return date;
}

void Date::setMagnitude(Int128 value) {
  yearLow = static_cast<std::uint64_t>(value);
  yearHigh = static_cast<std::uint8_t>(value >> 64);
}

std::uint8_t Date::qualifier(Part part) const {
  return part == Part::Year ? yearQualifier : part == Part::Month ? monthQualifier : dayQualifier;
}

void Date::qualify(Part part, std::uint8_t with) {
  if (part == Part::Year) {
    yearQualifier = (yearQualifier | with) & 3;
  } else if (part == Part::Month) {
    monthQualifier = (monthQualifier | with) & 3;
  } else {
    dayQualifier = (dayQualifier | with) & 3;
  }
}

void Date::qualify(std::uint8_t with) {
  qualify(Part::Year, with);
  if (precision != Precision::Year) qualify(Part::Month, with);
  if (precision == Precision::Day) qualify(Part::Day, with);
}

bool Date::isEvenlyQualified() const {
  return (precision == Precision::Year || monthQualifier == yearQualifier) &&
         (precision != Precision::Day || dayQualifier == yearQualifier);
}

Piece Piece::ofDate(const Date& date) {
  Piece piece;
  piece.from = date;
  return piece;
}

Piece Piece::ofRange(const Date& from, const Date& to) {
  Piece piece = ofDate(from);
  piece.to = to;
  piece.isRange = true;
  return piece;
}

Piece Piece::upTo(const Date& to, Edge from) {
  Piece piece = ofRange(Date(), to);
  piece.fromEdge = from;
  return piece;
}

Piece Piece::startingAt(const Date& from, Edge to) {
  Piece piece = ofRange(from, Date());
  piece.toEdge = to;
  return piece;
}

const Date* Piece::dateAt(End end) const {
  if (!isRange) return &from;
  if (edge(end) != Edge::Dated) return nullptr;
  return end == End::Earliest ? &from : &to;
}

bool Piece::isDoubted(End end) const {
  const Date* date = dateAt(end);
  return date != nullptr && date->isDoubted();
}

std::string_view levelName(Level level) {
  constexpr std::array<std::string_view, 4> kNames = {"0", "1", "2", "words"};
  return kNames[static_cast<std::size_t>(level)];
}

Expression::Expression(Shape shape, Level level, std::vector<Piece> members) : shape_(shape), level_(level) {
  assert(!members.empty());
  first_ = members.front();
  if (members.size() > 1) members_ = std::make_shared<const std::vector<Piece>>(std::move(members));
}

bool Expression::isDoubted(End end) const {
  if (!members_) return first_.isDoubted(end);
  const Bounds hull = bounds(Reading::Plain);
  if (!hull.at(end).isFinite()) return false;
  return std::any_of(members_->begin(), members_->end(), [](const Piece& member) {
    return member.isDoubted(End::Earliest) || member.isDoubted(End::Latest);
  });
}

bool Expression::usesSeason(End end, const Options& options) const {
  const Day day = plain(options).at(end);
  for (std::size_t i = 0; i < size(); ++i) {
    const Date* date = piece(i).dateAt(end);
    if (date != nullptr && date->isSeason() && date->plain(options.hemisphere).at(end) == day) return true;
  }
  return false;
}

bool Expression::looksLikeYears() const {
  if (shape_ != Shape::Date || level_ == Level::Words || first_.from.precision != Precision::Season)
    return false;
  const Date& date = first_.from;
  return !date.negative && !date.isMasked() && date.magnitude() >= 1000 && date.magnitude() <= 9999 &&
         date.month > date.magnitude() % 100;
}

Expression endOf(const Expression& expression, End end) {
  if (expression.shape() != Shape::Interval) return expression;
  const Date* date = expression.piece(0).dateAt(end);
  return date != nullptr ? Expression(Shape::Date, expression.level(), Piece::ofDate(*date)) : expression;
}

}  // namespace saggar::dates
