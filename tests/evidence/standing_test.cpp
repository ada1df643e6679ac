// Where a fact stands: what counts for it, and how much.
#include "small.h"

using namespace saggar;
using namespace saggar::evidence;
using namespace saggar::evidence::testing;

namespace {

const std::string kSources =
    cited("books", "decoration-book", "date: 1926/1945") + cited("list", "price-list", "date: 1955") +
    cited("directory", "directory", "date: 1890/1931") + cited("copy", "copy", "date: 1946/1968") +
    cited("guide", "book", "date: 1974, by: Hesper Dunnavick") +
    cited("notes", "newsletter", "date: 1988/2009, by: Lorn Kettlebray, draws-on: guide") +
    cited("sale", "sale", "date: 2003, draws-on: notes") + cited("talk", "interview", "date: 1981") +
    cited("website", "website");

std::string of(const std::string& field, records::Field name) {
  return Small(kSources + "- {shape: a, " + field + "}\n").standing("shape:a", name);
}
std::string ofDate(const std::string& value) {
  return of("introduced: " + value, "introduced"_f);
}
std::string wordsOf(const std::string& value) {
  return Small(kSources + "- {shape: a, introduced: " + value + "}\n").inWords("shape:a", "introduced"_f);
}

}  // namespace

TEST_CASE("documented, supported, suggested, judged, uncited") {
  CHECK(ofDate("{is: 1932, cite: books}") == "documented");
  CHECK(ofDate("{is: 1932, cite: {source: books, says: indirect}}") == "supported");
  CHECK(ofDate("{is: 1930, cite: directory}") == "supported");
  CHECK(ofDate("{is: 1950, cite: copy}") == "supported");
  CHECK(ofDate("{is: 1932, cite: talk}") == "supported");
  CHECK(ofDate("{is: 1932, cite: guide}") == "suggested");
  CHECK(ofDate("{is: 1932, cite: [guide, website]}") == "supported");
  CHECK(ofDate("{is: 1932, cite: [guide, notes]}") == "suggested");
  CHECK(ofDate("{is: 1932, judged: by the handles}") == "judged");
  CHECK(ofDate("1932") == "uncited");
  CHECK(ofDate("{is: 1932, doubted: worn}") == "uncited");
  CHECK(ofDate("{is: 1932, cite: [guide, books]}") == "documented");
}

TEST_CASE("what the author infers is his judgement, whatever he infers it from") {
  CHECK(ofDate("{is: 1932, cite: books, judged: by the place of the entry}") == "judged");
}

TEST_CASE("words an author would write") {
  CHECK(wordsOf("{is: 1932, cite: books}") == "documented");
  CHECK(wordsOf("{is: 1932, cite: [guide, website]}") == "supported by two independent witnesses");
  CHECK(wordsOf("{is: 1932, cite: {source: books, says: indirect}}") == "supported by inference");
  CHECK(wordsOf("{is: 1930, cite: directory}") == "supported by a source of the time at second hand");
  CHECK(wordsOf("{is: 1950, cite: copy}") == "supported by a copy of a source of the time");
  CHECK(wordsOf("{is: 1932, cite: talk}") == "supported by later words of somebody who was there");
  CHECK(wordsOf("{is: 1932, cite: guide}") == "suggested by one account");
  CHECK(wordsOf("{is: 1932, cite: [guide, notes]}") == "suggested by accounts that go back to one");
  CHECK(wordsOf("{is: 1932, judged: by the handles}") == "the author's judgement");
  CHECK(wordsOf("1932") == "no source recorded");
  CHECK(wordsOf("{is: 1955, cite: books}") == "its source is too early to show it");
  CHECK(wordsOf("{is: 1932, cite: {source: books, says: not-found}}") == "looked for in vain");
  CHECK(wordsOf("{is: 1932, cite: guide, but: {is: 1933, cite: website}}") ==
        "disputed; suggested by one account");
}

TEST_CASE("disputed: another source says otherwise, and nobody has set it aside") {
  CHECK(ofDate("{is: 1932, cite: books, but: {is: 1933, cite: guide}}") == "disputed documented");
  CHECK(ofDate("{is: 1932, cite: books, but: {is: 1933, cite: guide, set-aside: it cites nothing}}") ==
        "documented");
  CHECK(ofDate("{is: 1932, cite: books, but: [{is: 1933, cite: guide, set-aside: so}, {is: 1934, cite: "
               "website}]}") == "disputed documented");
  // Beside a list it is so of the list and of each member.
  const Small list(
      kSources +
      "- form: cup\n- form: plate\n- {shape: a, forms: {is: [cup, plate], but: {is: [cup], cite: "
      "guide}}, cite: books}\n");
  CHECK(list.standing("shape:a", "forms"_f) == "disputed documented");
  CHECK(list.weights->weigh(list.at("shape:a"), list.value("shape:a", "forms"_f).items()[1]).disputed);
}

TEST_CASE("what reasoning finds in conflict is disputed, and so is what it is part of") {
  Small guide(kSources +
              "- form: cup\n- form: plate\n- {shape: a, forms: [cup, plate], introduced: 1932, cite: "
              "books}\n");
  const Value& forms = guide.value("shape:a", "forms"_f);
  guide.weights->dispute(forms.items()[0]);
  CHECK(guide.standing("shape:a", "forms"_f) == "disputed documented");
  CHECK(guide.standing("shape:a", "introduced"_f) == "documented");
  CHECK(guide.weights->weigh(guide.at("shape:a"), forms.items()[0]).disputed);
  CHECK_FALSE(guide.weights->weigh(guide.at("shape:a"), forms.items()[1]).disputed);
}

TEST_CASE("what was looked for in vain counts for what is unknown or absent, and for nothing else") {
  CHECK(ofDate("{is: 1932, cite: {source: books, says: not-found}}") == "uncited");
  CHECK(ofDate("{is: 1932, cite: [guide, {source: books, says: not-found}]}") == "suggested");
  const auto code = [](const std::string& value) {
    return Small(kSources + "- {treatment: a, code: " + value + "}\n").standing("treatment:a", "code"_f);
  };
  CHECK(code("{is: none, cite: {source: books, says: not-found}}") == "supported");
  CHECK(code("{is: unknown, cite: {source: books, says: not-found}}") == "supported");
  CHECK(code("{is: none, cite: {source: guide, says: not-found}}") == "suggested");
  CHECK(code("{is: JM-1, cite: {source: books, says: not-found}}") == "uncited");
  CHECK(Small(kSources + "- {treatment: a, code: {is: none, cite: {source: books, says: not-found}}}\n")
            .inWords("treatment:a", "code"_f) == "supported by a search that found none");
}

TEST_CASE("a source that is wholly earlier than the fact does not count") {
  CHECK(ofDate("{is: 1955, cite: books}") == "uncited");
  CHECK(ofDate("{is: 1945, cite: books}") == "documented");
  CHECK(ofDate("{is: 1 January 1946, cite: books}") == "uncited");
  CHECK(ofDate("{is: 1945/1955, cite: books}") == "documented");
  CHECK(ofDate("{is: by 1955, cite: books}") == "documented");
  CHECK(ofDate("{is: from 1946, cite: books}") == "uncited");
  CHECK(ofDate("{is: 1955, cite: [books, guide]}") == "suggested");
  // Wide bounds: about 1950 may have been 1945; what is doubted binds nothing.
  CHECK(ofDate("{is: about 1950, cite: books}") == "documented");
  CHECK(ofDate("{is: about 1951, cite: books}") == "uncited");
  CHECK(ofDate("{is: perhaps 1955, cite: books}") == "documented");
  CHECK(ofDate("{is: 1955, cite: books, doubted: a slip of the pen}") == "documented");
  // The entry's own date, where it is given; a source without a date is of any.
  CHECK(ofDate("{is: 1940, cite: {source: books, dated: 1932-05}}") == "uncited");
  CHECK(ofDate("{is: 1932, cite: {source: books, dated: 1932-05}}") == "documented");
  CHECK(ofDate("{is: 1955, cite: website}") == "suggested");
  // It is the fact that must not be later, whatever else the record says.
  CHECK(of("introduced: 1955, modeller: quoyne, cite: books", "modeller"_f) == "documented");
  CHECK(of("introduced: 1955, modeller: quoyne, cite: books", "introduced"_f) == "uncited");
  const Small span(kSources +
                   "- {mark: m, used: {is: 1940/1968, cite: books}}\n- {mark: n, used: {is: 1946/1968, "
                   "cite: books}}\n");
  CHECK(span.standing("mark:m", "used"_f) == "documented");
  CHECK(span.standing("mark:n", "used"_f) == "uncited");
  CHECK(span.weigh("mark:n", "used"_f).tooEarly != nullptr);
  // A piece is of the day it was made, where that is known.
  const Small piece(
      "- {specimen: p, seen: 1997, made: 1933}\n- {specimen: q, seen: 1997}\n"
      "- {shape: a, introduced: {is: 1934, cite: specimen:p}, withdrawn: {is: 1934, cite: specimen:q}}\n");
  CHECK(piece.standing("shape:a", "introduced"_f) == "uncited");
  CHECK(piece.standing("shape:a", "withdrawn"_f) == "documented");
}

TEST_CASE("pieces and photos") {
  const Small guide(
      "- {specimen: hand, seen: {on: 1997, how: in-hand}}\n- {specimen: plain, seen: 1997}\n"
      "- {specimen: picture, seen: {on: 1997, how: photograph}}\n- {specimen: told, seen: {on: 1997, how: "
      "reported}}\n"
      "- {specimen: both, seen: [{on: 1990, how: reported}, {on: 1997, how: in-hand}]}\n- {specimen: "
      "unseen}\n"
      "- {photo: p, file: images/p.png}\n");
  const auto worth = [&](const char* reference) {
    const Worth one = guide.weights->worthOf(guide.at(reference));
    return std::string(word(one.form)) + ' ' + std::string(word(one.information)) +
           (one.direct ? "" : " indirect") + (one.shows == Shows::existed ? " existed" : "");
  };
  CHECK(worth("specimen:hand") == "original primary existed");
  CHECK(worth("specimen:plain") == "original primary existed");
  CHECK(worth("specimen:both") == "original primary existed");
  CHECK(worth("specimen:picture") == "original primary indirect existed");
  CHECK(worth("specimen:told") == "authored undetermined");
  CHECK(worth("specimen:unseen") == "authored undetermined");
  CHECK(worth("photo:p") == "original primary existed");
}

TEST_CASE("the record's own citation is for what has none; a wrapper for its members and inside a look") {
  const Small guide(
      kSources +
      "- form: cup\n- form: plate\n- {feature: rim, values: {gold: g}}\n- {feature: glaze, values: "
      "{ivory: i, white: w}}\n"
      "- shape: a\n  modeller: quoyne\n  introduced: {is: 1932, cite: guide}\n"
      "  forms: {is: [cup, {is: plate, judged: by its relief}], cite: directory}\n"
      "  look: {rim: {is: gold, cite: guide}, glaze: [{is: ivory, used: 1926/.., cite: copy}, white]}\n"
      "  cite: books\n");
  CHECK(guide.standing("shape:a", "modeller"_f) == "documented");
  CHECK(guide.standing("shape:a", "introduced"_f) == "suggested");
  const RecordIndex shape = guide.at("shape:a");
  const Value& forms = guide.value("shape:a", "forms"_f);
  CHECK((guide.weights->weigh(shape, forms.items()[0]).standing == Standing::supported));
  CHECK((guide.weights->weigh(shape, forms.items()[1]).standing == Standing::judged));
  // A list stands as its weakest member does.
  CHECK(guide.standing("shape:a", "forms"_f) == "judged");
  const Value& look = guide.value("shape:a", "look"_f);
  CHECK((guide.weights->weigh(shape, look.entries()[0].value).standing == Standing::suggested));
  const Value& glaze = look.entries()[1].value;
  CHECK((guide.weights->weigh(shape, glaze.items()[0]).standing == Standing::supported));
  CHECK((guide.weights->weigh(shape, *glaze.items()[0].find("used"_f)).standing == Standing::supported));
  CHECK((guide.weights->weigh(shape, glaze.items()[1]).standing == Standing::documented));
  CHECK(guide.weights->backingOf(shape, glaze.items()[0]).own);
  CHECK_FALSE(guide.weights->backingOf(shape, glaze.items()[1]).own);
  // The walk over a record says the same of each part.
  guide.weights->eachFact(
      shape, [](const Entry&) { return true; },
      [&](const Entry&, const Value& part, const Weighed& weighed) {
        const Weighed asked = guide.weights->weigh(shape, part);
        CHECK((asked.standing == weighed.standing));
        CHECK(asked.own == weighed.own);
        CHECK(asked.evidence == weighed.evidence);
      });
}

TEST_CASE(
    "what is unknown weighs nothing among other parts, and later words are no word on a date inside a look") {
  const Small guide(kSources +
                    "- form: cup\n- {feature: glaze, values: {ivory: i, white: w}}\n"
                    "- {shape: a, forms: {is: [unknown, cup], cite: guide}}\n"
                    "- {shape: b, look: {glaze: {is: ivory, used: 1930/.., cite: talk}}}\n"
                    "- {shape: c, look: {glaze: {is: ivory, cite: talk}}}\n");
  CHECK(guide.standing("shape:a", "forms"_f) == "suggested");
  CHECK(guide.standing("shape:b", "look"_f) == "supported");
  CHECK(guide.standing("shape:c", "look"_f) == "documented");
}

TEST_CASE("a citation that leads nowhere leaves open what the fact is worth") {
  const Small guide(kSources +
                    "- {shape: a, introduced: {is: 1932, cite: bookz}}\n- {shape: b, introduced: {is: "
                    "1932, cite: [guide, bookz]}}\n");
  CHECK(guide.weigh("shape:a", "introduced"_f).lost);
  CHECK(guide.standing("shape:a", "introduced"_f) == "suggested");
  CHECK(guide.weigh("shape:b", "introduced"_f).lost);
  CHECK_FALSE(guide.weigh("shape:b", "introduced"_f).countedTwice);
}

TEST_CASE("one witness cited as two") {
  const auto twice = [](const std::string& cite) {
    return Small(kSources + "- {shape: a, introduced: {is: 1932, cite: [" + cite + "]}}\n")
        .weigh("shape:a", "introduced"_f)
        .countedTwice;
  };
  CHECK(twice("guide, notes"));
  CHECK(twice("guide, sale"));
  CHECK(twice("guide, notes, sale"));
  CHECK(twice("{source: guide, at: p. 1}, {source: guide, at: p. 2}"));
  CHECK_FALSE(twice("guide"));
  CHECK_FALSE(twice("guide, website"));
  CHECK_FALSE(twice("guide, notes, website"));
  CHECK_FALSE(twice("guide, notes, books"));
  CHECK_FALSE(twice("guide, {source: notes, says: not-found}"));
}

TEST_CASE("how a treatment is known") {
  const Small guide(
      kSources +
      "- treatment: hand\n- {specimen: a, treatment: hand, seen: [{on: 1990, how: photograph}, 1997]}\n"
      "- {treatment: picture, cite: books}\n- {specimen: b, treatment: picture, seen: {on: 1997, how: "
      "photograph}}\n- {specimen: c, treatment: picture, seen: {on: 1998, how: reported}}\n"
      "- {treatment: paper, introduced: {is: 1932, cite: guide}}\n- {specimen: d, treatment: paper, seen: "
      "{on: "
      "1997, how: reported}}\n"
      "- treatment: told\n- {specimen: e, treatment: told, seen: {on: 1997, how: reported}}\n"
      "- {treatment: neither, code: {is: none, cite: {source: books, says: not-found}}}\n- {specimen: f, "
      "treatment: "
      "neither}\n");
  const auto known = [&](const char* id) {
    return std::string(word(guide.weights->knownBy(guide.at(std::string("treatment:") + id))));
  };
  CHECK(known("hand") == "in hand");
  CHECK(known("picture") == "pictured");
  CHECK(known("paper") == "documented only");
  CHECK(known("told") == "reported only");
  CHECK(known("neither") == "not seen");
}
