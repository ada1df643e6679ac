// Phrases and lists: what stands round a date. The dates themselves are in word_dates.cpp.
#include "dates/words.h"

#include <algorithm>

#include "base/text.h"
#include "dates/vocabulary.h"

namespace saggar::dates {
namespace {

// The shortest date that begins or ends on that day.
Date dateThatEnds(Day day) {
  const Civil on = day.civil();
  if (on.month == 12 && on.day == 31) return Date::ofYear(on.year);
  if (on.day == daysInMonth(on.year, on.month)) return Date::ofMonth(on.year, on.month);
  return Date::ofDay(on.year, on.month, on.day);
}
Date dateThatBegins(Day day) {
  const Civil on = day.civil();
  if (on.month == 1 && on.day == 1) return Date::ofYear(on.year);
  if (on.day == 1) return Date::ofMonth(on.year, on.month);
  return Date::ofDay(on.year, on.month, on.day);
}

}  // namespace

WordsReader::WordsReader(std::string_view text, const Options& options) : text_(text), options_(options) {
  const auto add = [this](std::string_view token) {
    const bool comma = token.size() > 1 && token.back() == ',';
    if (comma) token.remove_suffix(1);
    if (count_ < kMostTokens) tokens_[count_] = {token, comma};
    ++count_;
  };
  std::size_t at = 0;
  while (at < text.size() && count_ <= kMostTokens) {
    if (text[at] == ' ') {
      ++at;
      continue;
    }
    const std::size_t stop = std::min(text.find(' ', at), text.size());
    std::string_view token = text.substr(at, stop - at);
    // c.1932, ca.1932, c1932
    for (const std::string_view circa : {"ca.", "c.", "ca", "c"}) {
      if (lower(token.front()) != 'c') break;
      if (token.size() > circa.size() && equalIgnoringCase(token.substr(0, circa.size()), circa) &&
          base::isDigit(token[circa.size()])) {
        add(token.substr(0, circa.size()));
        token.remove_prefix(circa.size());
        break;
      }
    }
    add(token);
    at = stop;
  }
}

bool WordsReader::is(std::size_t index, std::string_view word) const {
  return index < count_ && equalIgnoringCase(tokens_[index].text, word);
}

bool WordsReader::isOneOf(std::size_t index, std::initializer_list<std::string_view> words) const {
  return std::any_of(words.begin(), words.end(), [&](std::string_view word) { return is(index, word); });
}

std::size_t WordsReader::wordsOf(std::string_view phrase, Range range) const {
  if (lower(tokens_[range.begin].text.front()) != phrase.front()) return 0;
  std::size_t words = 0;
  while (!phrase.empty()) {
    const std::size_t length = std::min(phrase.find(' '), phrase.size());
    if (words == range.size() || !is(range.begin + words, phrase.substr(0, length))) return 0;
    ++words;
    phrase.remove_prefix(std::min(length + 1, phrase.size()));
  }
  return words;
}

std::size_t WordsReader::find(Range range, std::string_view word) const {
  std::size_t index = range.begin;
  while (index < range.end && !is(index, word)) ++index;
  return index;
}

std::size_t WordsReader::begin(std::size_t index) const {
  return static_cast<std::size_t>(tokens_[index].text.data() - text_.data());
}
std::size_t WordsReader::end(std::size_t index) const {
  return begin(index) + tokens_[index].text.size();
}

bool WordsReader::fail(Mistake mistake, Range range) {
  if (range.size() == 0) {
    fault_ = {mistake, text_.size(), text_.size()};
  } else {
    fault_ = {mistake, begin(range.begin), end(range.end - 1)};
  }
  return false;
}

bool WordsReader::read(Expression& out) {
  if (count_ > kMostTokens) {
    fault_ = {Mistake::TooLong, 0, text_.size()};
    return false;
  }
  return count_ > 0 && readAll({0, count_}, out);
}

bool WordsReader::readAll(Range all, Expression& out) {
  if (is(all.begin, "between")) {
    const std::size_t joint = find(all, "and");
    Piece piece;
    if (joint == all.end) return fail(Mistake::PhraseUnfinished, all);
    if (!readInterval({all.begin + 1, joint}, {joint + 1, all.end}, piece)) return false;
    if (piece.fromEdge != Edge::Dated || piece.toEdge != Edge::Dated)
      return fail(Mistake::PhraseUnfinished, all);
    out = Expression(Shape::OneOf, Level::Words, piece);
    return true;
  }
  const std::size_t orAt = find(all, "or");
  if (orAt != all.end) {
    const bool later = orAt + 2 == all.end && isOneOf(orAt + 1, {"later", "after"});
    const bool earlier = orAt + 2 == all.end && isOneOf(orAt + 1, {"earlier", "before"});
    if (!later && !earlier) return readList(all, Shape::OneOf, "or", out);
    Date date;
    if (!readDate({all.begin, orAt}, date)) return false;
    out = Expression(Shape::OneOf, Level::Words, later ? Piece::startingAt(date) : Piece::upTo(date));
    return true;
  }
  if (find(all, "and") != all.end) return readList(all, Shape::AllOf, "and", out);
  Piece piece;
  Kind kind = Kind::Date;
  if (!readPhrase(all, piece, kind)) return false;
  const Shape shape = kind == Kind::Date       ? Shape::Date
                      : kind == Kind::Interval ? Shape::Interval
                                               : Shape::OneOf;
  out = Expression(shape, Level::Words, piece);
  return true;
}

// A comma after a year parts two members of a list; in `May 5, 1932` it does not.
bool WordsReader::endsYear(std::size_t index) const {
  return hasDigits(tokens_[index].text, 3) || isOneOf(index, {"bc", "bce", "ad", "ce"}) ||
         (index > 0 && isOneOf(index - 1, {"ad", "year"}));
}

bool WordsReader::readList(Range all, Shape shape, std::string_view joint, Expression& out) {
  std::vector<Piece> members;
  std::size_t start = all.begin;
  for (std::size_t i = all.begin; i <= all.end; ++i) {
    const bool last = i == all.end;
    const bool comma = !last && tokens_[i].comma && endsYear(i);
    if (!last && !comma && !is(i, joint)) continue;
    const Range part{start, comma ? i + 1 : i};
    start = i + 1;
    if (part.size() == 0) {
      if (!last && is(i, joint) && i > all.begin && tokens_[i - 1].comma) continue;  // `1932, or 1934`
      return fail(Mistake::PhraseUnfinished, all);
    }
    Piece piece;
    Kind kind = Kind::Date;
    if (!readPhrase(part, piece, kind)) return false;
    const bool first = members.empty();
    if ((kind == Kind::UpTo && !first) || (kind == Kind::Starting && !last) ||
        (kind == Kind::Interval && (piece.fromEdge != Edge::Dated || piece.toEdge != Edge::Dated))) {
      return fail(Mistake::OpenDatePlace, part);
    }
    members.push_back(piece);
  }
  out = Expression(shape, Level::Words, std::move(members));
  return true;
}

bool WordsReader::readPhrase(Range range, Piece& piece, Kind& kind) {
  if (range.size() == 0) return fail(Mistake::PhraseUnfinished, range);
  const std::size_t to = find(range, "to");
  if (to != range.end && wordsOf("up to", range) == 0) {
    const std::size_t left = is(range.begin, "from") ? range.begin + 1 : range.begin;
    kind = Kind::Interval;
    return readInterval({left, to}, {to + 1, range.end}, piece);
  }
  bool matched = false;
  if (!readOpenPhrase(range, piece, kind, matched)) return false;
  if (matched) return true;
  kind = Kind::Date;
  return readDate(range, piece.from);
}

bool WordsReader::readInterval(Range left, Range right, Piece& piece) {
  if (left.size() == 0 || right.size() == 0) return fail(Mistake::PhraseUnfinished, {0, count_});
  const auto edgeAt = [this](Range range) {
    if (range.size() != 1) return Edge::Dated;
    return isOneOf(range.begin, {"?", "unknown"}) ? Edge::Unknown
           : is(range.begin, "..")                ? Edge::Open
                                                  : Edge::Dated;
  };
  piece.isRange = true;
  piece.fromEdge = edgeAt(left);
  piece.toEdge = edgeAt(right);
  if (piece.fromEdge != Edge::Dated && piece.toEdge != Edge::Dated) {
    return fail(Mistake::NoEnds, {left.begin, right.end});
  }
  if (piece.toEdge == Edge::Dated && !readDate(right, piece.to)) return false;
  if (piece.fromEdge == Edge::Dated && !readDate(left, piece.from)) {
    // `March to May 1932`, `5 to 9 May 1932`: what the left side lacks stands on the right.
    const Fault asWritten = fault_;
    bool completed = false;
    const std::array<Token, kMostTokens> tokens = tokens_;
    const std::size_t count = count_;
    for (std::size_t borrowed = 1; borrowed <= 2 && borrowed < right.size() + 1 && !completed; ++borrowed) {
      if (left.size() + borrowed > kMostTokens) break;
      std::copy_n(tokens.begin() + static_cast<std::ptrdiff_t>(left.begin), left.size(), tokens_.begin());
      std::copy_n(tokens.begin() + static_cast<std::ptrdiff_t>(right.end - borrowed), borrowed,
                  tokens_.begin() + static_cast<std::ptrdiff_t>(left.size()));
      count_ = left.size() + borrowed;
      piece.from = Date();
      completed = readDate({0, count_}, piece.from);
    }
    tokens_ = tokens;
    count_ = count;
    if (!completed) {
      fault_ = asWritten;
      return false;
    }
  }
  return checkOrder(piece, {left.begin, right.end});
}

bool WordsReader::checkOrder(const Piece& piece, Range range) {
  if (piece.fromEdge != Edge::Dated || piece.toEdge != Edge::Dated) return true;
  const Bounds bounds = piece.plain(options_);
  return bounds.latest >= bounds.earliest || fail(Mistake::EndBeforeStart, range);
}

// Phrases with one date and an open side. `matched` says that it was one.
bool WordsReader::readOpenPhrase(Range range, Piece& piece, Kind& kind, bool& matched) {
  struct Phrase {
    std::string_view words;
    Kind kind;
    bool strict;  // the date itself is not meant
  };
  static constexpr std::array<Phrase, 17> kPhrases = {{
      {"by the end of", Kind::UpTo, false},
      {"by end of", Kind::UpTo, false},
      {"by", Kind::UpTo, false},
      {"no later than", Kind::UpTo, false},
      {"not later than", Kind::UpTo, false},
      {"not after", Kind::UpTo, false},
      {"no earlier than", Kind::Starting, false},
      {"not earlier than", Kind::Starting, false},
      {"not before", Kind::Starting, false},
      {"from", Kind::Starting, false},
      {"before", Kind::UpTo, true},
      {"earlier than", Kind::UpTo, true},
      {"after", Kind::Starting, true},
      {"later than", Kind::Starting, true},
      {"until", Kind::Interval, false},
      {"up to", Kind::Interval, false},
      {"since", Kind::Interval, true},
  }};
  for (const Phrase& phrase : kPhrases) {
    const std::size_t words = wordsOf(phrase.words, range);
    if (words == 0) continue;
    matched = true;
    kind = phrase.kind;
    const Range rest{range.begin + words, range.end};
    if (rest.size() == 0) return fail(Mistake::PhraseUnfinished, range);
    Date date;
    const bool since = kind == Kind::Interval && phrase.strict;
    if (phrase.strict && !since) {
      if (!readBoundary(rest, kind == Kind::UpTo, date)) return false;
    } else if (!readDate(rest, date)) {
      return false;
    }
    piece = kind == Kind::Starting || since ? Piece::startingAt(date) : Piece::upTo(date);
    return true;
  }
  return true;
}

bool WordsReader::readBoundary(Range range, bool before, Date& date) {
  Date given;
  if (!readDate(range, given)) return false;
  const bool holes = given.isMasked() &&
                     (given.precision != Precision::Year || (given.yearMask & (given.yearMask + 1)) != 0);
  if (given.yearQualifier != 0 || given.monthQualifier != 0 || given.dayQualifier != 0 || holes ||
      given.significant != 0) {
    return fail(Mistake::BeforeVague, range);
  }
  const Bounds bounds = given.plain(options_.hemisphere);
  date = before ? dateThatEnds(bounds.earliest.plusDays(-1)) : dateThatBegins(bounds.latest.plusDays(1));
  const bool writable = date.precision == Precision::Year || date.magnitude() <= 9999;
  return writable || fail(Mistake::BeforeVague, range);
}

}  // namespace saggar::dates
