// SEMANTICS, "What a citation is worth": which fields need evidence, and what is evidence.
#include "small_guide.h"

using namespace saggar;
using namespace saggar::checks::testing;

namespace {

std::string found(const std::string& records) {
  return Small(records + kBooks).found;
}

}  // namespace

TEST_CASE("a record without a citation, and with one") {
  silent("- shape: jessamount\n  name: Jessamount\n  introduced: 1932\n  cite: books\n" + kBooks);
  caught("- shape: jessamount\n  name: Jessamount\n  introduced: 1932\n", "3:3", "uncited");
}

TEST_CASE("one finding a record, that names its fields and stands at the first") {
  const Small one(
      "- shape: jessamount\n  name: Jessamount\n  introduced: 1932\n  withdrawn: 1955\n  designed: by "
      "1932\n");
  CHECK(one.found == "3:3 uncited");
  CHECK(one.one().message == "`introduced`, `withdrawn` and `designed` of shape:jessamount have no citation");
  CHECK(one.one().record == "shape:jessamount");
  CHECK(one.one().field == "");
  CHECK(Small("- maker: wesperling\n  place: Tollivane\n").one().message ==
        "`place` of maker:wesperling has no citation");
  CHECK(Small("- maker: wesperling\n  place: Tollivane\n").one().field == "place");
  const Small many(
      "- maker: wesperling\n  trade: pottery\n  place: Tollivane\n  founded: 1889\n  closed: 1968\n  active: "
      "1889/1968\n"
      "  works: ferry-street\n  took-over: wesperling\n");
  CHECK(many.one().message ==
        "`trade`, `place`, `founded`, `closed`, `active` and 2 further fields of maker:wesperling have no "
        "citation");
}

TEST_CASE("fields that need none") {
  silent(
      "- maker: wesperling\n  name: Wesperling & Sarnock\n  also: W&S\n  note: Best known for its ivory "
      "ware.\n  prefix: WS\n"
      "  more: {Bodies: white}\n  see: maker:wesperling\n  kept: box 4\n  owner: a friend\n  paid: twelve\n  "
      "my-own: words\n");
  silent("- {motif: teasel-row, name: Teasel Row, named-by: retailer}\n");
  silent("- {treatment: a, status: sample, met: rarely}\n");
  silent("- {person: ismerelda-quoyne, born: 1901, part: modeller}\n");
  silent("- {term: verge, means: The line where the rim meets the well.}\n");
  silent("- {feature: glaze, of: shape, values: {ivory: yellowish}}\n");
  silent("- {question: tr-6, asks: What does TR-6 mean?}\n");
  silent("- {specimen: a, form: plate, seen: 2019, size: 9 in}\n- {form: plate}\n");
}

TEST_CASE("unknown needs none, and none needs one") {
  silent("- {treatment: a, code: unknown, motif: unknown}\n");
  CHECK(found("- {treatment: a, code: none}\n") == "1:18 uncited\n2:12 source-unused");
  CHECK(found("- {treatment: a, code: {is: none, cite: books}}\n") == "");
}

TEST_CASE("evidence beside a value, a judgement, and what is no evidence") {
  CHECK(found("- {shape: a, introduced: {is: 1932, cite: books}}\n") == "");
  CHECK(found("- {shape: a, introduced: {is: 1932, judged: of the later handles}}\n- {term: x, means: y, "
              "note: <source:books>}\n") == "");
  CHECK(found("- {shape: a, introduced: {is: 1932, doubted: worn}}\n- {term: x, means: y, note: "
              "<source:books>}\n") == "1:14 uncited");
  CHECK(found("- {shape: a, introduced: {is: 1932, note: so they say}}\n- {term: x, means: y, note: "
              "<source:books>}\n") == "1:14 uncited");
  CHECK(found("- {shape: a, introduced: {is: 1932, but: {is: 1933, cite: books}}}\n") == "1:14 uncited");
  CHECK(found("- {shape: a, forms: {is: [plate], complete: yes}}\n- {form: plate}\n- {term: x, means: y, "
              "note: <source:books>}\n") == "1:14 uncited");
  // A specimen can be cited as well.
  CHECK(found("- {shape: a, introduced: {is: 1932, cite: specimen:b}}\n- {specimen: b, shape: a, form: "
              "plate, seen: 2019}\n"
              "- {form: plate}\n- {term: x, means: y, note: <source:books>}\n") == "");
}

TEST_CASE("evidence on every member of a list or a look is enough, on some of them is not") {
  const std::string forms =
      "- {form: plate}\n- {form: cup}\n- {feature: edge, values: {gold: g}}\n- {feature: glaze, values: "
      "{ivory: i}}\n";
  CHECK(found("- {shape: a, forms: [{is: plate, cite: books}, {is: cup, cite: books}]}\n" + forms) == "");
  CHECK(found("- {shape: a, forms: [{is: plate, cite: books}, cup]}\n" + forms) == "1:14 uncited");
  CHECK(found("- {shape: a, forms: {is: [plate, cup], cite: books}}\n" + forms) == "");
  CHECK(
      found(
          "- {shape: a, look: {edge: {is: gold, cite: books}, glaze: {is: ivory, judged: by the colour}}}\n" +
          forms) == "");
  CHECK(found("- {shape: a, look: {edge: {is: gold, cite: books}, glaze: ivory}}\n" + forms) ==
        "1:14 uncited");
  CHECK(found("- {shape: a, look: {edge: {is: gold, cite: books}, glaze: unknown}}\n" + forms) == "");
  CHECK(found("- {maker: a, works: [{works: tunnel, letter: T, cite: books}]}\n") == "");
  CHECK(found("- {maker: a, works: [{works: tunnel, cite: books}, {works: bench}]}\n") == "1:14 uncited");
}

TEST_CASE("not-found is evidence for what is unknown or absent, and for nothing else") {
  CHECK(found("- {treatment: a, code: {is: none, cite: {source: books, says: not-found}}}\n") == "");
  const Small said("- {treatment: a, code: {is: JM-1, cite: {source: books, says: not-found}}}\n" + kBooks,
                   {"uncited"_rule});
  CHECK(said.found == "1:18 uncited");
  CHECK(said.one().message == "`code` of treatment:a is cited only from where it was looked for in vain");
  // The record's own citation covers fields that have none of their own.
  CHECK(found("- shape: a\n  introduced: 1932\n  withdrawn: {is: 1955, cite: {source: books, says: "
              "not-found}}\n  cite: books\n") == "3:3 uncited");
  CHECK(found("- treatment: a\n  code: none\n  cite: {source: books, says: not-found}\n") == "");
  CHECK(
      found("- treatment: a\n  code: none\n  introduced: 1932\n  cite: {source: books, says: not-found}\n") ==
      "3:3 uncited");
  CHECK(found("- shape: a\n  introduced: 1932\n  cite: [books, {source: books, says: not-found}]\n") == "");
}

TEST_CASE("a citation that leads nowhere counts as given: one mistake, one finding") {
  CHECK(Small("- {shape: a, introduced: 1932, cite: bookz}\n").found == "1:38 reference-missing");
}

TEST_CASE("nothing is said of a record of which a part could not be read") {
  CHECK(Small("- {shape: a, introduced: 1932, withdrawn: never}\n").found == "1:43 date-unreadable");
}

TEST_CASE("a claim that is held wants a citation or a test") {
  caught("- claim: a\n  says: Ring handles came late.\n", "2:3", "uncited");
  silent("- claim: a\n  says: Ring handles came late.\n  cite: books\n" + kBooks);
  silent("- claim: a\n  says: Ring handles came late.\n  status: supposed\n");
  silent("- claim: a\n  says: Ring handles came late.\n  status: withdrawn\n");
  CHECK(Small("- claim: a\n  says: Ring handles came late.\n  status: held\n").found == "2:3 uncited");
  silent("- claim: a\n  says: Ring handles came late.\n  test: {every: shape, has: {introduced: 1932}}\n");
  silent("- claim: a\n  says: {is: Ring handles came late., judged: from twelve pieces}\n");
}
