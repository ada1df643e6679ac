#include <algorithm>
#include <vector>

#include "base/text.h"
#include "reading/yaml_slip.h"
#include "records/field.h"

// The commonest slips inside [ ] and { }.
namespace saggar::reading {
namespace {

struct Bracket {
  char open;
  std::uint32_t at;
};

char closerOf(char open) {
  return open == '[' ? ']' : '}';
}

class FlowWalk {
 public:
  FlowWalk(const Piece& piece, std::uint32_t open, std::size_t column)
      : piece_(piece), at_(open), column_(column) {}

  FlowLook run() {
    while (at_ < piece_.end) {
      if (auto slip = step()) return {std::move(slip), 0};
      if (brackets_.empty()) return {std::nullopt, at_};
    }
    return {notClosed(), 0};
  }

 private:
  char here() const { return at_ < piece_.end ? piece_.text[at_] : '\0'; }
  char ahead() const { return at_ + 1 < piece_.end ? piece_.text[at_ + 1] : '\n'; }
  bool endsWord(char c) const {
    return base::isBlank(c) || c == ',' || c == ']' || c == '}' || c == '[' || c == '{';
  }

  std::optional<Slip> step() {
    const char c = here();
    if (c == '\n' || c == '\r') return lineEnd();
    if (c == '#' && at_ > piece_.begin && base::isBlank(piece_.text[at_ - 1])) {
      at_ = lineAt(piece_, at_).end;
      return std::nullopt;
    }
    if (c == ' ' || c == '\t') {
      ++at_;
      return std::nullopt;
    }
    if ((c == '[' || c == '{') && !inEntry_) {
      brackets_.push_back({c, at_++});
      startEntry();
      return std::nullopt;
    }
    if ((c == '[' || c == '{') && !closed_) return inText();
    if (c == ']' || c == '}') return closing(c);
    if (c == ',') {
      ++at_;
      startEntry();
      return std::nullopt;
    }
    if (c == ':' && (endsWord(ahead()) || quotedKey_)) return colon();
    if (inEntry_) {
      quotedKey_ = false;
      ++at_;
      return std::nullopt;
    }
    return begin(c);
  }

  void startEntry() {
    inEntry_ = false;
    closed_ = false;
    hadColon_ = false;
    quotedKey_ = false;
    keyAt_ = valueAt_ = 0;
  }

  // The first sign of a key or a value.
  std::optional<Slip> begin(char c) {
    inEntry_ = true;
    (hadColon_ ? valueAt_ : keyAt_) = at_;
    const Line line = lineOf(piece_, at_);
    if (c == '"' || c == '\'') {
      const std::uint32_t close = closingQuote(piece_, at_);
      if (close >= piece_.end || quoteRunsOver(piece_, at_, close)) return openQuote(piece_, at_);
      const std::uint32_t open = at_;
      at_ = close + 1;
      std::uint32_t next = at_;
      while (next < piece_.end && (piece_.text[next] == ' ' || piece_.text[next] == '\t')) ++next;
      const char after = next < piece_.end ? piece_.text[next] : '\n';
      if (std::string_view(",]}:\n\r").find(after) == std::string_view::npos && !(after == '#' && next > at_))
        return behindQuote(piece_, line, open, endOfEntry(next));
      quotedKey_ = after == ':';
      return std::nullopt;
    }
    if (c == '-' && base::isBlank(ahead()))
      return slipAt(piece_, at_, at_ + 1, "inside brackets items have no dash; a comma parts them",
                    "write `[one, two]`, or each item on a line of its own, without brackets");
    if (auto slip = signInFront(piece_, line, at_, endOfEntry(at_), true)) return slip;
    ++at_;
    return std::nullopt;
  }

  // One past the last visible sign before the next comma, bracket or line end.
  std::uint32_t endOfEntry(std::uint32_t from) const {
    std::uint32_t end = from;
    while (end < piece_.end && std::string_view(",]}\n\r").find(piece_.text[end]) == std::string_view::npos)
      ++end;
    while (end > from && base::isBlank(piece_.text[end - 1])) --end;
    return end;
  }

  // `price-l[ist`: a bracket in the middle of a text.
  Slip inText() const {
    const std::uint32_t from = hadColon_ ? valueAt_ : keyAt_;
    std::uint32_t end = at_;
    for (int depth = 0; end < piece_.end && piece_.text[end] != '\n' && piece_.text[end] != '\r'; ++end) {
      const char c = piece_.text[end];
      if (depth == 0 && (c == ',' || c == ']' || c == '}')) break;
      depth += c == '[' || c == '{' ? 1 : c == ']' || c == '}' ? -1 : 0;
    }
    return slipAt(piece_, at_, at_ + 1, std::string("`") + here() + "` stands in the middle of a text",
                  "put the text in quotes if the bracket belongs to it: `" +
                      inQuotes(shown(piece_.text.substr(from, end - from))) + "`; else take it out");
  }

  std::optional<Slip> colon() {
    if (!hadColon_) {
      hadColon_ = true;
      inEntry_ = false;
      quotedKey_ = false;
      ++at_;
      return std::nullopt;
    }
    const std::uint32_t from = valueAt_ != 0 ? valueAt_ : at_;
    const std::string_view key = base::trimmed(piece_.text.substr(keyAt_, from - keyAt_));
    const std::string_view before = base::trimmed(piece_.text.substr(from, at_ - from));
    const std::size_t blank = before.rfind(' ');
    const std::string_view lastWord =
        blank == std::string_view::npos ? std::string_view() : before.substr(blank + 1);
    const std::uint32_t end = endOfEntry(at_ + 1);
    if (!lastWord.empty() && records::fieldNamed(lastWord))
      return slipAt(piece_, from, end, "a comma is missing before `" + std::string(lastWord) + ":`",
                    "write `" + std::string(key) + ' ' + shown(before.substr(0, blank)) + ", " +
                        std::string(lastWord) + shown(piece_.text.substr(at_, end - at_)) + "`");
    return slipAt(piece_, from, end,
                  "there is a second colon in the value of `" + shown(key.substr(0, key.find(':'))) + "`",
                  "put the value in quotes: `" + std::string(key) + ' ' +
                      inQuotes(shown(piece_.text.substr(from, end - from))) + "`");
  }

  std::optional<Slip> closing(char c) {
    if (closerOf(brackets_.back().open) != c) {
      const Bracket open = brackets_.back();
      return slipAt(piece_, open.at, at_ + 1,
                    std::string("`") + open.open + "` opens here and is not closed before `" + c + "`",
                    std::string("close it with `") + closerOf(open.open) + "` in front of `" + c +
                        "`, or take the `" + c + "` out");
    }
    brackets_.pop_back();
    ++at_;
    inEntry_ = closed_ = true;  // only a comma or a bracket may follow
    quotedKey_ = here() == ':';
    return std::nullopt;
  }

  // The next line belongs to the value unless it looks like the next field or item.
  std::optional<Slip> lineEnd() {
    const LineExtent line = lineAt(piece_, at_);
    const std::uint32_t next = nextLine(piece_, line.end);
    if (next >= piece_.end) {
      at_ = piece_.end;
      return std::nullopt;
    }
    const Line after = lineOf(piece_, next);
    const bool field = after.visible() && (after.hasKey || after.dash) && after.indent <= column_;
    if (field) return notClosed();
    at_ = next;
    return std::nullopt;
  }

  Slip notClosed() const {
    const Bracket open = brackets_.back();
    const Line line = lineOf(piece_, brackets_.front().at);
    std::string closers;
    for (std::size_t i = brackets_.size(); i > 0 && closers.size() < 4; --i)
      closers += closerOf(brackets_[i - 1].open);
    const bool oneLine = at_ <= nextLine(piece_, line.end);
    std::string hint = std::string("close it with `") + closerOf(open.open) + "`";
    if (oneLine && brackets_.size() <= 4)
      hint += ": `" + shown(std::string(base::trimmed(line.text.substr(line.content)))) + closers + "`";
    return slipAt(piece_, open.at, lineAt(piece_, open.at).end,
                  std::string("`") + open.open + "` opens here and is not closed",
                  hint + "; a bracket that is part of a text needs quotes round the whole text");
  }

  const Piece& piece_;
  std::uint32_t at_;
  std::size_t column_;
  std::vector<Bracket> brackets_;
  bool inEntry_ = false;
  bool closed_ = false;  // the entry was in brackets itself
  bool hadColon_ = false;
  bool quotedKey_ = false;
  std::uint32_t keyAt_ = 0;
  std::uint32_t valueAt_ = 0;
};

}  // namespace

FlowLook lookInBrackets(const Piece& piece, std::uint32_t open, std::size_t column) {
  return FlowWalk(piece, open, column).run();
}

}  // namespace saggar::reading
