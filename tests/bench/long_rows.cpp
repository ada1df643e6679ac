#include "long_rows.h"

#include <fmt/format.h>

#include <chrono>

namespace bench {
namespace {

constexpr std::string_view kBase =
    "- maker: wesperling\n  codes:\n    - {rule: number, written: N, parts: {N: 1 to 999999}, order: N}\n"
    "  cite:\n    - books: p. 1\n\n"
    "- shape: linnavere\n  maker: wesperling\n  cite:\n    - books: p. 1\n\n"
    "- source: books\n  type: trade-notice\n  title: Books\n  date: 1900/1999\n\n";

std::string lastDayLess(unsigned days) {
  using namespace std::chrono;
  const year_month_day day{sys_days{year{1999} / 12 / 31} - std::chrono::days{days}};
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(day.year()), static_cast<unsigned>(day.month()),
                     static_cast<unsigned>(day.day()));
}

std::vector<TextFile> guideOf(std::string records) {
  return {{"guide.yaml", "guide: A long row\n"}, {"records.yaml", std::string(kBase) + std::move(records)}};
}

}  // namespace

std::vector<TextFile> fallingNumbers(unsigned count) {
  std::string records;
  for (unsigned i = 1; i <= count; ++i)
    records += fmt::format(
        "- treatment: t{0}\n  shape: linnavere\n  motif: none\n  code: {0}\n  introduced: by {1}\n  cite:\n  "
        "  - books: "
        "p. {0}\n\n",
        i, lastDayLess(i));
  return guideOf(std::move(records));
}

std::vector<TextFile> oneAfterAnother(unsigned count) {
  std::string records;
  for (unsigned i = 1; i <= count; ++i) {
    records += fmt::format(
        "- treatment: t{0}\n  shape: linnavere\n  motif: none\n  cite:\n    - books: p. {0}\n", i);
    if (i > 1) records += fmt::format("  after: treatment:t{}\n", i - 1);
    if (i == 1 || i == count) records += fmt::format("  introduced: {}\n", i == 1 ? "1700-01-01" : "by 1999");
    records += '\n';
  }
  return guideOf(std::move(records));
}

}  // namespace bench
