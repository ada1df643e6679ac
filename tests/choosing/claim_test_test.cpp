#include "tested.h"

// What a test comes out as, and what is named for it. All data is invented.
using namespace saggar;
using namespace saggar::choosing;
using namespace saggar::choosing::testing;

namespace {

const std::string kShapes = R"(- source: books
  type: decoration-book
  title: Order books
  date: 1889/1965
- source: guide-1974
  type: book
  title: An old guide
  date: 1974
- maker: ambry
  name: Ambry
  cite: books
- feature: handle
  of: shape
  values: {ring: a round ring, looped: a loop}
- feature: finial
  of: shape
  values: {slot: a bar, knob: a knob}
- shape: alder
  maker: ambry
  look: {handle: ring, finial: slot}
  introduced: 1930
  forms: [plate]
  cite: books
- shape: birch
  maker: ambry
  look: {handle: looped, finial: knob}
  introduced: about 1936
  withdrawn: 1950
  forms: {is: [plate, pot], complete: yes}
  cite: books
- form: plate
- form: pot
)";

std::string shape(const std::string& id, const std::string& rest) {
  return "- shape: " + id + "\n  maker: ambry\n" + rest;
}

std::string shapes(const std::string& more, const std::string& test) {
  return outcome(kShapes + more, test);
}

const std::string kRings =
    "{every: shape, where: {maker: ambry, look.handle: ring}, has: {look.finial: slot}}";

}  // namespace

TEST_CASE("every") {
  CHECK(shapes("", kRings) ==
        "holds; shape:alder look.finial=slot documented, maker=ambry documented, "
        "look.handle=ring documented");
  CHECK(shapes(shape("cedar", "  look: {handle: ring, finial: knob}\n  cite: books\n"), kRings) ==
        "broken firmly; shape:cedar look.finial=knob documented, maker=ambry documented, look.handle=ring "
        "documented");
  CHECK(shapes(shape("cedar", "  look: {handle: ring, finial: knob}\n  cite: guide-1974\n"), kRings) ==
        "broken; shape:cedar look.finial=knob suggested, maker=ambry suggested, look.handle=ring suggested");
  // What nobody is sure of breaks nothing.
  CHECK(shapes(shape("cedar", "  look: {handle: ring}\n"), kRings) == "open; shape:cedar look.finial?");
  CHECK(shapes(shape("cedar", "  look: {handle: ring, finial: unknown}\n"), kRings) ==
        "open; shape:cedar look.finial=unknown?");
  CHECK(shapes(shape("cedar", "  look: {finial: knob}\n"), kRings) == "open; shape:cedar look.handle?");
  CHECK(shapes(shape("cedar", "  look: {finial: slot}\n"), kRings).starts_with("holds"));
  CHECK(shapes("- shape: cedar\n  maker: none\n", kRings).starts_with("holds"));
}

TEST_CASE("no, some and count") {
  const std::string early = "{no: shape, where: {maker: ambry}, has: {introduced: ../1929}}";
  CHECK(shapes("", early).starts_with("holds"));
  CHECK(shapes(shape("cedar", "  introduced: 1925\n  cite: books\n"), early) ==
        "broken firmly; shape:cedar introduced=1925 documented, maker=ambry documented");
  CHECK(shapes(shape("cedar", "  introduced: {is: 1925, doubted: a torn page}\n  cite: books\n"), early) ==
        "open; shape:cedar introduced=1925 documented?");
  CHECK(shapes(shape("cedar", "  introduced: 1928/1932\n"), early) ==
        "open; shape:cedar introduced=1928/1932 uncited?");
  CHECK(shapes(shape("cedar", ""), early) == "open; shape:cedar introduced?");

  CHECK(shapes("", "{some: shape, where: {look.handle: ring}}") ==
        "holds; shape:alder look.handle=ring documented");
  CHECK(shapes("", "{some: shape, where: {maker: ambry}, has: {introduced: 1951/..}}") ==
        "broken firmly; shape:alder introduced=1930 documented, maker=ambry documented; "
        "shape:birch introduced=about 1936 documented, maker=ambry documented");
  CHECK(shapes("", "{some: motif}") == "broken");
  CHECK(shapes("- shape: cedar\n", "{some: shape, where: {introduced: 1951/..}}") ==
        "open; shape:cedar introduced?");

  CHECK(shapes("", "{count: shape, where: {maker: ambry}, makes: 2}").starts_with("holds"));
  CHECK(shapes("", "{count: shape, where: {maker: ambry}, makes: 1}")
            .starts_with("broken firmly; shape:alder"));
  CHECK(shapes("", "{count: shape, where: {maker: ambry}, makes: 3 to 5}").starts_with("broken"));
  CHECK(shapes("- shape: cedar\n", "{count: shape, where: {maker: ambry}, makes: 2}") ==
        "open; shape:cedar maker?");
  CHECK(shapes("- shape: cedar\n", "{count: shape, where: {maker: ambry}, makes: 2 to 3}")
            .starts_with("holds"));
}

TEST_CASE("a count is broken firmly only by as many as are well enough known") {
  const std::string weak = shape("cedar", "  cite: guide-1974\n");
  CHECK(shapes(weak, "{count: shape, where: {maker: ambry}, makes: 2}").starts_with("broken; "));
  CHECK(shapes(weak, "{count: shape, where: {maker: ambry}, makes: 1}").starts_with("broken firmly; "));
}

TEST_CASE("lists, and what a list does not leave out") {
  CHECK(shapes("", "{no: shape, has: {forms: pot}}") ==
        "broken firmly; shape:birch forms=plate, pot documented");
  CHECK(shapes("", "{every: shape, has: {forms: pot}}") ==
        "open; shape:alder form:pot made-in?, forms=plate documented?");
  CHECK(outcome(kShapes + "- treatment: t\n  forms: {is: [plate], complete: yes}\n  cite: books\n",
                "{every: treatment, has: {forms: pot}}") ==
        "broken firmly; treatment:t forms=plate documented");
  CHECK(outcome(kShapes + "- treatment: t\n  forms: [plate]\n  cite: books\n",
                "{every: treatment, has: {forms: pot}}") == "open; treatment:t forms=plate documented?");
  // One value without brackets is a list of one; what is no list by its nature has no more than that value.
  CHECK(outcome(kShapes + "- treatment: t\n  forms: plate\n  cite: books\n",
                "{every: treatment, has: {forms: pot}}") == "open; treatment:t forms=plate documented?");
  CHECK(outcome(kShapes + "- treatment: t\n  forms: {is: plate, complete: yes}\n  cite: books\n",
                "{every: treatment, has: {forms: pot}}") ==
        "broken firmly; treatment:t forms=plate documented");
  CHECK(outcome(kShapes + "- treatment: t\n  code: T-1\n  cite: books\n",
                "{every: treatment, has: {code: T-2}}") == "broken firmly; treatment:t code=T-1 documented");
  const std::string piece = "- mark: m1\n- mark: m2\n- specimen: sp\n  form: plate\n  seen: 2000\n";
  CHECK(outcome(kShapes + piece + "  marks: m1\n", "{some: specimen, has: {marks: m2}}").starts_with("open"));
  CHECK(outcome(kShapes + piece + "  marks: {mark: m1, at: the foot}\n", "{some: specimen, has: {marks: m2}}")
            .starts_with("open"));
  CHECK(outcome(kShapes + piece + "  marks: none\n", "{some: specimen, has: {marks: m2}}")
            .starts_with("broken"));
  const std::string cup = "- shape: cedar\n  forms: {is: plate, complete: yes}\n- form: cup\n  made-in: ";
  CHECK(outcome(kShapes + cup + "birch\n", "{every: form, where: {id: cup}, has: {made-in: alder}}")
            .starts_with("open"));
  CHECK(outcome(kShapes + cup + "birch\n", "{every: form, where: {id: cup}, has: {made-in: cedar}}")
            .starts_with("broken"));
}

TEST_CASE("what is asked of other records names their facts, and the word that leads there") {
  const std::string gold = "- treatment: t\n  shape: alder\n  cite: guide-1974\n";
  CHECK(outcome(kShapes + gold, "{no: treatment, has: {shape.look.handle: ring}}") ==
        "broken; treatment:t shape=alder suggested, shape:alder look.handle=ring documented");
  CHECK(outcome(kShapes + gold, "{no: treatment, has: {shape: {look.handle: ring, maker: ambry}}}") ==
        "broken; treatment:t shape=alder suggested, shape:alder look.handle=ring documented, shape:alder "
        "maker=ambry documented");
}

TEST_CASE("dates are taken at their widest, as far as all facts tell") {
  const std::string later = "{every: shape, where: {look.handle: looped}, has: {introduced: 1935/..}}";
  CHECK(shapes("", later) == "open; shape:birch introduced=about 1936 documented?");
  CHECK(outcome(kShapes, "{every: shape, where: {look.handle: looped}, has: {introduced: 1930/..}}")
            .starts_with("holds"));
  // A piece that was made in 1932 shows that there was the shape.
  const std::string piece =
      shape("cedar", "  introduced: by 1940\n  cite: books\n") +
      "- specimen: cedar-plate\n  shape: cedar\n  made: 1929\n  seen: {on: 2019, how: in-hand}\n";
  CHECK(shapes(piece, "{no: shape, has: {introduced: ../1929}}") ==
        "broken firmly; shape:cedar specimen:cedar-plate made=1929 documented, specimen:cedar-plate "
        "shape=cedar "
        "documented");
}

TEST_CASE("before") {
  CHECK(shapes("", "before: [shape:alder, shape:birch.withdrawn]").starts_with("holds"));
  CHECK(shapes("", "before: [shape:birch.withdrawn, shape:alder]") ==
        "broken firmly; shape:birch withdrawn=1950 documented, shape:alder introduced=1930 documented");
  CHECK(shapes("", "before: [shape:birch, shape:alder.withdrawn]") ==
        "open; shape:birch introduced=about 1936?; shape:alder withdrawn?");
  // A treatment is never older than its shape, whatever the years.
  CHECK(outcome(kShapes + "- treatment: t\n  shape: alder\n  cite: books\n",
                "before: [treatment:t, shape:alder]") == "broken firmly; treatment:t shape=alder documented");
  // Only what is documented proves.
  CHECK(
      shapes(shape("cedar", "  introduced: 1960\n  cite: guide-1974\n"), "before: [shape:alder, shape:cedar]")
          .starts_with("open"));
}

TEST_CASE("same and differ") {
  CHECK(shapes("", "same: [shape:alder, shape:birch, maker]").starts_with("holds"));
  CHECK(shapes("", "differ: [shape:alder, shape:birch, look.handle]").starts_with("holds"));
  CHECK(shapes("", "same: [shape:alder, shape:birch, look.handle]") ==
        "broken firmly; shape:alder look.handle=ring documented; shape:birch look.handle=looped documented");
  CHECK(shapes("", "differ: [shape:alder, shape:birch, maker]").starts_with("broken firmly"));
  CHECK(shapes("", "same: [shape:alder, shape:birch, withdrawn]") == "open; shape:alder withdrawn?");
  CHECK(shapes(shape("cedar", "  look: {handle: [ring, looped]}\n"),
               "same: [shape:alder, shape:cedar, look.handle]")
            .starts_with("broken"));
  CHECK(shapes(shape("cedar", "  introduced: 1930\n"), "same: [shape:alder, shape:cedar, introduced]")
            .starts_with("holds"));
  CHECK(shapes(shape("cedar", "  introduced: 1929/1931\n"), "same: [shape:alder, shape:cedar, introduced]")
            .starts_with("open"));
  // Of a list that may leave something out nobody knows whether it is the same.
  CHECK(shapes(shape("cedar", "  forms: [plate]\n"), "same: [shape:alder, shape:cedar, forms]")
            .starts_with("open"));
  CHECK(shapes(shape("cedar", "  forms: none\n"), "same: [shape:birch, shape:cedar, forms]")
            .starts_with("broken"));
}

TEST_CASE("a claim comes out as the worst of its tests, and what cannot be read is not run") {
  const auto claim = [](const std::string& tests, const std::string& more = {}) {
    const Tested tested(kShapes + "- claim: c\n  says: Something.\n" + more + "  test:\n" + tests);
    return Tested::word(tested.result("c").outcome);
  };
  const std::string holds = "    - {some: shape}\n";
  const std::string open = "    - {some: shape, where: {resembles: absent, withdrawn: 1970}}\n";
  const std::string broken = "    - {no: shape}\n";
  const std::string wrong = "    - {no: shape, where: {lok.handle: ring}}\n";
  CHECK(claim(holds) == "holds");
  CHECK(claim(holds + open) == "open");
  CHECK(claim(broken + open + holds) == "broken");
  CHECK(claim(holds + wrong) == "untested");
  CHECK(claim(open + wrong) == "open");
  CHECK(claim(broken + wrong) == "broken");
  CHECK(claim("    - {no: shape, where: {maker: ambri}}\n") == "untested");
  CHECK(claim("    - {no: shape, where: {any: [{maker: ambry}, {maker: ambri}]}}\n") == "untested");
  CHECK(claim("    - {no: shape, where: {maker: [ambry, ambri]}}\n") == "untested");
  CHECK(claim("    - {before: [shape:alder]}\n") == "untested");
  CHECK(claim("    - {same: [shape:alder, shape:birch, mkaer]}\n") == "untested");
}

TEST_CASE("what was withdrawn or replaced is not tested") {
  const std::string test = "  test: {no: shape}\n";
  const Tested tested(kShapes + "- claim: old\n  says: One.\n" + test +
                      "- claim: new\n  says: Two.\n  replaces: old\n" + test +
                      "- claim: gone\n  says: Three.\n  status: withdrawn\n" + test);
  CHECK(tested.results.of(tested.guide.at("claim:old")) == nullptr);
  CHECK(tested.results.of(tested.guide.at("claim:gone")) == nullptr);
  CHECK(tested.result("new").outcome == Outcome::broken);
}

namespace {

std::string piece(const std::string& id, const std::string& rest, const std::string& how = "in-hand") {
  return "- specimen: " + id + "\n  seen: {on: 2019, how: " + how + "}\n" + rest;
}

}  // namespace

TEST_CASE("what a piece shows counts: its look, where its ware's record says nothing") {
  const std::string cedar = shape("cedar", "  look: {handle: ring}\n  cite: books\n");
  CHECK(shapes(cedar, kRings) == "open; shape:cedar look.finial?");
  CHECK(shapes(cedar + piece("p", "  shape: cedar\n  look: {finial: slot}\n"), kRings).starts_with("holds"));
  CHECK(shapes(cedar + piece("p", "  shape: cedar\n  look: {finial: knob}\n"), kRings) ==
        "broken firmly; specimen:p look.finial=knob documented, shape:cedar maker=ambry documented, "
        "shape:cedar "
        "look.handle=ring documented");
  CHECK(shapes(cedar + piece("p", "  shape: cedar\n  look: {finial: knob}\n", "reported"), kRings)
            .starts_with("broken; specimen:p look.finial=knob suggested"));
  CHECK(shapes(cedar + piece("p", "  shape: cedar\n  look: {finial: [knob, slot]}\n"), kRings)
            .starts_with("open"));
  const std::string lines =
      "- feature: edge\n  of: treatment\n  values: {gold: gold, red: red}\n"
      "- treatment: t\n  shape: alder\n  motif: none\n  cite: books\n";
  CHECK(outcome(kShapes + lines, "{no: treatment, has: {look.edge: gold}}") ==
        "open; treatment:t look.edge?");
  CHECK(outcome(kShapes + lines + piece("p", "  treatment: t\n  look: {edge: gold}\n"),
                "{no: treatment, has: {look.edge: gold}}") ==
        "broken firmly; treatment:t specimen:p look.edge=gold documented");
  CHECK(outcome(kShapes + lines + piece("p", "  treatment: t\n  look: {edge: gold}\n"),
                "{no: treatment, has: {look: {edge: gold}}}") ==
        "broken firmly; treatment:t specimen:p look.edge=gold documented");
  CHECK(outcome(kShapes + lines + piece("p", "  treatment: t\n  look: {edge: gold}\n"),
                "{count: treatment, where: {shape: alder, look.edge: gold}, makes: 1}")
            .starts_with("holds"));
}

TEST_CASE(
    "a piece breaks what its ware's record bears out, if it shows something that is not recorded there") {
  const std::string ring = "  shape: alder\n  look: {finial: knob}\n";
  CHECK(shapes(piece("p", ring), kRings) ==
        "broken firmly; specimen:p look.finial=knob documented, shape:alder maker=ambry documented, "
        "shape:alder "
        "look.handle=ring documented");
  CHECK(shapes(piece("p", "  shape: alder\n  look: {finial: slot}\n"), kRings).starts_with("holds"));
  // One that has another handle says nothing of ring handles.
  CHECK(shapes(piece("p", "  shape: alder\n  look: {handle: looped, finial: knob}\n"), kRings)
            .starts_with("holds"));
  // The record says that both occur: a piece of either kind is no news.
  const std::string both = shape("cedar", "  look: {handle: ring, finial: [slot, knob]}\n  cite: books\n");
  CHECK(shapes(both + piece("p", "  shape: cedar\n  look: {finial: knob}\n"), kRings).starts_with("holds"));
  // Of a shape with both handles it is not known which one a piece has of which only the knob is recorded.
  const std::string either =
      shape("cedar", "  look: {handle: [ring, looped], finial: slot}\n  cite: books\n");
  CHECK(shapes(either + piece("p", "  shape: cedar\n  look: {finial: knob}\n"), kRings).starts_with("holds"));
  CHECK(shapes(either + piece("p", "  shape: cedar\n  look: {handle: ring, finial: knob}\n"), kRings)
            .starts_with("broken firmly; specimen:p look.finial=knob documented"));
  // Two pieces, each of which shows one thing.
  CHECK(shapes(shape("cedar", "  cite: books\n") + piece("p", "  shape: cedar\n  look: {handle: ring}\n") +
                   piece("q", "  shape: cedar\n  look: {finial: knob}\n"),
               kRings)
            .starts_with("open"));
}

TEST_CASE("a piece has its form and its marks, whatever is listed") {
  const std::string pot = piece("p", "  shape: alder\n  form: pot\n");
  CHECK(shapes(pot, "{no: shape, where: {look.handle: ring}, has: {forms: pot}}")
            .starts_with("broken firmly; shape:alder specimen:p form=pot documented"));
  CHECK(shapes("", "{no: form, has: {made-in: alder}}").starts_with("broken"));
  CHECK(outcome(kShapes + pot, "{count: form, where: {made-in: alder}, makes: 2}").starts_with("holds"));
  CHECK(outcome(kShapes + pot, "{every: form, has: {made-in: [alder, birch]}}").starts_with("holds"));
  const std::string t =
      "- treatment: t\n  shape: alder\n  forms: {is: [plate], complete: yes}\n  cite: books\n";
  CHECK(outcome(kShapes + t, "{no: treatment, has: {forms: pot}}").starts_with("holds"));
  CHECK(outcome(kShapes + t + piece("p", "  treatment: t\n  form: pot\n"),
                "{no: treatment, has: {forms: pot}}") ==
        "broken firmly; treatment:t specimen:p form=pot documented");
  const std::string mark = "- mark: m\n  shapes: {is: [birch], complete: yes}\n  cite: books\n";
  CHECK(outcome(kShapes + mark, "{every: mark, has: {shapes: birch}}").starts_with("holds"));
  CHECK(outcome(kShapes + mark, "{no: mark, has: {shapes: alder}}").starts_with("holds"));
  CHECK(outcome(kShapes + mark + piece("p", "  shape: alder\n  marks: [{mark: m, at: inside}]\n"),
                "{no: mark, has: {shapes: alder}}")
            .starts_with("broken firmly; mark:m specimen:p marks="));
}
