#include "compose/phrases.h"
#include "guide_of.h"

// Names, values, looks, evidence and codes in words.
namespace saggar::compose::testing {
namespace {

std::string valueOf(Guide& guide, std::string_view reference, std::string_view field) {
  const PublishedRecord record = guide.record(reference);
  const auto named = records::fieldNamed(field);
  REQUIRE(named.has_value());
  return guide.unlinked().plainValue(record.find(*named), records::specOf(record.kind(), *named), record);
}

TEST_CASE("names: what a record is called in print") {
  Guide guide(Texts{{"records.yaml", kPottery + R"(
- treatment: no-code
  shape: cairn
  motif: fern
- treatment: bare-thing
- claim: long
  says: A claim about [Bryn](shape:bryn) that *says* so.
- specimen: alone
- mark: k-9
)"}});
  const Words words = guide.unlinked();
  auto name = [&](std::string_view reference) { return words.plainName(guide.at(reference)); };
  CHECK(name("shape:bryn") == "Bryn");
  CHECK(name("source:price-list") == "Price List");
  CHECK(name("treatment:br-01") == "BR-01-1 Fern");
  CHECK(name("treatment:br-02") == "BR-02-0 without a motif");
  CHECK(name("treatment:no-code") == "Fern on Cairn");
  CHECK(name("treatment:bare-thing") == "Bare thing");
  CHECK(name("specimen:br-01-plate") == "BR-01-1 Fern, 7-inch plate");
  CHECK(name("specimen:alone") == "Alone");
  CHECK(name("claim:long") == "A claim about Bryn that says so");
  CHECK(name("feature:edge-line") == "edge line");
  CHECK(name("mark:k-9") == "K 9");
  CHECK(words.shortName(guide.at("source:pattern-book")) == "Pattern Book");
  CHECK(words.shortName(guide.at("source:price-list")) == "Price List");  // the title is no longer
  CHECK(words.plainSomebody("mo") == "Mo Delling");
  CHECK(words.plainSomebody("a friend") == "a friend");
}

TEST_CASE("values: dates, sizes, references, and what is not there") {
  Guide guide(Texts{{"records.yaml", R"(
- shape: a
  name: A
  introduced: by 1935
  withdrawn: {is: 1932~, doubted: The page is torn.}
  modeller: unknown
- shape: b
  introduced: 1940/
  withdrawn: {is: 1950, but: [{is: 1951, cite: book}, {is: 1949, set-aside: A slip.}]}
  prefix: none
- form: f
  nominal: 7 in
  actual: 9 x 6 3/4 in
  holds: [24 fl oz, 300 ml]
  made-in: {all-but: [a, b]}
- motif: m
  introduced: ../shape:a
- source: book
  title: The Book
)"}});
  CHECK(valueOf(guide, "shape:a", "introduced") == "by 1935");
  CHECK(valueOf(guide, "shape:a", "withdrawn") == "about 1932 (doubted: the page is torn)");
  CHECK(valueOf(guide, "shape:a", "modeller") == "not known");
  CHECK(valueOf(guide, "shape:a", "maker") == "not recorded");
  CHECK(valueOf(guide, "shape:b", "prefix") == "none");
  CHECK(valueOf(guide, "shape:b", "introduced") == "from 1940, end not known");
  CHECK(valueOf(guide, "shape:b", "withdrawn") == "1950 (or 1951, The Book; not 1949: a slip)");
  CHECK(valueOf(guide, "form:f", "nominal") == "7 in");
  CHECK(valueOf(guide, "form:f", "actual") == "9 x 6 3/4 in (229 x 171 mm)");
  CHECK(valueOf(guide, "form:f", "holds") == "24 fl oz (710 ml) and 300 ml (10.1 fl oz)");
  CHECK(valueOf(guide, "form:f", "made-in") == "all but A and B");
  CHECK(valueOf(guide, "motif:m", "introduced") == "by the time of A");
  CHECK(guide.unlinked().plainDates(guide.record("shape:a")) == "on sale by 1935, to about 1932");
  CHECK(guide.unlinked().plainDates(guide.record("motif:m")) == "by the time of A");
}

TEST_CASE("settings say in which units sizes are printed") {
  for (const auto& [units, printed] :
       {std::pair("inches", "9 1/8 in"), {"metric", "232 mm"}, {"both", "9 1/8 in (232 mm)"}}) {
    Guide guide(Texts{{"guide.yaml", "guide: G\nsettings: {units: " + std::string(units) + "}\n"},
                      {"records.yaml", "- form: f\n  actual: 9 1/8 in\n"}});
    CHECK(valueOf(guide, "form:f", "actual") == printed);
  }
}

TEST_CASE("looks: where English puts the feature") {
  CHECK(Words::featureInWords("edge line", {"gold"}) == "gold edge line");
  CHECK(Words::featureInWords("edge line", {"gold", "platinum"}) == "gold or platinum edge line");
  CHECK(Words::featureInWords("edge line", {"none"}) == "no edge line");
  CHECK(Words::featureInWords("rim", {"yes"}) == "with a rim");
  CHECK(Words::featureInWords("rim", {"no"}) == "no rim");
  CHECK(Words::featureInWords("embossing", {"in panels"}) == "embossing in panels");
  CHECK(Words::featureInWords("cover", {"inside", "over the edge"}) == "cover inside or over the edge");
  CHECK(Words::featureInWords("outline", {"round"}) == "round outline");
  CHECK(Words::featureInWords("finial", {"closed knob"}) == "closed-knob finial");
  CHECK(Words::featureInWords("finial", {"closed knob", "open loop"}) == "closed-knob or open-loop finial");
  CHECK(Words::featureInWords("finial", {"acorn", "open loop"}) == "acorn or open-loop finial");
  CHECK(Words::featureInWords("glaze", {"green tint"}) == "green-tint glaze");
  CHECK(Words::featureInWords("band at the shoulder", {"lustre band"}) == "lustre band at the shoulder");
  CHECK(Words::featureInWords("band at the shoulder", {"gold"}) == "gold band at the shoulder");
  CHECK(Words::featureInWords("stamp", {"gold at the rim"}) == "gold stamp at the rim");
  CHECK(Words::featureInWords("stamp", {"gold stamp at the rim"}) == "gold stamp at the rim");
  CHECK(Words::featureInWords("edge line", {"green and rust"}) == "green and rust edge line");
  CHECK(Words::featureInWords("edge line", {"gold", "none"}) == "gold edge line, or none");
  CHECK(Words::featureInWords("edge line", {"gold", "platinum", "not known"}) ==
        "gold or platinum edge line, or not known");
  CHECK(Words::featureInWords("rim", {"yes", "no"}) == "with or without a rim");
  CHECK(Words::featureInWords("inner rim", {"yes"}) == "with an inner rim");
  CHECK(Words::featureInWords("edge", {"rolled under"}) == "rolled-under edge");
  CHECK(Words::featureInWords("relief", {"six lobes with beads"}) == "six lobes with beads (relief)");
  CHECK(Words::featureInWords("relief", {"scrolls all round"}) == "scrolls-all-round relief");
  CHECK(Words::featureInWords("handle", {"looped", "with a thumb rest"}) ==
        "looped handle or handle with a thumb rest");
  CHECK(Words::featureInWords("handle", {"", " "}) == "handle:  or  ");
  CHECK(Words::featureInWords("finial", {"not known"}) == "finial not known");
  CHECK(Words::featureInWords("finial", {}) == "finial not recorded");
  Guide guide(Texts{{"records.yaml", kPottery}});
  auto look = [&](std::string_view reference) {
    return plain(guide.unlinked().look(guide.record(reference).find("look"_f)));
  };
  CHECK(look("shape:bryn") ==
        "round outline; embossing in panels; closed-knob finial; white glaze, or ivory since 1930");
  CHECK(look("treatment:br-01") == "gold edge line");
  CHECK(look("motif:fern") == "picture: leaves");
  CHECK(look("treatment:ca-shop") == "not recorded");
}

TEST_CASE("a coloured line has the colour that the look names, and the colour is not told again") {
  Guide guide(Texts{{"records.yaml", R"(
- treatment: plain
  look: {edge-line: coloured, colour: green, glaze: white}
- treatment: either
  look: {edge-line: coloured, colour: [green, rust]}
- treatment: by-name
  look: {edge-line: coloured, band: coloured, band-colour: blue, edge-line-colour: red}
- treatment: unknown
  look: {edge-line: coloured, colour: unknown}
- treatment: alone
  look: {edge-line: gold, colour: green}
- treatment: doubtful
  look: {edge-line: coloured, colour: {is: green, doubted: The light was bad.}}
)" + std::string("- feature: edge-line\n- feature: band\n- feature: colour\n- feature: glaze\n"
                 "- feature: band-colour\n- feature: edge-line-colour\n")}});
  auto look = [&](std::string_view reference) {
    return plain(guide.unlinked().look(guide.record(reference).find("look"_f)));
  };
  CHECK(look("treatment:plain") == "green edge line, white glaze");
  CHECK(look("treatment:either") == "green or rust edge line");
  CHECK(look("treatment:by-name") == "red edge line, blue band");
  CHECK(look("treatment:unknown") == "coloured edge line, colour not known");
  CHECK(look("treatment:alone") == "gold edge line, green colour");
  CHECK(look("treatment:doubtful") == "coloured edge line, green colour (doubted: the light was bad)");
}

TEST_CASE("first and last dates as one, in every shape that they have") {
  auto dates = [](const std::string& fields, const std::string& kind = "shape") {
    Guide guide(Texts{{"records.yaml", "- " + kind + ": a\n" + fields}});
    return guide.unlinked().plainDates(guide.record(kind + ":a"));
  };
  CHECK(dates("  introduced: 1932\n  withdrawn: 1955\n") == "1932 to 1955");
  CHECK(dates("  introduced: 1954\n  withdrawn: 1954\n") == "1954");
  CHECK(dates("  introduced: about 1932\n  withdrawn: 1955\n") == "about 1932 to 1955");
  CHECK(dates("  introduced: by 7 October 1923\n  withdrawn: 1938\n") ==
        "on sale by 7 October 1923, to 1938");
  CHECK(dates("  introduced: by 1923\n  withdrawn: 1938\n", "motif") == "in use by 1923, to 1938");
  CHECK(dates("  introduced: from 1923\n  withdrawn: 1938\n") == "not before 1923, to 1938");
  CHECK(dates("  introduced: 1926 to 1935\n  withdrawn: 1938\n") == "first between 1926 and 1935, to 1938");
  CHECK(dates("  introduced: 1932\n  withdrawn: by 1938\n") == "1932 to 1938 at the latest");
  CHECK(dates("  introduced: 1932\n  withdrawn: from 1938\n") == "1932 to 1938 or later");
  CHECK(dates("  introduced: 1932\n  withdrawn: 1938 to 1940\n") == "1932 to a date between 1938 and 1940");
  CHECK(dates("  introduced: 1932\n") == "from 1932");
  CHECK(dates("  introduced: by 1932\n") == "by 1932");
  CHECK(dates("  introduced: from 1932\n") == "not before 1932");
  CHECK(dates("  introduced: 1940/\n") == "not before 1940");
  CHECK(dates("  withdrawn: 1938\n") == "until 1938");
  CHECK(dates("  withdrawn: by 1938\n") == "until 1938 at the latest");
  CHECK(dates("  introduced: unknown\n") == "not known");
  CHECK(dates("  prefix: A\n") == "not recorded");
}

TEST_CASE("the short names of sources have the capitals and hyphens of their titles") {
  Guide guide(Texts{{"records.yaml", R"(
- source: upper-bench-dump
  title: Upper Bench waster dump, trench 2
- source: ledger-standard-1923
  title: A shop's advertisement in the Velm Ledger-Standard
  date: 1923-10-07
- source: trade-directories
  title: Directories of Velm and of the crockery trade
- source: my-notebook
  title: My own notes, taken down at sales and in shops
- source: weekly-1938
  title: Advertisement in the crockery weekly of Velm
- source: tarn-newsletter
  title: Notes in the collectors' club newsletter
  by: lorn-tarn
- person: lorn-tarn
  name: Lorn Tarn
- source: standard-list
  title: The Ledger-Standard and other lists
)"}});
  const Words words = guide.unlinked();
  auto brief = [&](std::string_view reference) { return words.shortName(guide.at(reference)); };
  CHECK(brief("source:upper-bench-dump") == "Upper Bench dump");
  CHECK(brief("source:ledger-standard-1923") == "Ledger-Standard 1923");
  CHECK(brief("source:trade-directories") == "Trade directories");  // a capital only for coming first
  CHECK(brief("source:tarn-newsletter") == "Tarn newsletter");
  // Of other words than its title it would be another source.
  CHECK(brief("source:my-notebook") == "My own notes, taken down at sales and in shops");
  CHECK(brief("source:weekly-1938") == "Advertisement in the crockery weekly of Velm");
  CHECK(brief("source:standard-list") == "Standard list");  // half a compound is none
}

TEST_CASE("an ampersand before a semicolon is read back as it was typed") {
  for (const char* typed :
       {"W&S; the firm", "A&T;", "&#38; and &amp; and &Mu; and &a;", "one & two; three&four;"}) {
    document::Document document;
    document.blocks.push_back(document::paragraph({document::text(typed)}));
    const reading::NoTextMap nowhere;
    const auto read = reading::parseMarkdown(render::renderMarkdown(document), nowhere, {{}, {}, true});
    REQUIRE(read.blocks.size() == 1);
    CHECK(plain(read.blocks[0].inlines) == typed);
  }
}

TEST_CASE("sentences of authors within ours") {
  CHECK(asClause("The page is torn.") == "the page is torn");
  CHECK(asClause("Brathermoor closed.") == "Brathermoor closed");
  CHECK(asClause("  It may be so; U394 too.  ") == "it may be so; U394 too");
  CHECK(asClause("I saw it") == "I saw it");
  CHECK(asClause("and so on...") == "and so on...");
  CHECK(asClause("").empty());
  auto noted = [](std::string_view words) {
    return plain(sentenceWithNote({document::text(std::string(words))}, {document::text("p. 3")}));
  };
  CHECK(noted("It is torn.") == "It is torn (p. 3).");
  CHECK(noted("It is torn") == "It is torn (p. 3).");
  CHECK(noted("Is it torn?") == "Is it torn? (p. 3)");
  CHECK(noted("It reads W.S.P.CO.") == "It reads W.S.P.CO. (p. 3)");
  CHECK(plain(sentenceWithNote({document::text("It is torn")}, {})) == "It is torn.");
  CHECK(holderInWords("private collection") == "a private collection");
  CHECK(holderInWords("the Mere collection") == "the Mere collection");
  CHECK(holderInWords("Velm Museum") == "Velm Museum");
  CHECK(holderInWords("public record office") == "public record office");
  CHECK(withArticle("old number") == "an old number");
}

TEST_CASE("evidence: sources with their places, judgement, or the words that there is none") {
  Guide guide(Texts{{"records.yaml", R"(
- shape: a
  introduced:
    is: 1900
    cite:
      - book: p. 1
      - book: p. 3
      - list
      - {source: list, at: p. 9, says: not-found}
      - {source: list, at: p. 10, says: indirect}
  withdrawn: {is: 1910, judged: by the glaze}
  cite:
    - book: leaf 2
- shape: b
  introduced: 1900
- shape: c
  introduced: {is: 1901, cite: specimen:s}
- specimen: s
  shape: c
- source: book
  title: The Old Book of the Works
- source: list
  title: The List
)"}});
  const Words words = guide.words();
  const PublishedRecord a = guide.record("shape:a");
  CHECK(plain(words.ownEvidence(*a.find("introduced"_f))) ==
        "The Old Book of the Works, p. 1 and p. 3; The List; not found in The List, p. 9; by "
        "inference from The List, p. 10");
  CHECK(plain(words.ownEvidence(*a.find("withdrawn"_f))) == "the author's judgement: by the glaze");
  CHECK(plain(words.evidence(*a.find("withdrawn"_f), a)) ==
        "The Old Book of the Works, leaf 2; the author's judgement: by the glaze");
  CHECK(plain(words.rowEvidence(a)) == "Book, leaf 2");
  CHECK(plain(words.recordEvidence(a)) == "The Old Book of the Works, leaf 2");
  CHECK(plain(words.evidenceOfRecord(guide.record("shape:b"))) == "no source recorded");
  CHECK(plain(words.rowEvidence(guide.record("shape:c"))) == "a piece seen: C");
  CHECK(words.ownEvidence(*guide.record("shape:b").find("introduced"_f)).empty());
  // Each citation leads to the source's entry.
  const Inlines linked = words.rowEvidence(a);
  REQUIRE(!linked.empty());
  CHECK(*linked[0].target == Target{.file = "sources", .anchor = "source-book", .address = {}});
}

TEST_CASE("codes are read out part by part, and readings that part in one place are told together") {
  Guide guide(Texts{{"records.yaml", R"(
- maker: m
  codes:
    - rule: code
      written: PREFIX-SERIAL/LINE
      parts:
        PREFIX: [shape.prefix, for.prefix]
        SERIAL: 2 digits
        LINE: {0: {look: {line: none}}, 1: {look: {line: gold, verge: gold}}, 2: two small decals}
    - rule: copied
      like: code
      parts: {SERIAL: last 2 of motif.supplier-number}
    - rule: old number
      written: NUMBER
      parts: {NUMBER: 1 to 2880}
    - rule: date code
      on: specimen.date-code
      written: YY QUARTER
      parts: {YY: year 19YY, QUARTER: quarter}
- shape: a
  name: Alder
  maker: m
  prefix: AL
- motif: x
  supplier-number: 4433
- treatment: counted
  shape: a
  motif: x
  code: AL-07/1
- treatment: both
  shape: a
  motif: x
  code: AL-33/2
- treatment: old
  shape: a
  code: 1187
- treatment: none-reads
  shape: a
  code: what is this
- specimen: s
  treatment: both
  date-code: 343
- feature: line
  values: {none: x, gold: y}
- feature: verge
  values: {none: x, gold: y}
)"}});
  auto said = [&](std::string_view reference) {
    return plain(guide.unlinked().codeReadings(guide.at(reference)));
  };
  CHECK(said("treatment:counted") == "AL-07/1: AL for Alder, serial 07, 1 for a gold line and a gold verge");
  CHECK(said("treatment:both") ==
        "AL-33/2: AL for Alder; serial 33, or 33 copied from the end of the supplier's number; 2 for two "
        "small decals");
  CHECK(said("treatment:old") == "1187: an old number");
  CHECK(said("treatment:none-reads") == "what is this");
  CHECK(said("specimen:s") == "343: 3rd quarter 1934");
}

}  // namespace
}  // namespace saggar::compose::testing
