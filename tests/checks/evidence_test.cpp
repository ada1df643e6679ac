// SEMANTICS, "What a citation is worth" and "Findings": statements that are only suggested, one witness counted as two,
// sources that are too early, rings, grades without a reason. One cause, one finding.
#include "small_guide.h"

using namespace saggar;
using namespace saggar::checks::testing;

namespace {

const std::string kGuide =
    "- {source: first-guide, title: The first guide, type: book, by: Hesper Dunnavick, date: 1974}\n";
const std::string kNotes =
    "- {source: notes, title: Notes, type: newsletter, by: Lorn Kettlebray, date: 1988/2009, draws-on: "
    "first-guide}\n";
const std::string kWebsite =
    "- {source: website, title: A website, type: website, link: 'https://example.org'}\n";
const std::string kTerm = "- {term: x, means: y, note: '<source:books> <source:first-guide>'}\n";

std::string claim(const std::string& cite, const std::string& more = {}) {
  return "- claim: a\n  says: Dorrimere came in 1922.\n  cite: [" + cite + "]\n" + more;
}
constexpr const char* kOfGuide = "{source: first-guide, at: p. 4}";
constexpr const char* kOfNotes = "{source: notes, at: no. 17}";
constexpr const char* kOfWebsite = "{source: website, at: the page on Dorrimere}";

std::string both(const char* one, const char* other) {
  return std::string(one) + ", " + other;
}
std::string found(const std::string& records) {
  return Small(records).found;
}

}  // namespace

TEST_CASE("a held claim on one later account") {
  caught(claim(kOfGuide) + kGuide, "3:19", "citation-thin");
  const Small thin(claim(kOfGuide) + kGuide);
  CHECK(thin.one().message ==
        "`says` of claim:a rests on `first-guide`, an authored account at second hand, and on nothing else");
  CHECK(thin.one().field == "says");
  REQUIRE(thin.one().facts.size() == 1);
  CHECK(thin.one().facts[0].standing == "suggested");
  silent(claim("books") + kBooks);
  silent(claim(std::string("books, ") + kOfGuide) + kBooks + kGuide);
  silent(claim(both(kOfGuide, kOfWebsite)) + kGuide + kWebsite);
  // What is only supposed or was given up may rest on little; what is tested rests on the records.
  for (const char* status : {"supposed", "doubted", "withdrawn"})
    silent(claim(kOfGuide, std::string("  status: ") + status + "\n") + kGuide);
  silent(claim(kOfGuide, "  test: {every: shape, has: {introduced: 1932}}\n") + kGuide);
}

TEST_CASE("fields on one later account: one finding a record, that names them") {
  caught("- {shape: a, introduced: 1932, registered: 85412, cite: " + std::string(kOfGuide) + "}\n" + kGuide,
         "1:66", "citation-thin");
  const Small two("- {shape: a, introduced: 1932, registered: 85412, cite: " + std::string(kOfGuide) + "}\n" +
                  kGuide);
  CHECK(two.one().message ==
        "`introduced` and `registered` of shape:a rest on `first-guide`, an authored account at "
        "second hand, and on nothing else");
  CHECK(two.one().field == "");
  CHECK(Small("- {shape: a, introduced: {is: 1932, cite: " + std::string(kOfGuide) +
              "}, registered: {is: 85412, cite: " + kOfWebsite + "}}\n" + kGuide + kWebsite)
            .one()
            .message == "`introduced` and `registered` of shape:a are only suggested");
  // One member of a list is enough.
  CHECK(found("- {form: cup}\n- {form: plate}\n- {shape: a, forms: [cup, {is: plate, cite: " +
              std::string(kOfGuide) + "}], cite: books}\n" + kBooks + kGuide) == "3:54 citation-thin");
  // Fields that need no evidence need none that is good.
  silent("- {shape: a, name: A, also: {name: B, cite: " + std::string(kOfGuide) +
         "}, introduced: 1932, cite: books}\n" + kBooks + kGuide);
  silent("- {shape: a, introduced: {is: 1932, judged: by the handles, cite: " + std::string(kOfGuide) +
         "}}\n" + kGuide);
  silent("- {person: a, born: {is: 1901, cite: " + std::string(kOfGuide) + "}}\n" + kGuide);
}

TEST_CASE("thin for other reasons") {
  CHECK(Small("- {shape: a, introduced: 1932, cite: s}\n- {source: s, title: S}\n").one().message ==
        "`introduced` of shape:a rests on `s`, of which no `type` is recorded, and on nothing else");
  CHECK(Small("- {shape: a, registered: 85412, cite: specimen:b}\n- {specimen: b, form: cup, seen: {on: "
              "2019, how: "
              "reported}}\n- {form: cup}\n")
            .one()
            .message ==
        "`registered` of shape:a rests on `specimen:b`, a piece that was only reported, and on nothing "
        "else");
  CHECK(
      Small(
          "- {shape: a, registered: 85412, cite: {source: s, at: p. 1}}\n- {source: s, title: S, type: copy, "
          "information: secondary}\n")
          .one()
          .message == "`registered` of shape:a rests on `s`, a copy at second hand, and on nothing else");
}

TEST_CASE("one witness cited as two") {
  const std::string sources = kGuide + kNotes;
  caught(claim(both(kOfGuide, kOfNotes)) + sources, "3:52", "witness-counted-twice");
  const Small two(claim(both(kOfGuide, kOfNotes)) + sources);
  CHECK(two.one().message == "`says` of claim:a has one witness, not two: `notes` draws on `first-guide`");
  CHECK(Small(claim(both(kOfNotes, kOfGuide)) + sources).one().message ==
        "`says` of claim:a has one witness, not two: `notes` draws on `first-guide`");
  // A third that owes them nothing makes it two witnesses; one of the time needs no second.
  silent(claim(both(kOfGuide, kOfNotes) + ", " + kOfWebsite) + sources + kWebsite);
  silent(claim(both(kOfGuide, kOfNotes) + ", books") + sources + kBooks);
  // It is said even of what is only supposed, not of what was given up.
  CHECK(found(claim(both(kOfGuide, kOfNotes), "  status: supposed\n") + sources) ==
        "3:52 witness-counted-twice");
  silent(claim(both(kOfGuide, kOfNotes), "  status: withdrawn\n") + sources);
}

TEST_CASE("the ways in which two are one witness") {
  const auto message = [](const std::string& cite, const std::string& sources) {
    return Small(claim(cite) + sources).one().message;
  };
  CHECK(message("{source: first-guide, at: p. 4}, {source: first-guide, at: p. 9}", kGuide) ==
        "`says` of claim:a has one witness, not two: `first-guide` is one witness, wherever in it you look");
  const std::string copies =
      "- {source: a, title: A, type: post, draws-on: first-guide}\n- {source: b, title: B, type: "
      "post, draws-on: first-guide}\n";
  CHECK(message("{source: a, at: x}, {source: b, at: x}", copies + kGuide) ==
        "`says` of claim:a has one witness, not two: `a` and `b` both draw on `first-guide`");
  CHECK(message("{source: a, at: x}, {source: second, at: x}",
                "- {source: a, title: A, type: book, by: Hesper Dunnavick}\n- {source: second, title: S, "
                "type: post, by: "
                "hesper dunnavick}\n") ==
        "`says` of claim:a has one witness, not two: `a` and `second` are by the same person");
  CHECK(message("{source: a, at: x}, {source: b, at: x}, {source: first-guide, at: x}", copies + kGuide) ==
        "`says` of claim:a has one witness, not 3: `a` and `b` both draw on `first-guide`");
}

TEST_CASE("where it is said that two are one witness, and what the date of a source is") {
  const auto shown = [](const std::string& records, const std::string& line) {
    const std::string text = Small(records).text;
    INFO(text);
    CHECK(text.find(line) != std::string::npos);
  };
  const std::string first = "- source: first\n  title: First\n  type: book\n  by: A. Nother\n  date: 1974\n";
  const std::string second = "- source: second\n  title: Second\n  type: post\n  draws-on: first\n";
  const std::string cited =
      "- shape: a\n  registered: 85412\n  cite: [{source: first, at: x}, {source: second, at: x}]\n";
  shown(first + second + cited, "records.yaml:9:3: what it draws on is said here");
  shown(first + second +
            "- shape: a\n  registered: 85412\n  cite: [{source: second, at: x}, {source: first, at: x}]\n",
        "records.yaml:9:3: what it draws on is said here");
  shown(first + "- source: second\n  title: Second\n  type: post\n  by: A. Nother\n" + cited,
        "records.yaml:9:3: who it comes from is said here");
  shown(first +
            "- source: late\n  title: Late\n  type: trade-notice\n  date: 1926\n- {shape: a, withdrawn: {is: "
            "1955, cite: late}}\n",
        "records.yaml:9:3: its date stands here");
}

TEST_CASE("what nobody knows wants no evidence, of whatever worth") {
  const std::string cite = "[" + both(kOfGuide, kOfNotes) + "]";
  const std::string sources = kGuide + kNotes;
  silent("- {shape: a, introduced: unknown, cite: " + cite + "}\n" + sources);
  silent("- {shape: a, introduced: {is: unknown, cite: " + cite + "}}\n" + sources);
  silent("- {shape: a, introduced: unknown, cite: [" + std::string(kOfGuide) + "]}\n" + kGuide);
  CHECK(found("- {shape: a, introduced: unknown, registered: 85412, cite: " + cite + "}\n" + sources) ==
        "1:103 witness-counted-twice");
  CHECK(Small("- {shape: a, introduced: unknown, registered: 85412, cite: " + cite + "}\n" + sources)
            .one()
            .field == "registered");
}

TEST_CASE("a witness counted twice beside any value") {
  const std::string cite = "[" + both(kOfGuide, kOfNotes) + "]";
  const std::string sources = kGuide + kNotes;
  CHECK(found("- {shape: a, introduced: 1932, cite: " + cite + "}\n" + sources) ==
        "1:81 witness-counted-twice");
  CHECK(found("- {person: a, born: {is: 1901, cite: " + cite + "}}\n" + sources) ==
        "1:81 witness-counted-twice");
  CHECK(found("- {question: q, asks: Why?, for: {says: So., cite: " + cite + "}}\n" + sources) ==
        "1:95 witness-counted-twice");
  // What no reader is asked to believe is not weighed: the record's citation does not make it so.
  silent("- {person: a, born: 1901, cite: " + cite + "}\n" + sources);
  silent("- {claim: a, says: So., status: doubted, against: " + cite + "}\n" + sources);
}

TEST_CASE("a source that ends before the fact") {
  const std::string books = "- {source: old, title: Old books, type: trade-notice, date: 1926/1945}\n";
  caught("- {shape: a, withdrawn: {is: 1955, cite: old}}\n" + books, "1:42", "source-too-early");
  const Small early("- {shape: a, withdrawn: {is: 1955, cite: old}}\n" + books);
  CHECK(early.one().message ==
        "`withdrawn` of shape:a is later than `old`, which ends on 31 December 1945 and cannot show it");
  CHECK(Small("- {shape: a, withdrawn: 1955, introduced: 1950, cite: old}\n" + books).one().message ==
        "`withdrawn` and `introduced` of shape:a are later than `old`, which ends on 31 December 1945 and "
        "cannot show "
        "it");
  silent("- {shape: a, withdrawn: {is: 1945, cite: old}}\n" + books);
  silent("- {shape: a, withdrawn: {is: 1955, cite: [old, books]}}\n" + books + kBooks);
  silent("- {shape: a, withdrawn: {is: 1955, judged: by the price list, cite: old}}\n" + books);
  // Where something else counts, that is what is weighed.
  CHECK(found("- {shape: a, withdrawn: {is: 1955, cite: [old, " + std::string(kOfGuide) + "]}}\n" + books +
              kGuide) == "1:57 citation-thin");
  // Of what needs no evidence its own is looked at, the record's is not.
  CHECK(found("- {person: a, died: {is: 1955, cite: old}}\n" + books) == "1:38 source-too-early");
  silent("- {person: a, died: 1955, cite: old}\n" + books);
  // The date of the entry is nearer than that of the source.
  CHECK(Small("- {shape: a, withdrawn: {is: 1940, cite: {source: old, dated: 1932-05}}}\n" + books)
            .one()
            .message ==
        "`withdrawn` of shape:a is later than the entry in `old` of May 1932, which cannot show it");
}

TEST_CASE("a ring of sources") {
  const std::string a = "- {source: a, title: A, type: trade-notice, draws-on: b}\n";
  const std::string b = "- {source: b, title: B, type: trade-notice, draws-on: c}\n";
  caught(a + b + "- {source: c, title: C, type: trade-notice, draws-on: a}\n", "1:55", "source-ring");
  silent(claim("a") + a + b + "- {source: c, title: C, type: trade-notice}\n");
  const Small ring(a + b + "- {source: c, title: C, type: trade-notice, draws-on: a}\n");
  CHECK(ring.one().message == "`a`, `b` and `c` draw on one another in a ring");
  CHECK(ring.one().records == std::vector<std::string>{"source:a", "source:b", "source:c"});
  CHECK(ring.one().related.size() == 2);
  CHECK(Small("- {source: a, title: A, draws-on: a}\n" + kTerm + kBooks + kGuide, {"source-ring"_rule})
            .one()
            .message == "`a` draws on itself");
  // Two rings are two findings; what draws on a ring is not of it.
  CHECK(Small("- {source: a, draws-on: b}\n- {source: b, draws-on: a}\n- {source: c, draws-on: [a, d]}\n- "
              "{source: d, "
              "draws-on: [c, b]}\n",
              {"source-ring"_rule})
            .found == "1:25 source-ring\n3:29 source-ring");
  std::string many;
  for (int i = 0; i < 30; ++i)
    many += "- {source: s" + std::to_string(i) + ", draws-on: s" + std::to_string((i + 1) % 30) + "}\n";
  CHECK(Small(many, {"source-ring"_rule}).one().message ==
        "`s0`, `s1`, `s2`, `s3`, `s4`, `s5`, `s6` and 23 further sources draw on one another in a ring");
}

TEST_CASE("a ring is one witness") {
  const std::string ring =
      "- {source: a, title: A, type: post, draws-on: b}\n- {source: b, title: B, type: post, "
      "draws-on: a}\n";
  CHECK(found(claim("{source: a, at: x}, {source: b, at: x}") + ring) ==
        "3:39 witness-counted-twice\n4:47 source-ring");
}

TEST_CASE("a grade above the type, and no word why") {
  const auto source = [](const std::string& more) {
    return claim("s") + "- {source: s, title: S, type: trade-notice, " + more + "}\n";
  };
  const auto website = [](const std::string& more) {
    return claim("{source: s, at: x}, books") + kBooks + "- {source: s, title: S, type: website, " + more +
           "}\n";
  };
  caught(website("record: original"), "5:48", "graded-too-high");
  CHECK(Small(website("record: original")).one().message ==
        "`s` has `record: original`, where its type `website` is authored, and no note says why");
  CHECK(Small(website("record: derivative, information: secondary")).one().message ==
        "`s` has `record: derivative`, where its type `website` is authored and `information: secondary`, "
        "where its "
        "type `website` is undetermined, and no note says why");
  CHECK(found(website("information: primary")) == "5:53 graded-too-high");
  silent(website("record: original, note: It shows the leaves."));
  silent(website("record: {is: original, note: It shows the leaves.}"));
  silent(website("record: authored, information: undetermined"));
  silent(source("record: derivative, note: A tracing."));
  silent(source("record: original"));
  silent(source("record: derivative"));
  CHECK(Small("- {source: s, title: S, information: primary}\n", {"graded-too-high"_rule}).one().message ==
        "`s` has `information: primary`, where without a type it is undetermined, and no note says why");
}

TEST_CASE("one cause, one finding") {
  // Nothing is concluded from a citation that leads nowhere, nor of a record that could not be read.
  CHECK(found(claim("{source: first-gide, at: p. 4}")) == "3:19 reference-missing");
  CHECK(found("- {shape: a, introduced: 1932, withdrawn: never, cite: " + std::string(kOfGuide) + "}\n" +
              kGuide) == "1:43 date-unreadable");
  // A source whose type is misspelt may be worth anything.
  CHECK(found(claim("{source: s, at: p. 4}") + "- {source: s, title: S, type: bok}\n") == "4:31 value-unfit");
}

TEST_CASE("waived") {
  const std::string waiver =
      "guide: An example\nwaivers:\n  - {rule: citation-thin, record: claim:a, because: it is being looked "
      "for}\n";
  CHECK(Small({{"guide.yaml", waiver}, {"records.yaml", claim(kOfGuide) + kGuide}}).found ==
        "3:19 citation-thin waived");
}
