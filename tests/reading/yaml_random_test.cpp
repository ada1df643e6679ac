#include <chrono>
#include <string_view>

#include "invented_text.h"
#include "support.h"

// Damage of every kind: nothing crashes, nothing hangs, one mistake is told about once, and the other records are there.
using namespace reading_test;
using namespace saggar;
using namespace std::string_view_literals;

namespace {

// A byte that makes trouble more often than any would.
char awkward(Random& random) {
  static constexpr std::string_view kSigns = "\n\n \t:-#'\"[]{},&*!|>%@`?~\\\r\0/.0aZ\x80\xC3\xFF"sv;
  return random.below(4) == 0 ? static_cast<char>(random.below(256)) : kSigns[random.below(kSigns.size())];
}

void damageOnce(std::string& text, Random& random) {
  const std::size_t at = random.below(text.size());
  switch (random.below(3)) {
    case 0: text[at] = awkward(random); break;
    case 1: text.insert(text.begin() + static_cast<std::ptrdiff_t>(at), awkward(random)); break;
    default: text.erase(at, 1);
  }
}

struct Worst {
  std::size_t findings = 0;
  double seconds = 0;
  std::string text;
};

void look(const std::string& text, Worst& worst) {
  const auto begin = std::chrono::steady_clock::now();
  const Read read = readText(text);
  const double seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
  worst.seconds = std::max(worst.seconds, seconds);
  for (const diagnostics::Finding& finding : read.all()) {
    const bool inside = finding.span.begin <= finding.span.end && finding.span.end <= text.size();
    CHECK_MESSAGE(inside, text);
    CHECK_MESSAGE(!finding.message.empty(), text);
  }
  if (read.all().size() > worst.findings) {
    worst.findings = read.all().size();
    worst.text = read.report() + "\n----\n" + text;
  }
}

}  // namespace

TEST_CASE("the invented records are read without a finding") {
  const Read read = readText(kInventedRecords);
  CHECK_MESSAGE(read.all().empty(), read.report());
  CHECK(read.guide.records.size() == 5);
}

TEST_CASE("ten thousand edits of one byte") {
  Random random(1);
  Worst worst;
  for (int i = 0; i < 10'000; ++i) {
    std::string text = kInventedRecords;
    damageOnce(text, random);
    look(text, worst);
  }
  CHECK_MESSAGE(worst.findings <= 6, worst.text);
  CHECK(worst.seconds < 1);
}

TEST_CASE("two thousand edits of many bytes") {
  Random random(2);
  Worst worst;
  for (int i = 0; i < 2'000; ++i) {
    std::string text = kInventedRecords;
    const std::size_t edits = 2 + random.below(12);
    for (std::size_t k = 0; k < edits; ++k) damageOnce(text, random);
    if (random.below(3) == 0) {  // and a stretch is taken out, doubled or moved
      const std::size_t from = random.below(text.size());
      const std::string stretch = text.substr(from, random.below(200));
      if (random.below(2) == 0) text.erase(from, stretch.size());
      if (random.below(2) == 0 && !text.empty()) text.insert(random.below(text.size()), stretch);
    }
    look(text, worst);
  }
  CHECK_MESSAGE(worst.findings <= 30, worst.text);
  CHECK(worst.seconds < 1);
}

TEST_CASE("texts of nothing but awkward signs") {
  Random random(3);
  Worst worst;
  for (int i = 0; i < 3'000; ++i) {
    std::string text;
    const std::size_t size = 1 + random.below(300);
    for (std::size_t k = 0; k < size; ++k) text += awkward(random);
    if (random.below(2) == 0) text = "- shape: a\n  my-a: " + text;
    look(text, worst);
  }
  CHECK(worst.findings <= 300);
  CHECK(worst.seconds < 1);
}
