// Any text at all: an expression or an error that can be shown, in time that grows with its length.
#include <doctest/doctest.h>

#include <atomic>
#include <chrono>
#include <cstdlib>
#include <new>

#include "base/utf8.h"
#include "generator.h"

namespace {
std::atomic<std::size_t> allocations{0};
}

// Counted, to show which forms are read without any.
void* operator new(std::size_t size) {
  ++allocations;
  if (void* memory = std::malloc(size == 0 ? 1 : size)) return memory;
  throw std::bad_alloc();
}
void operator delete(void* memory) noexcept {
  std::free(memory);
}
void operator delete(void* memory, std::size_t) noexcept {
  std::free(memory);
}

namespace saggar::dates::testing {
namespace {

// Everything that can be asked of the answer.
bool holds(const std::string& text) {
  const Result result = parse(text);
  if (!result) {
    const Error& error = result.error();
    bool fine = !error.message.empty() && error.byte <= text.size() &&
                error.byte + error.bytes <= text.size() && error.codePoint <= error.byte &&
                error.message.back() != '.' && error.hint.size() < 400 && error.message.size() < 400;
    fine = fine && base::firstInvalidUtf8(error.sentence()) == std::string_view::npos;
    fine = fine && base::firstInvalidUtf8(readLine(text)) == std::string_view::npos;
    if (!error.suggestion.empty()) fine = fine && static_cast<bool>(parse(error.suggestion));
    return fine;
  }
  const Bounds plain = result->plain(), wide = result->wide();
  const bool ordered =
      plain.earliest.isUnknown() || plain.latest.isUnknown() || plain.earliest <= plain.latest;
  const bool outward =
      (plain.earliest.isUnknown() ? wide.earliest.isUnknown() : wide.earliest <= plain.earliest) &&
      (plain.latest.isUnknown() ? wide.latest.isUnknown() : wide.latest >= plain.latest);
  const Result again = parse(canonical(*result));
  return ordered && outward && again && again->plain() == plain && again->wide() == wide &&
         !inTable(*result).empty() && !inWords(*result).empty() && !happened(*result).empty() &&
         !lasted(*result).empty() && !describeBounds(plain).empty() &&
         spanOf(*result, Reading::Wide).hull().latest.isUnknown() == plain.latest.isUnknown();
}

TEST_CASE("random bytes are answered") {
  Random random(7);
  for (int i = 0; i < 100'000; ++i) {
    std::string text;
    for (int length = random.below(24); length > 0; --length) text += static_cast<char>(random.below(256));
    CAPTURE(i);
    REQUIRE(holds(text));
  }
}

TEST_CASE("random strings of the signs and words of dates are answered") {
  constexpr std::string_view kSigns = "0123456789XXYEST-/.,[]{}?~% :Z+";
  constexpr std::array<std::string_view, 40> kWords = {
      "by",   "from", "to",   "about",  "perhaps", "1932",    "1930s", "May",     "5",     "3rd",
      "half", "of",   "the",  "spring", "quarter", "or",      "and",   "between", "until", "since",
      "?",    "..",   "1935", "BC",     "AD",      "year",    "in",    "later",   "or",    "1932,",
      "May,", "5,",   "c.",   "before", "after",   "earlier", "than",  "not",     "no",    "winter"};
  Random random(11);
  int read = 0;
  for (int i = 0; i < 200'000; ++i) {
    std::string text;
    if (i % 2 == 0) {
      for (int length = 1 + random.below(14); length > 0; --length) text += random.pick(kSigns);
    } else {
      for (int length = 1 + random.below(6); length > 0; --length) {
        if (!text.empty()) text += ' ';
        text += random.pick(kWords);
      }
    }
    CAPTURE(text);
    REQUIRE(holds(text));
    if (parse(text)) ++read;
  }
  CHECK(read > 1000);
}

TEST_CASE("valid expressions with a byte changed are answered") {
  Random random(13);
  const auto rows = rowsOf("edtf-valid.tsv");
  for (int i = 0; i < 100'000; ++i) {
    std::string text = random.pick(rows)[0];
    const auto at = static_cast<std::size_t>(random.below(static_cast<int>(text.size())));
    switch (random.below(3)) {
      case 0: text[at] = static_cast<char>(random.below(256)); break;
      case 1: text.erase(at, 1); break;
      default: text.insert(at, 1, random.pick(std::string_view("0X-/.~?%,]} ")));
    }
    CAPTURE(text);
    REQUIRE(holds(text));
  }
}

std::string repeated(std::string_view piece, std::size_t bytes) {
  std::string out;
  out.reserve(bytes + piece.size());
  while (out.size() < bytes) out += piece;
  return out;
}

TEST_CASE("ten megabytes of anything are answered at once") {
  constexpr std::size_t kBytes = 10'000'000;
  for (const std::string_view piece :
       {"[",     "{", "9", "X",    "1932,",    "1932 ",    "by ",  " ", "?",  "/",      "..", "-",
        "1932-", "(", "Y", "May ", "1932 or ", "\xC3\xA9", "\xFF", "E", "c.", "~1932/", ",",  "a"}) {
    for (const std::string_view start : {"", "[", "Y", "1932-05-05T", "1932 or "}) {
      const std::string text = std::string(start) + repeated(piece, kBytes);
      const auto before = std::chrono::steady_clock::now();
      const Result result = parse(text);
      const auto taken = std::chrono::steady_clock::now() - before;
      CAPTURE(piece);
      CAPTURE(start);
      CHECK_FALSE(result);
      CHECK(result.error().sentence().size() < 1000);
      CHECK(std::chrono::duration_cast<std::chrono::milliseconds>(taken).count() < 2000);
    }
  }
}

TEST_CASE("the commonest forms are read without allocating") {
  const Options options;
  for (const std::string_view text :
       {"1932",         "1932-05",     "1932-05-05",       "1926/1935",
        "1932~",        "193X",        "1932-21",          "../1935",
        "1937/..",      "[..1935]",    "by 1935",          "from 1937",
        "about 1932",   "1930s",       "5 May 1932",       "May 1932",
        "1926 to 1935", "spring 1937", "3rd quarter 1934", "1985-04-12T23:20:30Z",
        "Y17E7"}) {
    const std::size_t before = allocations;
    const Result result = parse(text, options);
    const bool read = static_cast<bool>(result);
    const Bounds bounds = result->wide(options);
    const std::size_t after = allocations;
    CAPTURE(text);
    CHECK(read);
    CHECK_FALSE(bounds.latest.isUnknown());
    CHECK(after == before);
  }
  CHECK(sizeof(Expression) <= 80);
}

TEST_CASE("years of up to twenty digits are read, longer ones refused") {
  CHECK(plainOf("Y99999999999999999999") == "99999999999999999999-01-01..99999999999999999999-12-31");
  CHECK(plainOf("Y-99999999999999999999") == "-99999999999999999999-01-01..-99999999999999999999-12-31");
  CHECK(plainOf("Y1E19") == "10000000000000000000-01-01..10000000000000000000-12-31");
  CHECK(wideOf("Y99999999999999999999~") == "99999999999999999994-01-01..100000000000000000004-12-31");
  CHECK(plainOf("Y12345678901234567890S3") == "12300000000000000000-01-01..12399999999999999999-12-31");
  for (const std::string_view text :
       {"Y100000000000000000000", "Y1E20", "Y10E19", "Y9E99999999999999999999"}) {
    CAPTURE(text);
    const Result result = parse(text);
    REQUIRE_FALSE(result);
    CHECK(result.error().message.find("more than twenty digits") != std::string::npos);
  }
}

TEST_CASE("a set holds ten thousand dates and no more") {
  const auto set = [](int count) {
    std::string text = "[1932";
    for (int i = 1; i < count; ++i) text += ",1934";
    return text + "]";
  };
  CHECK(parse(set(10'000))->size() == 10'000);
  CHECK_FALSE(parse(set(10'001)));
}

}  // namespace
}  // namespace saggar::dates::testing
