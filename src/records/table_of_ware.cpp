#include "records/table_parts.h"

// Makers and people, and what was made: shapes, forms, motifs, treatments, sets, marks; and the rules of codes.
namespace saggar::records {
namespace {

using enum FieldType;
using tables::group;
using tables::of;
using tables::oneOf;
using tables::ref;

constexpr std::string_view kTrades[] = {"pottery",  "decal supplier", "decorating shop", "wholesaler",
                                        "retailer", "premium giver",  "office"};
constexpr std::string_view kWare[] = {"flat", "hollow", "set"};
constexpr std::string_view kMeasured[] = {"overall", "inside", "to the verge"};
constexpr std::string_view kStatus[] = {"production", "sample",     "premium",
                                        "pick-up",    "unrecorded", "doubtful"};
constexpr std::string_view kMet[] = {"often", "sometimes", "rarely", "once"};
constexpr std::string_view kMarkMethods[] = {"printed", "impressed", "incised", "embossed", "painted"};
constexpr std::string_view kLaid[] = {"underglaze", "overglaze"};
constexpr std::string_view kCodeFields[] = {"treatment.code", "specimen.code-seen", "specimen.date-code",
                                            "registered"};

constexpr FieldSpec kWorks[] = {
    of("works"_f, text, kRequired, "the works' own id or short name", "upper-bench"),
    of("name"_f, text, kOne, "the works as it is printed", "Upper Bench works"),
    of("letter"_f, text, kOne, "the letter that stands for it in date codes", "U"),
    of("used"_f, span, kOne, "from when to when it worked", "1906/1968"),
};
constexpr FieldSpec kTookOver[] = {
    ref("maker"_f, KindSet(Kind::maker), kRequired, "the firm taken over", "haldermoyne"),
    of("on"_f, moment, kOne, "when", "1934"),
    of("what"_f, text, kOne, "what was bought", "moulds and block room"),
};
constexpr FieldSpec kCodeRule[] = {
    of("rule"_f, text, kRequired, "the rule's name", "decoration code"),
    of("like"_f, text, kOne,
       "another rule of the same maker, of which this one takes all that it does not set", "decoration code"),
    oneOf("on"_f, kCodeFields, kOne, "the field it reads; treatment.code unless written",
          "specimen.date-code"),
    of("used"_f, span, kOne, "from when to when it was in use", "1926/1968"),
    of("where"_f, where, kOne, "the records it holds for", "{shape: jessamount}"),
    of("written"_f, text, kOne, "how the parts follow one another; blanks join",
       "PREFIX-SERIAL-GROUP/LINING"),
    of("pattern"_f, text, kOne, "instead of `written`: an RE2 expression whose named groups are the parts",
       "'(?P<YEAR>[0-9]{2})-(?P<SERIAL>[0-9]+)'"),
    of("parts"_f, tree, kOne, "what each part may be", "{SERIAL: 2 or 3 digits}"),
    of("alone"_f, text, kOne, "the part that may stand for one motif only", "PREFIX-SERIAL"),
    of("order"_f, text, kOne, "which number rises in the order of booking; `none` for no order",
       "SERIAL within PREFIX"),
    of("first-of"_f, dateTable, kOne, "numbers that were the first of a date", "{1187: 1909}"),
    of("on-date"_f, dateTable, kOne, "numbers known to be of a date", "{1187: 1909}"),
    of("last-of"_f, dateTable, kOne, "numbers that were the last, and of when", "{2880: 1926}"),
    of("missing"_f, reasons, kOne, "numbers of which the entries are lost, and why",
       "{1601-1688: pages torn out}"),
    of("alike"_f, text, kMany, "signs that the eye confuses", "[4 9]"),
    of("unlike"_f, reasons, kOne, "texts that look like this code and are none, and why",
       "{JM-1932: a year}"),
    of("usual"_f, yesNo, kOne, "yes: a disagreement is a note, no error", "yes"),
    of("means"_f, prose, kOne, "what the code is, for readers", "The number painted on the foot."),
};

constexpr FieldSpec kResemblesMotif[] = {
    ref("motif"_f, KindSet(Kind::motif), kRequired, "the motif it is taken for", "wren-and-medlar"),
    of("tell"_f, prose, kOne, "what tells them apart", "berries and no birds"),
};
constexpr FieldSpec kResemblesShape[] = {
    ref("shape"_f, KindSet(Kind::shape), kRequired, "the shape it is taken for", "brathermoor-no-9"),
    of("tell"_f, prose, kOne, "what tells them apart", "the rival's verge is plain"),
};
constexpr FieldSpec kResemblesTreatment[] = {
    ref("treatment"_f, KindSet(Kind::treatment), kRequired, "the treatment it is taken for", "jm-045"),
    of("tell"_f, prose, kOne, "what tells them apart", "a gold edge line"),
};
constexpr FieldSpec kPieces[] = {
    ref("form"_f, KindSet(Kind::form), kRequired, "the kind of piece", "teapot"),
    ref("of"_f, KindSet(Kind::shape, Kind::treatment), kOne, "its shape or treatment", "shape:jessamount"),
    of("how-many"_f, number, kOne, "how many of them", "6"),
};

constexpr FieldSpec kMaker[] = {
    oneOf("trade"_f, kTrades, kMany, "what the firm did (an office gives numbers, such as registrations)",
          "pottery"),
    of("place"_f, text, kOne, "where it worked", "Tollivane"),
    of("founded"_f, moment, kDated, "when it began", "1889"),
    of("closed"_f, moment, kDated | kMayBeNone, "when it ended", "1968"),
    of("active"_f, span, kDated, "from when to when it is known to have traded", "1926/1961"),
    of("prefix"_f, text, kMany, "the letters that stand for it in codes", "QM"),
    group("works"_f, kWorks, kMany | kInventory, "its works, with their letters",
          "[{works: upper-bench, name: Upper Bench works, letter: U, used: 1906/1968}]"),
    group("took-over"_f, kTookOver, kMany | kInventory, "firms it took over, when and what of them",
          "{maker: haldermoyne, on: 1934, what: moulds and block room}"),
    group("codes"_f, kCodeRule, kMany | kMapping, "its rules for numbers and codes",
          "[{rule: old number, used: 1896/1926, written: NUMBER, parts: {NUMBER: 1 to 2880}}]"),
};
constexpr FieldSpec kPerson[] = {
    of("part"_f, text, kOne, "what the person did", "modeller and head of the design room"),
    of("born"_f, moment, kDated, "day or year of birth", "1901?"),
    of("died"_f, moment, kDated | kMayBeNone, "day or year of death", "by 1950"),
    of("active"_f, span, kDated, "from when to when", "1928/1947"),
};
constexpr FieldSpec kShape[] = {
    ref("maker"_f, KindSet(Kind::maker), kRequired, "who made it", "wesperling"),
    of("prefix"_f, text, kMany, "the letters that stand for it in codes", "JM"),
    ref("modeller"_f, KindSet(Kind::person), kMany, "who modelled it", "ismerelda-quoyne"),
    of("designed"_f, moment, kDated, "when it was designed", "by 1932"),
    of("introduced"_f, moment, kDated, "when it was first offered", "1932"),
    of("withdrawn"_f, moment, kDated | kMayBeNone, "when it was last offered", "1955"),
    ref("forms"_f, KindSet(Kind::form), kMany | kInventory, "the pieces that came in it",
        "[plate-7, teapot]"),
    of("look"_f, look, kOne, "what it looks like, feature by feature", "{outline: round}"),
    group("resembles"_f, kResemblesShape, kMany, "shapes it is taken for, and what tells them apart",
          "{shape: brathermoor-no-9, tell: the rival's verge is plain}"),
    of("registered"_f, text, kMany, "its registration, as it is written on pieces", "Des. Pat. 85412"),
};
constexpr FieldSpec kForm[] = {
    oneOf("ware"_f, kWare, kRequired, "flat, hollow or a set", "flat"),
    of("family"_f, text, kOne, "the family within which count sizes are compared", "bowls"),
    of("nominal"_f, measure, kMayBeNone, "the size that lists give it", "7 in"),
    of("actual"_f, measure, kOne, "what it measures", "9 1/8 in"),
    oneOf("measured"_f, kMeasured, kOne, "which measure is meant; overall unless written", "overall"),
    of("holds"_f, measure, kMany, "what it holds", "24 fl oz"),
    of("parts"_f, text, kMany | kInventory, "the pieces it consists of", "[batter jug, syrup jug, tray]"),
    of("made-in"_f, madeIn, kInventory, "the shapes it came in: a list, `all`, or all but some",
       "{all-but: [ellastrane]}"),
};
constexpr FieldSpec kMotif[] = {
    of("method"_f, text, kOne, "how it was put on", "decal"),
    ref("artist"_f, KindSet(Kind::person), kMany, "who drew it", "ismerelda-quoyne"),
    ref("supplier"_f, KindSet(Kind::maker), kOne, "who supplied it", "vandermoyle"),
    of("supplier-number"_f, text, kMany, "its number in the supplier's books", "402"),
    oneOf("named-by"_f, tables::kNamedByWords, kOne, "who gave it the name used here", "factory"),
    of("designed"_f, moment, kDated, "when it was designed", "by 1930"),
    of("introduced"_f, moment, kDated, "when it was first used", "1930"),
    of("withdrawn"_f, moment, kDated | kMayBeNone, "when it was last used", "1944"),
    of("look"_f, look, kOne, "what it looks like, feature by feature", "{placed: centre, subject: fruit}"),
    group("resembles"_f, kResemblesMotif, kMany, "motifs it is taken for, and what tells them apart",
          "{motif: wren-and-medlar, tell: berries and no birds}"),
    of("registered"_f, text, kMany, "its registration, as it is written on pieces", "Reg. 748910"),
};
constexpr FieldSpec kTreatment[] = {
    ref("shape"_f, KindSet(Kind::shape), kMany | kRequired, "the shape it is on", "jessamount"),
    ref("motif"_f, KindSet(Kind::motif), kRequired | kMayBeNone, "its motif, or none", "copper-pantry"),
    of("code"_f, text, kMany | kMayBeNone, "its number", "JM-045-C/0"),
    of("look"_f, look, kOne, "its lines, glaze and lustre", "{edge-line: gold, glaze: ivory}"),
    of("introduced"_f, moment, kDated, "when it was first booked or offered", "1933"),
    of("withdrawn"_f, moment, kDated | kMayBeNone, "when it was last offered", "1950"),
    ref("forms"_f, KindSet(Kind::form), kMany | kInventory, "the pieces that came with it",
        "[plate-7, teapot]"),
    oneOf("status"_f, kStatus, kOne,
          "production unless written (pick-up fills out an assortment of another line, unrecorded was seen "
          "but is "
          "in no book)",
          "sample"),
    ref("for"_f, KindSet(Kind::maker), kOne, "the customer it was made for", "quennock"),
    ref("decorated-by"_f, KindSet(Kind::maker), kOne, "who decorated it, when not the shape's maker",
        "pennistrode"),
    ref("continues"_f, KindSet(Kind::treatment), kOne, "the treatment it was before it was renumbered",
        "dm-2641"),
    oneOf("met"_f, kMet, kOne, "how often a collector meets with it", "rarely"),
    group("resembles"_f, kResemblesTreatment, kMany, "treatments it is taken for, and what tells them apart",
          "{treatment: jm-045, tell: a gold edge line}"),
};
constexpr FieldSpec kSet[] = {
    ref("for"_f, KindSet(Kind::maker), kOne, "the customer it was made for", "sunderwick"),
    of("offered"_f, span, kDated, "from when to when it was offered", "1938/1948"),
    group("pieces"_f, kPieces, kMany | kInventory, "what it consists of",
          "{form: teapot, of: shape:linnavere, how-many: 1}"),
};
constexpr FieldSpec kMark[] = {
    ref("maker"_f, KindSet(Kind::maker), kRequired, "whose mark it is", "wesperling"),
    oneOf("method"_f, kMarkMethods, kMany, "how it was put on", "printed"),
    oneOf("laid"_f, kLaid, kMany, "under or over the glaze", "underglaze"),
    of("colour"_f, text, kMany, "its colour", "[brown, black]"),
    of("reads"_f, text, kMany, "its words", "TOLLIVANE WARE"),
    of("shows"_f, text, kOne, "its picture", "a ferry boat in a circle"),
    of("carries"_f, text, kMany, "the code that stands with it: the name of a rule", "date code"),
    of("used"_f, span, kDated, "from when to when it was used", "1925/1951"),
    ref("shapes"_f, KindSet(Kind::shape), kMany | kInventory, "the shapes it is seen on",
        "[jessamount, linnavere]"),
    of("look"_f, look, kOne, "what it looks like, feature by feature", "{frame: oval}"),
    ref("photo"_f, KindSet(Kind::photo), kMany, "a picture of it", "k4-on-a-plate"),
};

}  // namespace

std::span<const FieldSpec> codeRuleFields() {
  return kCodeRule;
}

namespace tables {
std::span<const FieldSpec> maker() {
  return kMaker;
}
std::span<const FieldSpec> person() {
  return kPerson;
}
std::span<const FieldSpec> shape() {
  return kShape;
}
std::span<const FieldSpec> form() {
  return kForm;
}
std::span<const FieldSpec> motif() {
  return kMotif;
}
std::span<const FieldSpec> treatment() {
  return kTreatment;
}
std::span<const FieldSpec> set() {
  return kSet;
}
std::span<const FieldSpec> mark() {
  return kMark;
}
}  // namespace tables

}  // namespace saggar::records
