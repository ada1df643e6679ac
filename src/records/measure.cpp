#include "records/measure.h"

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "base/utf8.h"

namespace saggar::records {
namespace {

struct UnitWord {
  std::string_view word;
  Unit unit;
};
constexpr UnitWord kUnits[] = {
    {"in", Unit::inch},          {"in.", Unit::inch},
    {"inch", Unit::inch},        {"inches", Unit::inch},
    {"\"", Unit::inch},          {"″", Unit::inch},
    {"mm", Unit::millimetre},    {"cm", Unit::centimetre},
    {"fl oz", Unit::fluidOunce}, {"fl. oz.", Unit::fluidOunce},
    {"oz", Unit::fluidOunce},    {"ml", Unit::millilitre},
    {"cl", Unit::millilitre},    {"l", Unit::litre},
    {"litre", Unit::litre},      {"litres", Unit::litre},
};

struct Fraction {
  char32_t sign;
  int above;
  int below;
};
constexpr Fraction kFractions[] = {{U'½', 1, 2}, {U'¼', 1, 4}, {U'¾', 3, 4}, {U'⅛', 1, 8},
                                   {U'⅜', 3, 8}, {U'⅝', 5, 8}, {U'⅞', 7, 8}};

constexpr std::int64_t kMost = 100'000;

// A number at `at`: digits, perhaps decimals, perhaps a fraction behind ("9 1/8", "9⅛", "1/2").
std::optional<std::int64_t> readAmount(std::string_view text, std::size_t& at) {
  auto digits = [&](std::int64_t& value) {
    const std::size_t start = at;
    value = 0;
    while (at < text.size() && base::isDigit(text[at]) && value < kMost)
      value = value * 10 + (text[at++] - '0');
    return at > start && !(at < text.size() && base::isDigit(text[at]));
  };
  auto blanks = [&] {
    while (at < text.size() && text[at] == ' ') ++at;
  };
  std::int64_t whole = 0;
  std::int64_t amount = 0;
  bool any = false;
  if (at < text.size() && base::isDigit(text[at])) {
    if (!digits(whole)) return std::nullopt;
    any = true;
    if (at < text.size() && text[at] == '/') {  // "1/2"
      ++at;
      std::int64_t below = 0;
      if (!digits(below) || below == 0 || 64 % below != 0 || whole >= below) return std::nullopt;
      return whole * Measure::kScale / below;
    }
    amount = whole * Measure::kScale;
    if (at < text.size() && text[at] == '.') {
      ++at;
      std::int64_t tenth = Measure::kScale / 10;
      const std::size_t start = at;
      while (at < text.size() && base::isDigit(text[at])) {
        amount += (text[at++] - '0') * tenth;
        tenth /= 10;
      }
      return at > start ? std::optional(amount) : std::nullopt;
    }
  }
  const std::size_t before = at;
  blanks();
  if (at < text.size() && base::isDigit(text[at])) {
    std::int64_t above = 0;
    std::int64_t below = 0;
    if (digits(above) && at < text.size() && text[at] == '/') {
      ++at;
      if (!digits(below) || below == 0 || 64 % below != 0 || above >= below) return std::nullopt;
      return amount + above * Measure::kScale / below;
    }
    return std::nullopt;
  }
  if (at < text.size()) {
    std::size_t next = at;
    const char32_t sign = base::nextCodePoint(text, next);
    for (const Fraction& one : kFractions) {
      if (one.sign != sign) continue;
      at = next;
      return amount + one.above * Measure::kScale / one.below;
    }
  }
  at = before;
  return any ? std::optional(amount) : std::nullopt;
}

std::string withoutZeros(double value, int decimals) {
  std::string out = std::to_string(std::llround(value * std::pow(10, decimals)));
  if (decimals > 0) {
    while (out.size() <= static_cast<std::size_t>(decimals)) out.insert(out.begin(), '0');
    out.insert(out.size() - static_cast<std::size_t>(decimals), ".");
    while (out.back() == '0') out.pop_back();
    if (out.back() == '.') out.pop_back();
  }
  return out;
}

std::string inEighths(double inches) {
  const long long eighths = std::llround(inches * 8);
  const long long whole = eighths / 8;
  long long above = eighths % 8;
  long long below = 8;
  while (above != 0 && above % 2 == 0) {
    above /= 2;
    below /= 2;
  }
  std::string out = whole != 0 || above == 0 ? std::to_string(whole) : std::string();
  if (above != 0) {
    if (!out.empty()) out += ' ';
    out += std::to_string(above) + '/' + std::to_string(below);
  }
  return out;
}

}  // namespace

double Measure::largest() const {
  std::int64_t most = 0;
  for (int i = 0; i < axes; ++i) most = std::max(most, amount[i]);
  return static_cast<double>(most) / kScale;
}

std::optional<Measure> readMeasure(std::string_view text) {
  text = base::trimmed(text);
  Measure measure;
  if (text.size() >= 2 && text.size() <= 4 && text.back() == 's' &&
      std::all_of(text.begin(), text.end() - 1, base::isDigit)) {
    std::size_t at = 0;
    measure.unit = Unit::countSize;
    measure.axes = 1;
    measure.amount[0] = *readAmount(text.substr(0, text.size() - 1), at);
    return measure;
  }
  std::size_t at = 0;
  while (measure.axes < 3) {
    const auto amount = readAmount(text, at);
    if (!amount || *amount == 0) return std::nullopt;
    measure.amount[measure.axes++] = *amount;
    std::size_t next = at;
    while (next < text.size() && text[next] == ' ') ++next;
    const bool times = text.substr(next).starts_with("×");
    if (!times && !(next < text.size() && text[next] == 'x')) break;
    at = next + (times ? 2 : 1);
    while (at < text.size() && text[at] == ' ') ++at;
  }
  const std::string_view word = base::trimmed(text.substr(at));
  for (const UnitWord& one : kUnits) {
    if (one.word != word) continue;
    measure.unit = one.unit;
    if (word == "cl")
      for (auto& amount : measure.amount) amount *= 10;
    if (measure.isVolume() && measure.axes != 1) return std::nullopt;
    return measure;
  }
  return std::nullopt;
}

std::string measureHint() {
  return "write it as `9 1/8 in`, `232 mm`, `9 x 6 3/4 in`, `24 fl oz` or, for a count size, `36s`";
}

double inMetric(const Measure& measure) {
  switch (measure.unit) {
    case Unit::inch: return measure.largest() * 25.4;
    case Unit::centimetre: return measure.largest() * 10;
    case Unit::fluidOunce: return measure.largest() * 29.5735295625;
    case Unit::litre: return measure.largest() * 1000;
    default: return measure.largest();
  }
}

std::string inOtherUnit(const Measure& measure) {
  std::string out;
  auto axes = [&](auto one, std::string_view unit) {
    for (int i = 0; i < measure.axes; ++i) out += (i != 0 ? " x " : "") + one(measure.value(i));
    return out.append(unit);
  };
  switch (measure.unit) {
    case Unit::inch: return axes([](double v) { return withoutZeros(v * 25.4, 0); }, " mm");
    case Unit::millimetre: return axes([](double v) { return inEighths(v / 25.4); }, " in");
    case Unit::centimetre: return axes([](double v) { return inEighths(v / 2.54); }, " in");
    case Unit::fluidOunce:
      return axes([](double v) { return withoutZeros(std::round(v * 29.5735295625 / 5) * 5, 0); }, " ml");
    case Unit::millilitre: return axes([](double v) { return withoutZeros(v / 29.5735295625, 1); }, " fl oz");
    case Unit::litre:
      return axes([](double v) { return withoutZeros(v * 1000 / 29.5735295625, 1); }, " fl oz");
    case Unit::countSize: return {};
  }
  return {};
}

}  // namespace saggar::records
