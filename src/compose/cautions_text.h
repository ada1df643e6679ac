#pragma once
#include <string_view>

// The usual caution about old tableware: published facts with their sources and dates, in the program's own words. It
// says what was measured and what was allowed, never that a dish is safe; a laboratory and the rules of the place decide.
namespace saggar::compose {

struct CautionFact {
  std::string_view says;
  std::string_view source;  // in Markdown: a title in italics
};

inline constexpr std::string_view kCautionOpening =
    "Old tableware is for looking at. What follows is published fact about dishes in general, given with its "
    "date; "
    "nothing in it was measured on a dish of this guide.";

inline constexpr CautionFact kCautionFacts[] = {
    {"Of dishes made in the United States before 1970, 78 of 149 gave off more than 3.0 micrograms of lead "
     "per "
     "millilitre, and 26 of 98 more than 0.5 of cadmium. Leaching them again and again did not cure many.",
     "R. W. Sheets, *Science of the Total Environment* 197, 1997, 167–175"},
    {"Dishes of before the 1950s that were heated in a microwave oven for two to five minutes gave off up to "
     "5 mg of "
     "lead a dish.",
     "Sheets, Turpen and Hill, *Science of the Total Environment* 182, 1996, 187–191"},
    {"Looks tell nothing. Of nearly 6,000 items, 14.2 per cent leached lead.",
     "*California Agriculture* 53(5), 1999"},
    {"Limits for lead in the United States, in micrograms per millilitre: flatware 3.0, small hollowware "
     "2.0, large "
     "hollowware 1.0, cups, mugs and pitchers 0.5.",
     "FDA, 1991"},
    {"Limits for cadmium there: flatware 0.5, small hollowware 0.5, large hollowware 0.25. Flat is what is "
     "no more than "
     "25 mm deep inside, large what holds 1.1 litres or more.",
     "FDA Compliance Policy Guide 545.400"},
    {"Some red and orange glazes contain uranium, and acid food draws it out.",
     "Landa and Councell, *Health Physics* 63, 1992, 343–348"},
};

inline constexpr std::string_view kCautionClosing =
    "So: do not eat or drink from old ware unless that piece has been tested. Keep acid food, the dishwasher "
    "and the "
    "microwave oven away from it. Limits differ from place to place and are revised; the rules where you "
    "live and a "
    "laboratory decide, and where they disagree with this page they are right. Nor is this guide an "
    "appraisal.";

// On a sheet, where there is room for one of them.
inline constexpr std::string_view kCautionOnSheets =
    "Looks tell nothing of what a glaze gives off: of nearly 6,000 pieces tested, 14.2 per cent leached lead "
    "(California Agriculture 53(5), 1999). Do not eat or drink from old ware unless that very piece has been "
    "tested; keep acid food, dishwasher and microwave oven away from it. Local rules and a laboratory "
    "decide. "
    "This list is no appraisal.";

}  // namespace saggar::compose
