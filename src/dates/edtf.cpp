#include "dates/edtf.h"

#include <algorithm>

#include "base/text.h"

namespace saggar::dates {
namespace {

constexpr int kMostYearDigits = 20;
constexpr std::size_t kMostMembers = 10'000;

bool isDigitOrX(char c) {
  return base::isDigit(c) || c == 'X';
}
bool isQualifier(char c) {
  return c == '?' || c == '~' || c == '%';
}

// What may follow a time of day, if only to be refused with a better reason ('\0' at the end of the text).
bool isAfterTime(char c) {
  return isQualifier(c) || std::string_view("/,.]}").find(c) != std::string_view::npos || c == '\0';
}

void raise(Level& level, Level to) {
  level = std::max(level, to);
}

// Level 1 has X only at the right: one or two digits of a year alone, a whole month of a year, a whole day of
// a month, or both of a year.
Level levelOfMask(const Date& date) {
  if (!date.isMasked()) return Level::Zero;
  switch (date.precision) {
    case Precision::Year: return date.yearMask == 1 || date.yearMask == 3 ? Level::One : Level::Two;
    case Precision::Month:
      return date.yearMask == 0 ? (date.monthMask == 3 ? Level::One : Level::Two) : Level::Two;
    case Precision::Day:
      return date.yearMask == 0 && date.dayMask == 3 && (date.monthMask == 0 || date.monthMask == 3)
                 ? Level::One
                 : Level::Two;
    case Precision::Season: break;
  }
  return Level::Two;
}

std::size_t endOfRun(std::string_view text, std::size_t at) {
  while (at < text.size() && (base::isDigit(text[at]) || base::isLower(text[at]) || base::isUpper(text[at])))
    ++at;
  return at;
}

}  // namespace

bool EdtfReader::read(Expression& out) {
  if (atEnd()) return fail(Mistake::Empty, 0, 0);
  const char first = peek();
  if (first == '[' || first == '{') return readSet(out);
  return readInterval(out);
}

bool EdtfReader::readDate(Date& out) {
  Level level = Level::Zero;
  if (!readOneDate(out, level)) return false;
  if (out.hasTime) return fail(Mistake::TimeNotAlone, 0, at_);
  if (!atEnd()) return fail(Mistake::ExtraText, at_, text_.size());
  return true;
}

bool EdtfReader::readInterval(Expression& out) {
  Piece piece;
  Level level = Level::Zero;
  if (peek() == '/') {
    piece.fromEdge = Edge::Unknown;
  } else if (takeDots()) {
    if (peek() != '/') return fail(atEnd() ? Mistake::DotsAlone : Mistake::SetDots, 0, text_.size());
    piece.fromEdge = Edge::Open;
  } else {
    if (!readOneDate(piece.from, level)) return false;
    if (atEnd()) {
      out = Expression(Shape::Date, level, piece);
      return true;
    }
    if (peek() == ',') return fail(Mistake::ExtraText, at_, text_.size());
    if (peek() != '/') {
      return fail(text_.substr(at_) == ".." ? Mistake::SetDots : Mistake::ExtraText, at_, text_.size());
    }
  }
  const bool masked = piece.fromEdge == Edge::Dated && piece.from.isMasked();
  if (piece.from.hasTime) return fail(Mistake::TimeNotAlone, 0, at_);
  ++at_;  // the slash
  const std::size_t second = at_;
  piece.isRange = true;
  if (atEnd()) {
    piece.toEdge = Edge::Unknown;
  } else if (takeDots()) {
    piece.toEdge = Edge::Open;
  } else if (peek() == '/') {
    return fail(Mistake::SecondSlash, at_, at_ + 1);
  } else if (peek() == '[' || peek() == '{') {
    return fail(Mistake::SetInInterval, at_, text_.size());
  } else {
    if (!readOneDate(piece.to, level)) return false;
    if (piece.to.hasTime) return fail(Mistake::TimeNotAlone, second, at_);
  }
  if (!atEnd()) return fail(peek() == '/' ? Mistake::SecondSlash : Mistake::ExtraText, at_, text_.size());
  if (piece.fromEdge != Edge::Dated && piece.toEdge != Edge::Dated)
    return fail(Mistake::NoEnds, 0, text_.size());
  if (piece.fromEdge != Edge::Dated || piece.toEdge != Edge::Dated) raise(level, Level::One);
  if (masked || (piece.toEdge == Edge::Dated && piece.to.isMasked())) raise(level, Level::Two);
  if (!checkOrder(piece, 0)) return false;
  out = Expression(Shape::Interval, level, piece);
  return true;
}

bool EdtfReader::readSet(Expression& out) {
  const char open = text_[at_++];
  const char close = open == '[' ? ']' : '}';
  const char otherClose = open == '[' ? '}' : ']';
  if (take(close)) return fail(Mistake::SetEmpty, 0, at_);
  std::vector<Piece> members;  // only of a set with several
  Piece only;
  for (std::size_t count = 0;; ++count) {
    if (count == kMostMembers) return fail(Mistake::SetTooLong, at_, at_);
    Piece piece;
    if (!readMember(piece, count == 0)) return false;
    if (count == 0) only = piece;
    if (count == 1) members.push_back(only);
    if (count >= 1) members.push_back(piece);
    if (take(',')) continue;
    if (take(close)) break;
    if (peek() == otherClose) return fail(Mistake::SetMismatch, at_, at_ + 1);
    if (atEnd()) return fail(Mistake::SetNotClosed, 0, 1);
    if (peek() == ' ') return fail(Mistake::BlankInside, at_, at_ + 1);
    if (peek() == '/') return fail(Mistake::SetSlash, at_, at_ + 1);
    return fail(Mistake::ExtraText, at_, text_.size());
  }
  if (!atEnd()) return fail(Mistake::ExtraText, at_, text_.size());
  const Shape shape = open == '[' ? Shape::OneOf : Shape::AllOf;
  out = members.empty() ? Expression(shape, Level::Two, only)
                        : Expression(shape, Level::Two, std::move(members));
  return true;
}

bool EdtfReader::readMember(Piece& piece, bool first) {
  const std::size_t start = at_;
  if (atEnd()) return fail(Mistake::SetNotClosed, 0, 1);
  if (peek() == ' ') return fail(Mistake::BlankInside, at_, at_ + 1);
  if (peek() == ',' || peek() == ']' || peek() == '}') return fail(Mistake::SetEmptyMember, at_, at_ + 1);
  Level ignored = Level::Zero;
  if (takeDots()) {
    if (!first) return fail(Mistake::OpenDatePlace, start, at_);
    piece.isRange = true;
    piece.fromEdge = Edge::Open;
    if (!readOneDate(piece.to, ignored)) return false;
    if (peek() == '.') return fail(Mistake::SetDots, at_, std::min(at_ + 2, text_.size()));
  } else {
    if (!readOneDate(piece.from, ignored)) return false;
    if (takeDots()) {
      piece.isRange = true;
      if (peek() == ']' || peek() == '}') {
        piece.toEdge = Edge::Open;
      } else if (peek() == ',') {
        return fail(Mistake::OpenDatePlace, start, at_);
      } else if (!readOneDate(piece.to, ignored)) {
        return false;
      }
    }
  }
  if (piece.from.hasTime || piece.to.hasTime) return fail(Mistake::TimeNotAlone, start, at_);
  return checkOrder(piece, start);
}

bool EdtfReader::checkOrder(const Piece& piece, std::size_t from) {
  if (!piece.isRange || piece.fromEdge != Edge::Dated || piece.toEdge != Edge::Dated) return true;
  const Bounds bounds = piece.plain(options_);
  return bounds.latest >= bounds.earliest || fail(Mistake::EndBeforeStart, from, at_);
}

bool EdtfReader::readQualifiers(Date& date, Part part, bool left) {
  if (!isQualifier(peek())) return true;
  const char sign = text_[at_++];
  if (isQualifier(peek())) return fail(Mistake::QualifierTwice, at_ - 1, at_ + 1);
  const std::uint8_t value = sign == '?'   ? kUncertain
                             : sign == '~' ? kApproximate
                                           : kUncertain | kApproximate;
  if (left) {
    partQualified_ = true;
    date.qualify(part, value);
    return true;
  }
  // On the right it goes for all that stands to its left.
  date.qualify(Part::Year, value);
  if (part != Part::Year) date.qualify(Part::Month, value);
  if (part == Part::Day) date.qualify(Part::Day, value);
  if (peek() == '-') partQualified_ = true;
  return true;
}

bool EdtfReader::readOneDate(Date& date, Level& level) {
  const std::size_t start = at_;
  partQualified_ = false;
  if (!readQualifiers(date, Part::Year, true)) return false;
  const bool prefixed = peek() == 'Y';
  if (prefixed ? !readLongYear(date, level) : !readYear(date, level)) return false;
  const bool longYear = prefixed || date.significant != 0;
  if (!readQualifiers(date, Part::Year, false)) return false;
  if (peek() == '-') {
    if (longYear) return fail(Mistake::LongYearWithMonth, at_, endOfRun(text_, at_ + 1));
    ++at_;
    if (!readMonth(date)) return false;
    if (peek() == '-') {
      if (date.precision == Precision::Season)
        return fail(Mistake::SeasonWithDay, at_, endOfRun(text_, at_ + 1));
      ++at_;
      if (!readDay(date)) return false;
    }
  }
  if (date.isMasked() && date.precision == Precision::Day &&
      date.plain(Hemisphere::North).earliest.isUnknown()) {
    return fail(Mistake::NoRealDay, start, at_);
  }
  if (peek() == 'T' && !readTime(date)) return false;
  if (date.negative) raise(level, Level::One);
  if (date.precision == Precision::Season) raise(level, date.month <= 24 ? Level::One : Level::Two);
  if (date.yearQualifier != 0 || date.monthQualifier != 0 || date.dayQualifier != 0) {
    raise(level, partQualified_ ? Level::Two : Level::One);
  }
  raise(level, levelOfMask(date));
  return true;
}

bool EdtfReader::readYear(Date& date, Level& level) {
  const std::size_t start = at_;
  date.negative = take('-');
  const std::size_t digitsStart = at_;
  int value = 0;
  std::uint8_t mask = 0;
  for (; at_ - digitsStart < 4 && isDigitOrX(peek()); ++at_) {
    value *= 10;
    mask = static_cast<std::uint8_t>(mask << 1);
    if (peek() == 'X') {
      mask |= 1;
    } else {
      value += peek() - '0';
    }
  }
  const std::size_t digits = at_ - digitsStart;
  const std::size_t runEnd = endOfRun(text_, at_);
  if (digits == 0)
    return fail(peek() == 'x' ? Mistake::LowercaseX : Mistake::NotADate, start, std::max(runEnd, start + 1));
  if (digits < 4) {
    return fail(peek() == 'x' || peek() == 'u' ? Mistake::LowercaseX : Mistake::YearTooShort, start, runEnd);
  }
  if (isDigitOrX(peek())) return fail(Mistake::YearTooLong, start, runEnd);
  if (date.negative && value == 0 && mask == 0) return fail(Mistake::MinusZero, start, at_);
  date.yearLow = static_cast<std::uint64_t>(value);
  date.yearMask = mask & 15;
  if (peek() != 'S') return true;
  if (mask != 0) return fail(Mistake::ExtraText, at_, runEnd);
  int significant = 1;
  for (int rest = value; rest >= 10; rest /= 10) ++significant;
  return readSignificant(date, level, significant);
}

bool EdtfReader::readLongYear(Date& date, Level& level) {
  const std::size_t start = at_++;
  date.negative = take('-');
  const std::size_t digitsStart = at_;
  Int128 value = 0;
  for (; base::isDigit(peek()); ++at_) {
    if (at_ - digitsStart < kMostYearDigits) value = value * 10 + (peek() - '0');
  }
  auto digits = static_cast<int>(std::min<std::size_t>(at_ - digitsStart, kMostYearDigits + 1));
  if (digits == 0) return fail(Mistake::NotADate, start, std::max(endOfRun(text_, at_), at_));
  if (text_[digitsStart] == '0') return fail(Mistake::LongYearZero, start, at_);
  if (digits > kMostYearDigits) return fail(Mistake::LongYearDigits, start, at_);
  raise(level, Level::One);
  if (take('E')) {
    raise(level, Level::Two);
    const std::size_t exponentStart = at_;
    int exponent = 0;
    for (; base::isDigit(peek()); ++at_) exponent = std::min(exponent * 10 + (peek() - '0'), 1000);
    if (at_ == exponentStart || (text_[exponentStart] == '0')) return fail(Mistake::LongYearZero, start, at_);
    if (digits + exponent > kMostYearDigits) return fail(Mistake::LongYearDigits, start, at_);
    for (int i = 0; i < exponent; ++i) value *= 10;
    digits += exponent;
    date.exponent = static_cast<std::uint8_t>(exponent);
  } else if (digits < 5) {
    return fail(Mistake::LongYearShort, start, at_);
  }
  date.setMagnitude(value);
  return peek() != 'S' || readSignificant(date, level, digits);
}

bool EdtfReader::readSignificant(Date& date, Level& level, int digits) {
  const std::size_t start = at_++;
  int count = 0;
  for (; base::isDigit(peek()); ++at_) count = std::min(count * 10 + (peek() - '0'), 1000);
  if (count == 0 || text_[start + 1] == '0') return fail(Mistake::SignificantNone, start, at_);
  if (count > digits) return fail(Mistake::SignificantTooMany, start, at_);
  date.significant = static_cast<std::uint8_t>(count);
  raise(level, Level::Two);
  return true;
}

bool EdtfReader::readTwo(std::uint8_t& value, std::uint8_t& mask, Mistake width) {
  const std::size_t start = at_;
  for (; at_ - start < 2 && isDigitOrX(peek()); ++at_) {
    const bool unknown = peek() == 'X';
    value = static_cast<std::uint8_t>(value * 10 + (unknown ? 0 : peek() - '0'));
    mask = static_cast<std::uint8_t>(mask << 1 | (unknown ? 1 : 0));
  }
  const std::size_t runEnd = endOfRun(text_, at_);
  if (peek() == 'x' || peek() == 'u') return fail(Mistake::LowercaseX, start, runEnd);
  if (at_ - start < 2 || isDigitOrX(peek())) {
    return fail(width, start, std::max(runEnd, std::min(start + 1, text_.size())));
  }
  return true;
}

bool EdtfReader::readMonth(Date& date) {
  if (!readQualifiers(date, Part::Month, true)) return false;
  const std::size_t start = at_;
  std::uint8_t mask = 0;
  if (!readTwo(date.month, mask, Mistake::MonthWidth)) return false;
  date.monthMask = mask & 3;
  date.precision = Precision::Month;
  if (mask == 0) {
    if (date.month >= 21 && date.month <= 41) {
      date.precision = Precision::Season;
    } else if (date.month < 1 || date.month > 12) {
      return fail(Mistake::MonthRange, start, at_);
    }
  } else if ((mask & 2) == 0 && date.month >= 20) {
    return fail(Mistake::NoSuchMonth, start, at_);
  }
  return readQualifiers(date, Part::Month, false);
}

bool EdtfReader::readDay(Date& date) {
  if (!readQualifiers(date, Part::Day, true)) return false;
  const std::size_t start = at_;
  std::uint8_t mask = 0;
  if (!readTwo(date.day, mask, Mistake::DayWidth)) return false;
  date.dayMask = mask & 3;
  date.precision = Precision::Day;
  if (mask == 0 && (date.day < 1 || date.day > 31)) return fail(Mistake::DayRange, start, at_);
  if (!date.isMasked() && date.day > daysInMonth(date.year(), date.month)) {
    return fail(Mistake::DayNotInMonth, start, at_);
  }
  return readQualifiers(date, Part::Day, false);
}

bool EdtfReader::readTime(Date& date) {
  const std::size_t start = at_++;
  const std::size_t runEnd = std::max(endOfRun(text_, start), start + 1);
  if (date.precision != Precision::Day || date.isMasked()) return fail(Mistake::TimeOnPart, start, runEnd);
  if (date.yearQualifier != 0 || date.monthQualifier != 0 || date.dayQualifier != 0) {
    return fail(Mistake::QualifierWithTime, start, runEnd);
  }
  TimeOfDay time;
  const auto number = [&](std::uint8_t& value) {
    if (!base::isDigit(peek()) || at_ + 1 >= text_.size() || !base::isDigit(text_[at_ + 1])) return false;
    value = static_cast<std::uint8_t>((text_[at_] - '0') * 10 + (text_[at_ + 1] - '0'));
    at_ += 2;
    return true;
  };
  if (!number(time.hour) || !take(':') || !number(time.minute) || !take(':') || !number(time.second) ||
      base::isDigit(peek()) || peek() == '.' || peek() == ',') {
    return fail(Mistake::TimeForm, start, text_.size());
  }
  const bool leapSecond = time.second == 60 && time.minute == 59;
  if (time.hour > 23 || time.minute > 59 || (time.second > 59 && !leapSecond)) {
    return fail(Mistake::TimeRange, start, at_);
  }
  if (!readZone(time)) return false;
  if (isQualifier(peek())) return fail(Mistake::QualifierWithTime, at_, at_ + 1);
  date.hasTime = true;
  date.time = time;
  return true;
}

bool EdtfReader::readZone(TimeOfDay& time) {
  const std::size_t start = at_;
  const char sign = peek();
  if (sign == 'Z') {
    ++at_;
    time.zone = TimeOfDay::Zone::Utc;
    return isAfterTime(peek()) || fail(Mistake::ZoneForm, start, text_.size());
  }
  if (sign != '+' && sign != '-') return isAfterTime(sign) || fail(Mistake::ZoneForm, start, text_.size());
  ++at_;
  int parts[2] = {0, 0};
  int count = 0;
  for (; count < 2; ++count) {
    if (count == 1 && !take(':')) break;
    if (!base::isDigit(peek()) || at_ + 1 >= text_.size() || !base::isDigit(text_[at_ + 1])) {
      return fail(Mistake::ZoneForm, start, text_.size());
    }
    parts[count] = (text_[at_] - '0') * 10 + (text_[at_ + 1] - '0');
    at_ += 2;
  }
  const int minutes = parts[0] * 60 + parts[1];
  if (parts[1] > 59 || minutes > 14 * 60 || (sign == '-' && minutes == 0)) {
    return fail(Mistake::ZoneForm, start, at_);
  }
  time.zone = count == 2 ? TimeOfDay::Zone::HoursAndMinutes : TimeOfDay::Zone::Hours;
  time.offset = static_cast<std::int16_t>(sign == '-' ? -minutes : minutes);
  return true;
}

}  // namespace saggar::dates
