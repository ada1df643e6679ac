// A shape's list of pieces against what the pieces say of themselves. All data is invented.
#include "small_guide.h"

namespace saggar::checks::testing {
namespace {

// A shape with these `forms`, and a plate, a teapot and a jug with what each says of where it was made.
std::string guide(const std::string& forms, const std::string& plate, const std::string& teapot,
                  const std::string& jug = "") {
  auto form = [](const std::string& id, const std::string& madeIn) {
    return "- form: " + id + "\n  name: a " + id + "\n" +
           (madeIn.empty() ? "" : "  made-in: " + madeIn + "\n") + "  cite: book\n";
  };
  return "- shape: round\n  name: Round\n  forms: " + forms + "\n  cite: book\n" +
         "- shape: square\n  name: Square\n  cite: book\n" + form("plate", plate) + form("teapot", teapot) +
         form("jug", jug) + "- source: book\n  title: Book\n  type: trade-notice\n  date: 1930\n";
}

constexpr const char* kWhole = "{is: [plate], complete: yes}";

TEST_CASE("a list that leaves nothing out, and a piece that says otherwise") {
  caught(guide(kWhole, "all", "all"), "3:15", "forms-clash");
  caught(guide(kWhole, "", "[round, square]"), "3:15", "forms-clash");
  caught(guide(kWhole, "", "{all-but: [square]}"), "3:15", "forms-clash");
  caught(guide("none", "", "all"), "3:10", "forms-clash");
  caught(guide("[plate]", "{all-but: [round]}", ""), "3:10", "forms-clash");
  caught(guide("[plate]", "{is: [square], complete: yes}", ""), "3:10", "forms-clash");
  caught(guide("[plate]", "none", ""), "3:10", "forms-clash");
}

TEST_CASE("what says no more than is known contradicts nothing") {
  silent(guide("[plate]", "all", "all"));
  silent(guide(kWhole, "all", ""));
  silent(guide(kWhole, "all", "{all-but: [round]}"));
  silent(guide(kWhole, "all", "unknown"));
  silent(guide(kWhole, "all", "square"));
  silent(guide("[plate]", "square", ""));
  silent(guide("unknown", "all", "all"));
  silent(guide("{is: [plate], complete: yes, doubted: a page is missing}", "all", "all"));
  silent(guide(kWhole, "all", "{is: all, doubted: seen in one list only}"));
}

TEST_CASE("it names both places and every record; many pieces against one list are one finding") {
  const Small one(guide(kWhole, "all", "all"));
  CHECK(one.one().message ==
        "`forms` of `round` leave nothing out, but `teapot` is made in it by its own `made-in`");
  CHECK(one.one().hint ==
        "put the piece into `forms`, or take `complete: yes` away; or write `made-in: {all-but: [round]}` "
        "for the piece");
  CHECK(one.one().records == std::vector<std::string>{"shape:round", "form:teapot"});
  REQUIRE(one.one().related.size() == 1);
  CHECK(one.one().related[0].message == "`made-in` of form:teapot stands here");
  CHECK(one.one().facts.size() == 2);
  const Small two(guide(kWhole, "all", "all", "all"));
  CHECK(two.one().message ==
        "`forms` of `round` leave nothing out, but `teapot` and `jug` are made in it by their own `made-in`");
  CHECK(Small(guide("none", "", "all")).one().message ==
        "`forms` of `round` are none, but `teapot` is made in it by its own `made-in`");
  CHECK(Small(guide("[plate]", "none", "")).one().message ==
        "`forms` of `round` has `plate`, but by its own `made-in` it is not made in it");
}

TEST_CASE("one piece against the lists of several shapes is one finding, at the piece") {
  const std::string two =
      "- shape: a\n  name: A\n  forms: {is: [plate], complete: yes}\n  cite: book\n"
      "- shape: b\n  name: B\n  forms: none\n  cite: book\n"
      "- form: plate\n  name: plate\n  made-in: a\n  cite: book\n"
      "- form: jug\n  name: jug\n  made-in: all\n  cite: book\n"
      "- source: book\n  title: Book\n  type: trade-notice\n  date: 1930\n";
  const Small guide(two);
  CHECK(guide.found == "15:12 forms-clash");
  CHECK(guide.one().message ==
        "`jug` is made in `a` and `b` by its own `made-in`, but their `forms` leave nothing out and do not "
        "have it");
  CHECK(guide.one().records == std::vector<std::string>{"form:jug", "shape:a", "shape:b"});
}

TEST_CASE("very many of both come to an end") {
  std::string many;
  for (int i = 0; i < 700; ++i) {
    const std::string n = std::to_string(i);
    many += "- shape: s" + n + "\n  name: S " + n + "\n  forms: none\n  cite: book\n";
    many += "- form: f" + n + "\n  name: F " + n + "\n  made-in: all\n  cite: book\n";
  }
  many += "- source: book\n  title: Book\n  type: trade-notice\n  date: 1930\n";
  const Small guide(many, {"forms-clash"_rule});
  CHECK(!guide.report.findings.empty());
  CHECK(guide.report.findings.size() <= 1400);
}

}  // namespace
}  // namespace saggar::checks::testing
