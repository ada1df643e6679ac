#pragma once
#include "making.h"

// The code rules of an invented pottery.
namespace saggar::codes {

inline TableRow lines(std::string sign, std::vector<LookNeed> look) {
  return {std::move(sign), {}, std::move(look), {}};
}

inline RuleSpec oldNumber() {
  RuleSpec spec = rule("old decoration number", "NUMBER", {part("NUMBER", "1 to 2880")});
  spec.order = order("NUMBER");
  spec.onDate = {{"1187", yearBounds(1909)},
                 {"1422", yearBounds(1911)},
                 {"2310", yearBounds(1916)},
                 {"2641", yearBounds(1923)}};
  spec.lastOf = {{"2880", yearBounds(1926)}};
  spec.missing = std::vector<MissingNumbers>{{"1601-1688", "pages torn out"}};
  return spec;
}

inline RuleSpec decorationCode() {
  RuleSpec spec = rule(
      "decoration code", "PREFIX-SERIAL-GROUP/LINING",
      {parts("PREFIX", {"shape.prefix", "for.prefix"}), part("SERIAL", "2 or 3 digits"),
       table("GROUP", {{"A", "a line or stamp only", {}, {}},
                       {"B", "one or two small decals", {}, {}},
                       {"C", "three or more decals, or one large centre", {}, {}},
                       {"D", "a border decal, or a centre with a verge line", {}, {}},
                       {"E", "gold-etched, or solid gold handles", {}, {}}}),
       table("LINING", {lines("0", {{"edge-line", {"none"}}}), lines("1", {{"edge-line", {"gold"}}}),
                        lines("2", {{"edge-line", {"gold"}}, {"verge-line", {"gold"}}}),
                        lines("3", {{"edge-line", {"platinum"}}}), lines("4", {{"edge-line", {"coloured"}}}),
                        lines("5", {{"shoulder", {"lustre band"}}}), lines("6", {{"connecting", {"gold"}}}),
                        lines("7", {{"stamp", {"gold at the rim"}}})})});
  spec.alone = "PREFIX-SERIAL";
  spec.order = order("SERIAL within PREFIX");
  return spec;
}

inline RuleSpec onJessamount() {
  return like("decoration code on Jessamount", decorationCode(), {part("SERIAL", "3 digits")});
}

inline RuleSpec copiedSerial() {
  RuleSpec derived;
  derived.name = "copied serial";
  derived.parts = {part("SERIAL", "last 3 of motif.supplier-number")};
  derived.order = order("none");
  return inherit(decorationCode(), derived);
}

inline RuleSpec experimental() {
  return rule("experimental number", "X-SERIAL", {part("SERIAL", "3 digits")});
}

inline RuleSpec dateCode() {
  RuleSpec spec =
      rule("date code", "WORKS YY QUARTER",
           {part("WORKS", "maker.works.letter"), part("YY", "year 19YY"), part("QUARTER", "quarter")});
  spec.alike = std::vector<std::vector<std::string>>{{"4", "9"}};
  return spec;
}

inline RuleSpec batch() {
  return rule("batch", "YY WEEK", {part("YY", "year 19YY"), part("WEEK", "week")});
}

}  // namespace saggar::codes
