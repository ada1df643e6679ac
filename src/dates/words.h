// Dates in the words that a guide prints: `by 1935`, `May 1932 to 5 June 1933`, `3rd quarter 1934`, `1932 or
// 1934`.
//
// Every word form means exactly one EDTF expression:
//   by D, D or earlier, no later than D     [..D]      from D, D or later, not before D   [D..]
//   before D                                [..day before D]   after D                    [day after D..]
//   A to B, from A to B                     A/B        between A and B                    [A..B]
//   until D                                 ../D       since D                            D/..
//   A or B, A, B or C                       [A,B,C]    A and B                            {A,B}
//   about D, circa D, c. D                  D~         perhaps D, probably D              D?
//   1930s 193X · May 1932 1932-05 · 5 May 1932 1932-05-05 · spring 1937 1937-21 · 3rd quarter 1934 1934-35
//   1st third 1934 1934-37 · first half of 1934 1934-40 · 45 BC -0044 · AD 409 0409 · 1937 to ? 1937/
// Capitals do not matter; `in`, `on`, `the` and `of` may stand where English has them. Internal to the room.
#pragma once

#include <array>
#include <initializer_list>
#include <string_view>

#include "dates/expression.h"
#include "dates/fault.h"

namespace saggar::dates {

class WordsReader {
 public:
  WordsReader(std::string_view text, const Options& options);

  bool read(Expression& out);

  // Where it got to at most; mistake None if the text is no try at words at all.
  const Fault& fault() const { return fault_; }

 private:
  struct Token {
    std::string_view text;
    bool comma;  // one followed it
  };
  struct Range {
    std::size_t begin, end;
    std::size_t size() const { return end - begin; }
  };
  enum class Kind { Date, Interval, Range, UpTo, Starting };
  static constexpr std::size_t kMostTokens = 40;

  bool readAll(Range all, Expression& out);
  bool readList(Range all, Shape shape, std::string_view joint, Expression& out);
  bool readPhrase(Range range, Piece& piece, Kind& kind);
  bool readInterval(Range left, Range right, Piece& piece);
  bool readOpenPhrase(Range range, Piece& piece, Kind& kind, bool& matched);
  bool readBoundary(Range range, bool before, Date& date);
  bool readDate(Range range, Date& date);
  bool readCore(Range range, Date& date);
  bool readOneToken(std::size_t index, Date& date);
  bool readSeason(Range range, Date& date, bool& matched);
  bool readQuarter(Range range, Date& date, bool& matched);
  bool readMonthDate(Range range, Date& date, bool& matched);
  bool readYear(Range range, Date& date);
  bool readEra(Range range, Date& date);
  bool endsYear(std::size_t index) const;
  bool checkOrder(const Piece& piece, Range range);

  bool is(std::size_t index, std::string_view word) const;
  bool isOneOf(std::size_t index, std::initializer_list<std::string_view> words) const;
  // How many words of the range the phrase takes up if the range begins with it, else 0.
  std::size_t wordsOf(std::string_view phrase, Range range) const;
  std::size_t find(Range range, std::string_view word) const;  // range.end if it is not there
  bool fail(Mistake mistake, Range range);
  std::size_t begin(std::size_t index) const;
  std::size_t end(std::size_t index) const;

  std::string_view text_;
  const Options& options_;
  std::array<Token, kMostTokens> tokens_;  // the first count_; the rest is left as it is, for speed
  std::size_t count_ = 0;
  Fault fault_;
};

}  // namespace saggar::dates
