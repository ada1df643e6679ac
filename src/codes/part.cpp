#include "codes/part.h"

#include <fmt/format.h>

#include <array>
#include <bit>

#include "base/text.h"

namespace saggar::codes {
namespace {

constexpr std::size_t kRowsNamed = 12;

std::string digitsWanted(const Counts& counts, std::string_view one, std::string_view many) {
  return fmt::format("{} {}", counts.inWords(), counts.most() == 1 ? one : many);
}

std::string yearWanted(const YearPart& part) {
  std::vector<std::string> forms;
  for (const std::string& form : part.templates) {
    const std::size_t digits = form.size() - form.find('Y');
    std::string text =
        digits == 4 ? std::string("a year of four digits")
                    : fmt::format("the last {} of a year from {}{} to {}{}",
                                  digits == 1 ? "digit" : numberWord(static_cast<int>(digits)) + " digits",
                                  form.substr(0, form.find('Y')), std::string(digits, '0'),
                                  form.substr(0, form.find('Y')), std::string(digits, '9'));
    forms.push_back(std::move(text));
  }
  return base::listedInWords(forms, "or");
}

std::string tableWanted(const TablePart& part) {
  std::vector<std::string> texts;
  for (const TableRow& row : part.rows) {
    if (texts.size() == kRowsNamed) break;
    texts.push_back(row.text);
  }
  if (part.rows.size() > kRowsNamed) {
    return fmt::format("one of {} and {} more", base::joined(texts, ", "), part.rows.size() - kRowsNamed);
  }
  return texts.size() == 1 ? fmt::format("\"{}\"", texts[0]) : "one of " + base::listedInWords(texts, "or");
}

std::string unitWanted(const UnitPart& part) {
  const bool two = !part.oneDigit && part.low < 10;
  return two ? fmt::format("a {} from {:02} to {:02}", unitName(part.unit), part.low, part.high)
             : fmt::format("a {} from {} to {}", unitName(part.unit), part.low, part.high);
}

struct Wanted {
  std::string operator()(const DigitsPart& p) const { return digitsWanted(p.counts, "digit", "digits"); }
  std::string operator()(const LettersPart& p) const { return digitsWanted(p.counts, "letter", "letters"); }
  std::string operator()(const RangePart& p) const {
    return p.width == 0 ? fmt::format("a number from {} to {}", p.low, p.high)
                        : fmt::format("a number from {:0{}} to {:0{}}", p.low, p.width, p.high, p.width);
  }
  std::string operator()(const TextPart& p) const { return fmt::format("\"{}\"", p.text); }
  std::string operator()(const TablePart& p) const { return tableWanted(p); }
  std::string operator()(const PathPart& p) const {
    const std::string paths = base::listedInWords(p.paths, "or");
    if (p.last == 0) return "the " + paths;
    return p.last == 1 ? "the last sign of " + paths
                       : fmt::format("the last {} signs of {}", numberWord(p.last), paths);
  }
  std::string operator()(const YearPart& p) const { return yearWanted(p); }
  std::string operator()(const UnitPart& p) const { return unitWanted(p); }
};

}  // namespace

int Counts::least() const {
  return bits_ == 0 ? 0 : std::countr_zero(bits_);
}
int Counts::most() const {
  return bits_ == 0 ? 0 : 63 - std::countl_zero(bits_);
}

std::string Counts::inWords() const {
  const int low = least();
  const int high = most();
  if (low == high) return numberWord(low);
  if (std::popcount(bits_) == high - low + 1 && high - low > 1) {
    return fmt::format("{} to {}", numberWord(low), numberWord(high));
  }
  std::vector<std::string> words;
  for (int n = low; n <= high; ++n) {
    if (allows(static_cast<std::size_t>(n))) words.push_back(numberWord(n));
  }
  return base::listedInWords(words, "or");
}

std::vector<int>* DateFacts::of(std::string_view key) {
  return key == "year"      ? &years
         : key == "quarter" ? &quarters
         : key == "month"   ? &months
         : key == "week"    ? &weeks
         : key == "day"     ? &days
                            : nullptr;
}

std::string_view unitName(Unit unit) {
  constexpr std::array<std::string_view, 4> kNames = {"quarter", "month", "week", "day"};
  return kNames[static_cast<std::size_t>(unit)];
}

int unitMost(Unit unit) {
  constexpr std::array<int, 4> kMost = {4, 12, 53, 31};
  return kMost[static_cast<std::size_t>(unit)];
}

std::string wanted(const PartSpec& part) {
  return std::visit(Wanted{}, part);
}

std::string numberWord(std::int64_t number) {
  constexpr std::array<std::string_view, 13> kWords = {"no",   "one",    "two",   "three", "four",
                                                       "five", "six",    "seven", "eight", "nine",
                                                       "ten",  "eleven", "twelve"};
  return number >= 0 && number < 13 ? std::string(kWords[static_cast<std::size_t>(number)])
                                    : fmt::format("{}", number);
}

}  // namespace saggar::codes
