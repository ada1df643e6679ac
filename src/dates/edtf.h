// The EDTF grammar itself, read in one pass from left to right. Internal to the room: outside it, see
// parse.h.
#pragma once

#include <string_view>

#include "dates/expression.h"
#include "dates/fault.h"

namespace saggar::dates {

class EdtfReader {
 public:
  EdtfReader(std::string_view text, const Options& options) : text_(text), options_(options) {}

  // The whole text as one expression.
  bool read(Expression& out);
  // The whole text as one date without a time of day.
  bool readDate(Date& out);

  const Fault& fault() const { return fault_; }

 private:
  bool readInterval(Expression& out);
  bool readSet(Expression& out);
  bool readMember(Piece& piece, bool first);
  bool readOneDate(Date& date, Level& level);
  bool readYear(Date& date, Level& level);
  bool readLongYear(Date& date, Level& level);
  bool readSignificant(Date& date, Level& level, int digits);
  bool readMonth(Date& date);
  bool readDay(Date& date);
  bool readTime(Date& date);
  bool readZone(TimeOfDay& time);
  bool readTwo(std::uint8_t& value, std::uint8_t& mask, Mistake width);
  bool readQualifiers(Date& date, Part part, bool left);
  bool checkOrder(const Piece& piece, std::size_t from);

  bool fail(Mistake mistake, std::size_t from, std::size_t to) {
    fault_ = {mistake, from, to};
    return false;
  }
  bool atEnd() const { return at_ == text_.size(); }
  char peek() const { return at_ < text_.size() ? text_[at_] : '\0'; }
  bool take(char c) { return peek() == c && !atEnd() ? (++at_, true) : false; }
  bool takeDots() { return text_.substr(at_, 2) == ".." ? (at_ += 2, true) : false; }

  std::string_view text_;
  const Options& options_;
  std::size_t at_ = 0;
  bool partQualified_ = false;  // the date being read has a qualifier that is not at its end
  Fault fault_;
};

}  // namespace saggar::dates
