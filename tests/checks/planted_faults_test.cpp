// Faults planted into a sound small guide of the invented pottery: each is found by the rule that should find it, alone,
// at its line; all together as well; and each mended gives no finding.
#include "../choosing/tollivane.h"
#include "small_guide.h"

using namespace saggar::checks::testing;

namespace {

// The shapes, motifs and figures that the faults need beside those of the small guide.
const std::string kMore = R"(
- shape: tavenshaw
  name: Tavenshaw
  maker: wesperling
  prefix: TV
  introduced: 1926
  withdrawn: 1943
  look: {outline: scalloped, handle: looped}
  cite:
    - books: vol. 2, Tavenshaw

- motif: bellrope-border
  name: Bellrope Border
  introduced: 1911
  withdrawn: 1930
  cite:
    - books: vol. 1, sheet 5120

- motif: copper-pantry
  name: Copper Pantry
  supplier: orvenholt
  supplier-number: 6187
  introduced: 1933
  withdrawn: 1950
  cite:
    - books: vol. 3, sheet 6187

- shape: dorrimere
  name: Dorrimere
  maker: wesperling
  prefix: DM
  introduced: by 7 October 1923
  cite:
    - books: vol. 1, no. 2641

- source: dunnavick-1974
  type: book
  title: Tollivane Tableware
  by: Hesper Dunnavick
  date: 1974

- source: kettlebray-newsletter
  type: newsletter
  title: Notes in the collectors' club newsletter
  by: Lorn Kettlebray
  date: 1988/2009
  draws-on: dunnavick-1974

- source: orrowick-interview
  type: interview
  title: Recollections of the decorating shop, an interview
  by: Tamsen Orrowick
  date: 1981

- term: later-words
  means: "What was written long afterwards: <source:dunnavick-1974>, <source:kettlebray-newsletter>, <source:orrowick-interview>."

- mark: k6
  maker: wesperling
  used: 1952/1968
  cite:
    - books: vol. 6, marks

- shape: fennimarque
  name: Fennimarque
  maker: wesperling
  prefix: FM
  introduced: 1953
  cite:
    - books: vol. 6, Fennimarque

- form: bowl-36s
  ware: hollow
  family: bowls
  nominal: 36s
  holds: 16 fl oz
  cite:
    - books: sizes
)";

struct Fault {
  std::string record;
  std::string place;
  std::string rule;
  std::string mended;
};

std::string mendedBy(std::string record, const std::string& wrong, const std::string& right) {
  const std::size_t at = record.find(wrong);
  REQUIRE(at != std::string::npos);
  return record.replace(at, wrong.size(), right);
}

Fault fault(const std::string& record, const std::string& place, const std::string& rule,
            const std::string& wrong, const std::string& right) {
  return {record, place, rule, mendedBy(record, wrong, right)};
}

std::vector<Fault> faults() {
  return {
      // X1: a decoration on Linnavere, dated before the shape.
      fault("- treatment: lv-03\n  shape: linnavere\n  motif: bellrope-border\n  code: LV-03-D/0\n  look: "
            "{edge-line: none}\n"
            "  introduced: 1930\n  cite:\n    - books: vol. 2, LV-03\n",
            "6:15", "date-before-shape", "shape: linnavere\n  motif: bellrope-border\n  code: LV-03-D/0",
            "shape: tavenshaw\n  motif: bellrope-border\n  code: TV-03-D/0"),
      // X2: a Jessamount piece of 1948 that bears a mark of 1952 to 1968.
      fault("- specimen: jm-piece\n  shape: jessamount\n  marks: [k6]\n  made: 1948\n  seen: {on: 14 May "
            "2019, how: in-hand}\n",
            "4:9", "mark-out-of-time", "made: 1948", "made: 1953"),
      // X3: a date code of a works that had not opened.
      fault("- specimen: t-piece\n  date-code: T261\n  seen: {on: 14 May 2019, how: in-hand}\n", "2:14",
            "works-out-of-time", "T261", "T281"),
      // X14: a decoration for a customer who was no longer there.
      fault("- treatment: qm-113\n  shape: fennimarque\n  motif: none\n  code: QM-113-C/1\n  look: "
            "{edge-line: gold}\n  "
            "for: quennock\n  introduced: 1957\n  cite:\n    - books: vol. 6, QM-113\n",
            "7:15", "maker-out-of-time", "introduced: 1957", "introduced: 1954"),
      // X5: a platinum line two years too early.
      fault("- treatment: jm-070\n  shape: jessamount\n  motif: teasel-row\n  code: JM-070-C/3\n  look: "
            "{edge-line: platinum}\n"
            "  introduced: 1935\n  cite:\n    - books: vol. 4, JM-070\n",
            "6:15", "look-out-of-time", "introduced: 1935", "introduced: 1937"),
      // X6: a claim that cites a source which is not there.
      fault("- claim: first-jessamount\n  says: Jessamount was booked in 1932.\n  cite:\n    - books-99: p. "
            "4\n",
            "4:7", "reference-missing", "books-99", "books"),
      // X7: an actual size below the nominal one.
      fault(
          "- form: plate-6\n  ware: flat\n  nominal: 6 in\n  actual: 5 7/8 in\n  cite:\n    - books: sizes\n",
          "4:11", "size-doubtful", "5 7/8 in", "8 1/4 in"),
      // X8: a claim held on the first guide alone, which cites nothing.
      fault("- claim: dorrimere-in-1922\n  says: Dorrimere was introduced in 1922.\n  about: "
            "[shape:dorrimere]\n  "
            "cite:\n    - dunnavick-1974: the chapter on Dorrimere\n",
            "5:7", "citation-thin", "    - dunnavick-1974: the chapter on Dorrimere\n",
            "    - dunnavick-1974: the chapter on Dorrimere\n    - books: vol. 1, no. 2641\n"),
      // X9: a claim that counts the newsletter beside the first guide, on which it draws.
      fault("- claim: dorrimere-first\n  says: Dorrimere was the first eight-sided shape.\n  about: "
            "[shape:dorrimere]\n  cite:\n    - dunnavick-1974: the chapter on Dorrimere\n    - "
            "kettlebray-newsletter: no. 14\n",
            "6:7", "witness-counted-twice", "kettlebray-newsletter: no. 14", "orrowick-interview: tape 1"),
      // A claim that a piece contradicts which was recorded later.
      fault("- claim: every-linnavere-gilt\n  says: Every Linnavere plate seen has a gold line.\n  about: "
            "[shape:linnavere]\n  test:\n    - no: specimen\n      where: {shape: linnavere}\n      has: "
            "{look.edge-line: none}\n- specimen: lv-plain\n  shape: linnavere\n  look: {edge-line: none}\n  "
            "seen: {on: "
            "14 May 2019, how: in-hand}\n",
            "5:11", "claim-broken", "look: {edge-line: none}", "look: {edge-line: gold}"),
      // A claim that asks what nobody has written down.
      fault("- claim: every-fennimarque-early\n  says: Fennimarque was given up before 1969.\n  about: "
            "[shape:fennimarque]\n  test:\n    - before: [shape:fennimarque.withdrawn, shape:fennimarque]\n",
            "5:15", "claim-broken", "[shape:fennimarque.withdrawn, shape:fennimarque]",
            "[shape:orrinstead, shape:fennimarque]"),
      fault("- claim: fennimarque-angular\n  says: Fennimarque has looped handles.\n  about: "
            "[shape:fennimarque]\n  test:\n    - every: shape\n      where: {prefix: FM}\n      has: "
            "{look.handle: "
            "looped}\n",
            "5:14", "claim-open", "prefix: FM", "prefix: JM"),
      // X10: a bowl 24s that holds less than a bowl 36s.
      fault("- form: bowl-24s\n  ware: hollow\n  family: bowls\n  nominal: 24s\n  holds: 15 fl oz\n  cite:\n "
            "   - books: sizes\n",
            "5:10", "size-out-of-order", "15 fl oz", "25 fl oz"),
      // X11: Copper Pantry on Tavenshaw, before there was the motif.
      fault("- treatment: tv-50\n  shape: tavenshaw\n  motif: copper-pantry\n  code: TV-50-C/1\n  look: "
            "{edge-line: gold}\n"
            "  introduced: 1931\n  cite:\n    - books: vol. 3, TV-50\n",
            "6:15", "date-before-motif", "introduced: 1931", "introduced: 1934"),
      // X15: a shape with the same row of features as Tavenshaw.
      fault("- shape: bellancroft\n  name: Bellancroft\n  maker: wesperling\n  prefix: BC\n  introduced: "
            "1939\n  look: {outline: scalloped, handle: looped}\n  cite:\n    - books: vol. 5, Bellancroft\n",
            "1:10", "twins", "handle: looped", "handle: angular"),
      // X16: segments of 26 minutes for a planned 24.
      fault("- talk: ferry-boats\n  title: Ferry boats and shields\n  budget: 24:00\n  segments:\n"
            "    - {title: Opening, time: 2:00}\n    - {title: The firm in six dates, time: 5:00}\n"
            "    - {title: Six marks, time: 11:00}\n    - {title: Two misreadings, time: 4:00}\n"
            "    - {title: What to look for, time: 3:00}\n    - {title: Close, time: 1:00}\n",
            "3:11", "talk-sum", "time: 11:00", "time: 9:00"),
  };
}

FilesOfGuide with(const std::string& planted) {
  return {{"base.yaml", saggar::choosing::testing::kTollivane + kMore}, {"records.yaml", planted}};
}

}  // namespace

TEST_CASE("the small guide is sound") {
  silent(with(""));
}

TEST_CASE("each planted fault is found by its rule, alone, at its line, and mended is none") {
  for (const Fault& one : faults()) {
    INFO(one.record);
    caught(with(one.record), one.place, one.rule);
    CHECK(Small(with(one.mended)).found == "");
  }
}

TEST_CASE("all of them in one file") {
  std::string text;
  std::string expected;
  std::size_t line = 0;
  for (const Fault& one : faults()) {
    const std::size_t colon = one.place.find(':');
    expected += (expected.empty() ? "" : "\n") +
                std::to_string(line + std::stoul(one.place.substr(0, colon))) + one.place.substr(colon) +
                ' ' + one.rule;
    text += one.record;
    line += static_cast<std::size_t>(std::count(one.record.begin(), one.record.end(), '\n'));
  }
  CHECK(Small(with(text)).found == expected);
}
