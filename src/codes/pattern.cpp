#include "codes/pattern.h"

#include <fmt/format.h>
#include <re2/re2.h>

#include <map>

#include "base/text.h"
#include "base/utf8.h"

namespace saggar::codes {
namespace {

constexpr std::size_t kLongestPattern = 1000;
constexpr std::int64_t kPatternMemory = 4 << 20;

RE2::Options options() {
  RE2::Options chosen;
  chosen.set_case_sensitive(false);
  chosen.set_log_errors(false);
  chosen.set_max_mem(kPatternMemory);
  return chosen;
}

std::string_view reason(RE2::ErrorCode code) {
  switch (code) {
    case RE2::ErrorMissingBracket: return "a `[` is not closed";
    case RE2::ErrorMissingParen: return "a `(` or `)` has no partner";
    case RE2::ErrorUnexpectedParen: return "a `)` has no partner";
    case RE2::ErrorBadCharClass: return "there is no such class of signs";
    case RE2::ErrorBadCharRange: return "a range in `[ ]` runs backwards";
    case RE2::ErrorTrailingBackslash: return "it ends in a backslash";
    case RE2::ErrorRepeatArgument: return "there is nothing to repeat before `*`, `+`, `?` or `{`";
    case RE2::ErrorRepeatSize: return "a repetition is too long";
    case RE2::ErrorRepeatOp: return "two repetitions follow each other";
    case RE2::ErrorBadPerlOp:
      return "what follows `(?` is not known; a named group is written `(?P<NAME>...)`";
    case RE2::ErrorBadNamedCapture: return "a group's name is unfit or given twice";
    case RE2::ErrorBadUTF8: return "it is not UTF-8";
    case RE2::ErrorPatternTooLarge: return "it is too large";
    case RE2::ErrorBadEscape: return "a backslash stands before a letter that means nothing there";
    default: return "it cannot be read";
  }
}

// Where the class that opens at `at` ends: just past its `]`.
std::size_t classEnd(std::string_view p, std::size_t at) {
  std::size_t i = at + 1;
  if (i < p.size() && p[i] == '^') ++i;
  if (i < p.size() && p[i] == ']') ++i;
  while (i < p.size() && p[i] != ']') {
    if (p[i] == '\\') {
      i += 2;
    } else if (p.substr(i).starts_with("[:") && p.find(":]", i) != std::string_view::npos) {
      i = p.find(":]", i) + 2;
    } else {
      ++i;
    }
  }
  return std::min(i + 1, p.size());
}

bool isOctal(char c) {
  return c >= '0' && c <= '7';
}

// Where the escape that begins at `at` ends.
std::size_t escapeEnd(std::string_view p, std::size_t at) {
  std::size_t i = at + 2;
  const char c = at + 1 < p.size() ? p[at + 1] : '\\';
  if ((c == 'p' || c == 'P' || c == 'x') && i < p.size() && p[i] == '{') {
    const std::size_t close = p.find('}', i);
    i = close == std::string_view::npos ? p.size() : close + 1;
  } else if (c == 'p' || c == 'P') {
    if (i < p.size()) base::nextCodePoint(p, i);
  } else if (c == 'x') {
    i += 2;
  } else if (isOctal(c)) {
    for (int n = 0; n < 2 && i < p.size() && isOctal(p[i]); ++n) ++i;
  }
  return std::min(i, p.size());
}

// `{3}`, `{3,}`, `{3,5}`; else the brace is a sign like any other.
std::size_t repeatEnd(std::string_view p, std::size_t at) {
  std::size_t i = at + 1;
  std::size_t digits = 0;
  for (; i < p.size() && base::isDigit(p[i]); ++i) ++digits;
  if (digits == 0) return at;
  if (i < p.size() && p[i] == ',') {
    for (++i; i < p.size() && base::isDigit(p[i]);) ++i;
  }
  return i < p.size() && p[i] == '}' ? i + 1 : at;
}

}  // namespace

std::string withQuestionMarks(std::string_view p) {
  std::string out;
  const auto sign = [&](std::string_view atom) {
    out += "(?:";
    out += atom;
    out += "|\\?)";
  };
  for (std::size_t i = 0; i < p.size();) {
    const char c = p[i];
    std::size_t end = i + 1;
    if (c == '\\' && p.substr(i).starts_with("\\Q")) {
      const std::size_t close = p.find("\\E", i);
      const std::size_t stop = close == std::string_view::npos ? p.size() : close;
      for (std::size_t k = i + 2; k < stop;) {
        const std::size_t begin = k;
        base::nextCodePoint(p, k);
        sign(RE2::QuoteMeta(re2::StringPiece(p.data() + begin, k - begin)));
      }
      end = close == std::string_view::npos ? p.size() : close + 2;
    } else if (c == '\\') {
      end = escapeEnd(p, i);
      const char kind = i + 1 < p.size() ? p[i + 1] : '\\';
      const bool place =
          kind == 'A' || kind == 'z' || kind == 'b' || kind == 'B' || kind == 'C' || kind == 'E';
      if (place) {
        out += p.substr(i, end - i);
      } else {
        sign(p.substr(i, end - i));
      }
    } else if (c == '[') {
      end = classEnd(p, i);
      sign(p.substr(i, end - i));
    } else if (c == '(' && p.substr(i).starts_with("(?")) {
      const std::size_t close = p.find_first_of(p.substr(i).starts_with("(?P<") ? ">" : ":)", i);
      end = close == std::string_view::npos ? p.size() : close + 1;
      out += p.substr(i, end - i);
    } else if (c == '{' && repeatEnd(p, i) != i) {
      end = repeatEnd(p, i);
      out += p.substr(i, end - i);
    } else if (std::string_view("().|^$*+?").find(c) != std::string_view::npos) {
      out += c;
    } else {
      end = i;
      base::nextCodePoint(p, end);
      sign(p.substr(i, end - i));
    }
    i = end;
  }
  return out;
}

Parsed<Pattern> Pattern::compile(std::string_view typed) {
  if (typed.size() > kLongestPattern) {
    return {std::nullopt, "the pattern is too long", fmt::format("at most {} letters", kLongestPattern)};
  }
  const std::string text = withPlainDashes(base::trimmed(typed));
  if (text.empty())
    return {std::nullopt, "the pattern is empty", "write an RE2 expression, or use `written`"};
  Pattern pattern;
  const auto exact = std::make_shared<const RE2>(text, options());
  if (!exact->ok()) {
    const std::string where = exact->error_arg().empty() ? "" : fmt::format(", at `{}`", exact->error_arg());
    return {std::nullopt, fmt::format("the pattern is broken: {}{}", reason(exact->error_code()), where),
            "patterns are RE2 expressions with the parts as named groups: `(?P<SERIAL>[0-9]{3})`"};
  }
  for (const auto& [number, name] : exact->CapturingGroupNames()) {
    pattern.groups_.push_back(name);
    pattern.numbers_.push_back(number);
  }
  pattern.exact_ = exact;
  auto lenient = std::make_shared<const RE2>(withQuestionMarks(text), options());
  if (lenient->ok() && lenient->NumberOfCapturingGroups() == exact->NumberOfCapturingGroups()) {
    pattern.lenient_ = std::move(lenient);
  }
  return {std::move(pattern), {}, {}};
}

bool Pattern::match(std::span<const Sign> signs, std::vector<Group>& groups) const {
  std::string text;
  std::vector<std::size_t> signAt;  // by byte of `text`, and one past it
  bool unread = false;
  for (std::size_t i = 0; i < signs.size(); ++i) {
    base::appendUtf8(text, signs[i].plain);
    signAt.resize(text.size(), i);
    unread = unread || signs[i].folded == kAnySign;
  }
  signAt.push_back(signs.size());
  const RE2* expression = unread ? lenient_.get() : exact_.get();
  if (expression == nullptr) return false;
  std::vector<re2::StringPiece> found(static_cast<std::size_t>(expression->NumberOfCapturingGroups()) + 1);
  if (!expression->Match(text, 0, text.size(), RE2::ANCHOR_BOTH, found.data(),
                         static_cast<int>(found.size()))) {
    return false;
  }
  groups.clear();
  for (const int number : numbers_) {
    const re2::StringPiece& piece = found[static_cast<std::size_t>(number)];
    Group group;
    if (piece.data() != nullptr && !piece.empty()) {
      const auto begin = static_cast<std::size_t>(piece.data() - text.data());
      group = {signAt[begin], signAt[begin + piece.size()], true};
    }
    groups.push_back(group);
  }
  return true;
}

}  // namespace saggar::codes
