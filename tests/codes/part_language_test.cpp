#include "codes/written.h"
#include "making.h"

using namespace saggar::codes;

namespace {

// What a part wants, or the message and hint for one that is not understood.
std::string said(std::string_view text) {
  const Parsed<PartSpec> parsed = parsePart(text);
  CHECK(parsed.value.has_value() == parsed.message.empty());
  if (!parsed.value) CHECK_FALSE(parsed.hint.empty());
  return parsed.value ? wanted(*parsed.value) : "? " + parsed.message;
}

std::string hintFor(std::string_view text) {
  return parsePart(text).hint;
}

}  // namespace

TEST_CASE("each form of a part") {
  CHECK(said("2 digits") == "two digits");
  CHECK(said("1 digit") == "one digit");
  CHECK(said("2 or 3 digits") == "two or three digits");
  CHECK(said("2 to 5 digits") == "two to five digits");
  CHECK(said("2 or 4 digits") == "two or four digits");
  CHECK(said("two digits") == "two digits");
  CHECK(said(" 2  digits ") == "two digits");
  CHECK(said("2 letters") == "two letters");
  CHECK(said("1 or 2 Letters") == "one or two letters");
  CHECK(said("1 to 2880") == "a number from 1 to 2880");
  CHECK(said("001 to 999") == "a number from 001 to 999");
  CHECK(said("0 to 9") == "a number from 0 to 9");
  CHECK(said("shape.prefix") == "the shape.prefix");
  CHECK(said("maker.works.letter") == "the maker.works.letter");
  CHECK(said("last 3 of motif.supplier-number") == "the last three signs of motif.supplier-number");
  CHECK(said("last 1 of motif.supplier-number") == "the last sign of motif.supplier-number");
  CHECK(said("year 19YY") == "the last two digits of a year from 1900 to 1999");
  CHECK(said("year 193y") == "the last digit of a year from 1930 to 1939");
  CHECK(said("year YYYY") == "a year of four digits");
  CHECK(said("year 18YY or 19YY") ==
        "the last two digits of a year from 1800 to 1899 or the last two digits of a year from 1900 to 1999");
  CHECK(said("month") == "a month from 1 to 12");
  CHECK(said("month MM") == "a month from 01 to 12");
  CHECK(said("quarter") == "a quarter from 1 to 4");
  CHECK(said("week") == "a week from 01 to 53");
  CHECK(said("day") == "a day from 1 to 31");
  CHECK(said("day 1 to 19") == "a day from 1 to 19");
  CHECK(said("day DD 1 to 19") == "a day from 01 to 19");
  CHECK(said("Rd") == "\"Rd\"");
  CHECK(said("No. 4") == "\"No. 4\"");
  CHECK(said("text month") == "\"month\"");
  CHECK(said("text 1-4") == "\"1-4\"");
}

TEST_CASE("what is nearly one of the forms is no text") {
  CHECK(hintFor("2 diggits") == "did you mean `2 digits`?");
  CHECK(hintFor("1-2880") == "write `1 to 2880`; if the code has it as it stands, `text 1-2880`");
  CHECK(hintFor("1\xE2\x80\x93"
                "2880")
            .starts_with("write `1 to 2880`"));
  CHECK(hintFor("quater").starts_with("did you mean `quarter`?"));
  CHECK(hintFor("yeer 19YY").starts_with("did you mean `year`?"));
  CHECK(hintFor("2880 to 1") == "write `1 to 2880`");
  CHECK(hintFor("001 to 1999").starts_with("give both ends as many digits"));
  CHECK(hintFor("year 19").starts_with("write the figures that are not typed and a Y"));
  CHECK(hintFor("year 1Y99").starts_with("write the figures"));
  CHECK(hintFor("year").starts_with("write `year 19YY`"));
  CHECK(hintFor("year 19YY or 193Y").starts_with("write `year 19YY`"));
  CHECK(hintFor("week 1 to 60") == "the numbers lie between 1 and 53");
  CHECK(hintFor("month of May").starts_with("write `month`, `month 1 to 12`"));
  CHECK(hintFor("last of motif.supplier-number") == "write `last 3 of motif.supplier-number`");
  CHECK(hintFor("last 3 of prefix").starts_with("a path says whose field it is"));
  CHECK(hintFor("shape.prefix or for.prefix") ==
        "for one path or another write a list: `[shape.prefix, for.prefix]`");
  CHECK(hintFor("Shape.prefix").starts_with("write `shape.prefix`"));
  CHECK(hintFor("some digits").starts_with("write `2 digits`"));
  CHECK(hintFor("0 digits").starts_with("the smaller number first"));
  CHECK(hintFor("3 or 2 digits").starts_with("the smaller number first"));
  CHECK(hintFor("99999999999999999999 digits").starts_with("write `2 digits`"));
  CHECK(said("").starts_with("? nothing is said"));
  CHECK(said("1 to 99999999999999999999").starts_with("? a number of a range"));
  CHECK(said("\xFF") == "? the text is not UTF-8");
  CHECK(said(std::string(61, 'A')).starts_with("? a text of 61 signs"));
}

TEST_CASE("a list is several paths, years or texts") {
  const auto list = [](const std::vector<std::string>& texts) {
    const Parsed<PartSpec> parsed = parsePartList(texts);
    return parsed.value ? wanted(*parsed.value) : "? " + parsed.message;
  };
  CHECK(list({"shape.prefix", "for.prefix"}) == "the shape.prefix or for.prefix");
  CHECK(list({"A", "B"}) == "one of A or B");
  CHECK(list({"A"}) == "\"A\"");
  CHECK(list({"3 digits"}) == "three digits");
  CHECK(list({"year 19YY", "year 18YY"}).starts_with("the last two digits"));
  CHECK(list({"A", "shape.prefix"}) == "? this list mixes different things");
  CHECK(list({"2 digits", "3 digits"}) == "? this list mixes different things");
  CHECK(list({"last 2 of a.b", "last 3 of a.b"}) == "? this list mixes different things");
  CHECK(list({}) == "? an empty list says nothing about this part");
}

TEST_CASE("what a row says of the date") {
  CHECK(parseFact("year", "1842").value == 1842);
  CHECK(parseFact("month", " 9 ").value == 9);
  CHECK(parseFact("month", "september").value == 9);
  CHECK(parseFact("week", "53").value == 53);
  CHECK(parseFact("week", "54").message == "there is no week `54`");
  CHECK(parseFact("month", "Sept").hint ==
        "write a number from 1 to 12: `month: 12`; several as a list: `month: [1, 2]`");
  CHECK(parseFact("year", "0").message == "there is no year `0`");
  CHECK(parseFact("decade", "1").message == "`decade` says nothing about a date");
  DateFacts facts;
  for (const char* key : {"year", "quarter", "month", "week", "day"}) facts.of(key)->push_back(1);
  CHECK(facts.years.size() + facts.quarters.size() + facts.months.size() + facts.weeks.size() +
            facts.days.size() ==
        5);
  CHECK(facts.of("decade") == nullptr);
}

TEST_CASE("signs that are alike") {
  CHECK(*parseAlike("4 9").value == std::vector<std::string>{"4", "9"});
  CHECK(*parseAlike("rn, m").value == std::vector<std::string>{"rn", "m"});
  CHECK_FALSE(parseAlike("4").value);
  CHECK_FALSE(parseAlike("a A").value);
  CHECK_FALSE(parseAlike("").value);
}

TEST_CASE("names, fixed text and joins are told apart") {
  using Kind = WrittenPiece::Kind;
  const auto pieces = [](std::string_view written, const std::vector<std::string>& names) {
    const auto parsed = parseWritten(written, names);
    std::string all;
    if (!parsed.value) return "? " + parsed.message + " / " + parsed.hint;
    for (const WrittenPiece& piece : *parsed.value) {
      all += piece.kind == Kind::part ? "<" + piece.text + ">" : piece.kind == Kind::join ? "_" : piece.text;
    }
    return all;
  };
  CHECK(pieces("PREFIX-SERIAL-GROUP/LINING", {"PREFIX", "SERIAL", "GROUP", "LINING"}) ==
        "<PREFIX>-<SERIAL>-<GROUP>/<LINING>");
  CHECK(pieces("WORKS YY QUARTER", {"WORKS", "YY", "QUARTER"}) == "<WORKS>_<YY>_<QUARTER>");
  CHECK(pieces("X-SERIAL", {"SERIAL"}) == "X-<SERIAL>");
  CHECK(pieces("X-SERIAL", {"SERIAL", "X"}) == "<X>-<SERIAL>");
  CHECK(pieces("No. N", {"N"}) == "No._<N>");
  CHECK(pieces("A  B", {"A", "B"}) == "<A>_<B>");
  CHECK(pieces("PART PART-NO", {"PART", "PART-NO"}) == "<PART>_<PART-NO>");
  CHECK(pieces("\"TR\"-N", {"N"}) == "TR-<N>");
  CHECK(pieces("\"\" N", {"N"}) == "<N>");
  CHECK(pieces("TR-N", {"N"}) ==
        "? `TR` in `written` is no part of this rule / say under `parts` what it is (`TR: 3 digits`), or, if "
        "the code "
        "has these letters, `TR: text TR`");
  CHECK(pieces("YYWW", {"YY", "WW"}) ==
        "? `YYWW` in `written` is no part of this rule / write `YY WW`: a blank in `written` needs none in "
        "the code");
  CHECK(pieces("PREFX-N", {"PREFIX", "N"}).ends_with("did you mean `PREFIX`?"));
  CHECK(pieces("N-N", {"N"}).starts_with("? `N` stands twice"));
  CHECK(pieces("\"TR-N", {"N"}).starts_with("? a quote"));
  CHECK(pieces("", {"N"}).starts_with("? `written` is empty"));
}

TEST_CASE("the order of numbers") {
  CHECK(order("NUMBER").number == "NUMBER");
  CHECK(order("SERIAL within PREFIX").within == std::vector<std::string>{"PREFIX"});
  CHECK(order("S within A and B, C").within == std::vector<std::string>{"A", "B", "C"});
  CHECK(order("none").none());
  for (const char* text : {"", "SERIAL within", "SERIAL within ", " within PREFIX"}) {
    CAPTURE(text);
    CHECK_FALSE(parseOrder(text).value);
  }
}
