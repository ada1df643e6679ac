#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

// Sizes as the trade writes them. The author's text is what is kept and printed; here is only what it amounts to.
namespace saggar::records {

enum class Unit : std::uint8_t {
  inch,
  millimetre,
  centimetre,
  fluidOunce,  // US customary, 29.5735295625 ml exactly (NIST Handbook 44, appendix C)
  millilitre,
  litre,
  countSize,  // "36s": the potter's dozen; the higher the number, the smaller the piece
};

// Up to three axes of one unit, in sixty-fourths of it times 1,000 (so that eighths of an inch and tenths of a
// millimetre are exact). Order as typed: overall, other axis or height.
struct Measure {
  Unit unit = Unit::inch;
  std::uint8_t axes = 0;
  std::int64_t amount[3] = {0, 0, 0};

  static constexpr std::int64_t kScale = 64'000;
  double value(int axis) const { return static_cast<double>(amount[axis]) / kScale; }
  double largest() const;
  bool isLength() const { return unit <= Unit::centimetre; }
  bool isVolume() const { return unit >= Unit::fluidOunce && unit <= Unit::litre; }
};

// Reads "9 1/8 in", "9⅛ in", "232 mm", "9 x 6 3/4 in", "24 fl oz", "0.7 l", "36s"; nullopt if it is none of these.
std::optional<Measure> readMeasure(std::string_view text);

// What the author of an unreadable measure should type instead, in words.
std::string measureHint();

// Largest axis in millimetres, or volume in millilitres; for comparing sizes in different units.
double inMetric(const Measure& measure);

// The measure in the other system, for print: inches give whole millimetres and the reverse (nearest eighth of an
// inch), fluid ounces give millilitres to the nearest 5. Count sizes give an empty text.
std::string inOtherUnit(const Measure& measure);

}  // namespace saggar::records
