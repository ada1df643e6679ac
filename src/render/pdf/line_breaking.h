#pragma once
#include <cstdint>
#include <span>
#include <vector>

// Where to break a paragraph into lines so that the paragraph as a whole is spaced most evenly.
//
// Source: D. E. Knuth and M. F. Plass, "Breaking Paragraphs into Lines", Software: Practice and Experience
// 11(11), 1119-1184, November 1981, doi 10.1002/spe.4380111102. The method, the demerits and the names are
// theirs.
namespace saggar::render {

struct LineItem {
  enum class Kind : std::uint8_t { box, glue, penalty };
  Kind kind = Kind::box;
  bool flagged = false;  // a break here ends the line in a hyphen
  float width = 0;       // of a penalty: what is added if the line breaks there
  float stretch = 0;     // glue only
  float shrink = 0;
  float penalty = 0;  // penalties only; kForced breaks, kNever does not

  static constexpr float kForced = -10000;
  static constexpr float kNever = 10000;
  static constexpr float kFill = 1e6F;  // stretch of the glue that fills a last line
  static LineItem box(double width) { return {Kind::box, false, static_cast<float>(width), 0, 0, 0}; }
  static LineItem glue(double width, double stretch, double shrink) {
    return {
        Kind::glue, false, static_cast<float>(width), static_cast<float>(stretch), static_cast<float>(shrink),
        0};
  }
  static LineItem breakHere(double width, double penalty, bool flagged) {
    return {Kind::penalty, flagged, static_cast<float>(width), 0, 0, static_cast<float>(penalty)};
  }
};

struct BreakSettings {
  double firstLine = 0;      // measure of the first line
  double otherLines = 0;     // and of all others
  double tolerance = 2;      // largest ratio of stretch that is allowed
  double twoHyphens = 3000;  // demerits for two flagged lines in a row
  double mismatch = 3000;    // demerits for neighbours whose fitness differs by more than one class
  int looseness = 0;         // this many lines more than the best, if that can be done within the tolerance
  // Above zero: lines are not filled; a line that is short by this much counts as one of ratio 1.
  double ragged = 0;
};

struct Breaks {
  std::vector<std::uint32_t> at;  // the items at which lines end; the last is the last item
  std::vector<double> ratios;     // one a line: of the stretch (above 0) or of the shrink (below 0)
  double demerits = 0;
};

// Empty if the tolerance allows no way (or there is no item). The items must end in a forced penalty.
Breaks breakLines(std::span<const LineItem> items, const BreakSettings& settings);

// As above, raising the tolerance until there is a way, and in the last resort letting a box that is wider
// than a line stick out. Never empty for items that end in a forced penalty.
Breaks breakLinesAnyhow(std::span<const LineItem> items, BreakSettings settings);

}  // namespace saggar::render
