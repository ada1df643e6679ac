#include "dates/print.h"

namespace saggar::dates {
namespace {

constexpr std::string_view kSigns[] = {"", "?", "~", "%"};

void appendTwo(std::string& out, int value, std::uint8_t mask) {
  out += (mask & 2) != 0 ? 'X' : static_cast<char>('0' + value / 10);
  out += (mask & 1) != 0 ? 'X' : static_cast<char>('0' + value % 10);
}

void appendYear(std::string& out, const Date& date) {
  Int128 magnitude = date.magnitude();
  const bool prefixed = magnitude > 9999 || date.exponent != 0;
  if (prefixed) out += 'Y';
  if (date.negative) out += '-';
  for (int i = 0; i < date.exponent; ++i) magnitude /= 10;
  const std::size_t start = out.size();
  appendNumber(out, magnitude, prefixed ? 1 : 4);
  for (std::size_t place = 0; place < 4; ++place) {
    if ((date.yearMask >> place & 1) != 0) out[start + 3 - place] = 'X';
  }
  if (date.exponent != 0) {
    out += 'E';
    appendNumber(out, date.exponent);
  }
  if (date.significant != 0) {
    out += 'S';
    appendNumber(out, date.significant);
  }
}

void appendTime(std::string& out, const TimeOfDay& time) {
  const auto two = [&out](char before, int value) {
    out += before;
    appendTwo(out, value, 0);
  };
  two('T', time.hour);
  two(':', time.minute);
  two(':', time.second);
  if (time.zone == TimeOfDay::Zone::None) return;
  if (time.zone == TimeOfDay::Zone::Utc) {
    out += 'Z';
    return;
  }
  const int offset = time.offset < 0 ? -time.offset : time.offset;
  two(time.offset < 0 ? '-' : '+', offset / 60);
  if (time.zone == TimeOfDay::Zone::HoursAndMinutes) two(':', offset % 60);
}

void appendDate(std::string& out, const Date& date) {
  const int parts = date.precision == Precision::Year ? 1 : date.precision == Precision::Day ? 3 : 2;
  const std::uint8_t signs[] = {date.yearQualifier, date.monthQualifier, date.dayQualifier};
  // The leading parts that share one sign take it once, on the right of the last of them.
  int shared = 1;
  while (shared < parts && signs[shared] == signs[0]) ++shared;
  for (int part = 0; part < parts; ++part) {
    if (part > 0) out += '-';
    if (part >= shared) out += kSigns[signs[part]];
    if (part == 0) appendYear(out, date);
    if (part == 1) appendTwo(out, date.month, date.monthMask);
    if (part == 2) appendTwo(out, date.day, date.dayMask);
    if (part == shared - 1) out += kSigns[signs[0]];
  }
  if (date.hasTime) appendTime(out, date.time);
}

void appendEdge(std::string& out, const Piece& piece, End end) {
  if (const Date* date = piece.dateAt(end)) {
    appendDate(out, *date);
  } else if (piece.edge(end) == Edge::Open) {
    out += "..";
  }
}

void appendMember(std::string& out, const Piece& piece) {
  if (const Date* from = piece.dateAt(End::Earliest)) appendDate(out, *from);
  if (!piece.isRange) return;
  out += "..";
  if (const Date* to = piece.dateAt(End::Latest)) appendDate(out, *to);
}

}  // namespace

std::string canonical(const Date& date) {
  std::string out;
  appendDate(out, date);
  return out;
}

std::string canonical(const Expression& expression) {
  std::string out;
  if (!expression.isSet()) {
    const Piece& piece = expression.piece(0);
    appendEdge(out, piece, End::Earliest);
    if (!piece.isRange) return out;
    out += '/';
    appendEdge(out, piece, End::Latest);
    return out;
  }
  out += expression.isAllOf() ? '{' : '[';
  for (std::size_t i = 0; i < expression.size(); ++i) {
    if (i > 0) out += ',';
    appendMember(out, expression.piece(i));
  }
  out += expression.isAllOf() ? '}' : ']';
  return out;
}

}  // namespace saggar::dates
