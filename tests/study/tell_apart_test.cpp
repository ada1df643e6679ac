// The shortest lists of features that tell things apart.
#include "study/tell_apart.h"

#include <algorithm>
#include <random>

#include "small_study.h"

using namespace saggar::study;
using saggar::records::Kind;
using saggar::study::testing::Records;

namespace {

const std::string kFeatures =
    "- {feature: outline, effort: 1, values: {round: r, scalloped: s, eight-sided: e, square: q}}\n"
    "- {feature: rim, effort: 1, values: {yes: y, no: n}}\n"
    "- {feature: embossing, effort: 1, values: {none: no, all round: a, in panels: p}}\n"
    "- {feature: verge, effort: 1, values: {plain: p, stepped: s, fluted: f}}\n"
    "- {feature: handle, effort: 2, values: {looped: l, angular: a, ring: g}}\n"
    "- {feature: finial, effort: 3, values: {knob: k, loop: o, acorn: c, slot: t}}\n"
    "- {feature: glaze, effort: 2, values: {white: w, ivory: i, vellum: v, tinted: t}}\n"
    "- {feature: cup-foot, effort: 2, values: {raised: y, flat: n}}\n"
    "- {feature: cover, effort: 3, values: {inside: i, over: u}}\n";

std::string shape(const std::string& id, const std::string& look) {
  return "- {shape: " + id + ", look: {" + look + "}}\n";
}

// The twelve shapes of the invented pottery.
const std::string kTwelve =
    shape("el",
          "outline: scalloped, rim: yes, embossing: all round, verge: plain, handle: looped, finial: acorn, "
          "glaze: white, cup-foot: raised, cover: inside") +
    shape("hl",
          "outline: scalloped, rim: yes, embossing: all round, verge: plain, handle: looped, finial: loop, "
          "glaze: white, cup-foot: raised, cover: over") +
    shape("od",
          "outline: round, rim: yes, embossing: none, verge: plain, handle: angular, finial: knob, glaze: "
          "white, cup-foot: flat, cover: inside") +
    shape("co",
          "outline: round, rim: yes, embossing: none, verge: stepped, handle: looped, finial: knob, glaze: "
          "[white, ivory], cup-foot: flat, cover: inside") +
    shape("dm",
          "outline: eight-sided, rim: yes, embossing: none, verge: stepped, handle: angular, finial: loop, "
          "glaze: [white, ivory], cup-foot: flat, cover: inside") +
    shape("tv",
          "outline: scalloped, rim: yes, embossing: in panels, verge: plain, handle: looped, finial: loop, "
          "glaze: ivory, cup-foot: raised, cover: inside") +
    shape("kd",
          "outline: square, rim: yes, embossing: in panels, verge: stepped, handle: angular, finial: knob, "
          "glaze: ivory, cup-foot: flat, cover: over") +
    shape(
        "jm",
        "outline: round, rim: yes, embossing: in panels, verge: plain, handle: looped, finial: loop, glaze: "
        "[ivory, tinted], cup-foot: raised, cover: inside") +
    shape("lv",
          "outline: round, rim: yes, embossing: all round, verge: plain, handle: ring, finial: slot, glaze: "
          "[ivory, vellum], cup-foot: flat, cover: over") +
    shape("bc",
          "outline: scalloped, rim: yes, embossing: all round, verge: fluted, handle: looped, finial: knob, "
          "glaze: vellum, cup-foot: raised, cover: inside") +
    shape("sd",
          "outline: round, rim: no, embossing: none, verge: plain, handle: ring, finial: slot, glaze: "
          "[tinted, vellum], cup-foot: flat, cover: over") +
    shape("fm",
          "outline: square, rim: no, embossing: none, verge: plain, handle: angular, finial: unknown, glaze: "
          "[tinted, white], cup-foot: flat, cover: unknown") +
    kFeatures;

std::string words(const Records& guide, const std::vector<Trait>& traits) {
  std::string out;
  for (const Trait& one : traits) {
    if (!out.empty()) out += ' ';
    out += one.at == SeenAt::shape   ? "SHAPE"
           : one.at == SeenAt::motif ? "MOTIF"
                                     : std::string(guide.collection[one.feature].id);
  }
  return out;
}

}  // namespace

TEST_CASE("two look-alikes: one look, the quickest that will do") {
  const Records guide(shape("a", "outline: round, handle: looped, finial: loop") +
                      shape("b", "outline: round, handle: ring, finial: slot") + kFeatures);
  const TellApart apart = tellApart(guide.collection, guide.all(Kind::shape));
  CHECK(words(guide, apart.shortest) == "handle");
  CHECK(words(guide, apart.traits) == "handle finial");
  CHECK(apart.sure);
  CHECK(apart.notTold[0].empty());
}

TEST_CASE("twelve shapes") {
  const Records guide(kTwelve);
  const auto shapes = guide.all(Kind::shape);
  const TellApart apart = tellApart(guide.collection, shapes);
  CHECK(apart.sure);
  CHECK(words(guide, apart.traits) == "outline rim embossing verge handle glaze cup-foot finial cover");
  // Ellastrane and Hollinstane differ in finial and cover alone; no shape is alone with fewer than these.
  CHECK(words(guide, apart.shortest) == "outline embossing verge finial");
  const auto of = [&](const std::string& id) {
    const auto at = std::find(shapes.begin(), shapes.end(), guide.at("shape:" + id)) - shapes.begin();
    return words(guide, apart.ofEach[static_cast<std::size_t>(at)]);
  };
  CHECK(of("dm") == "outline");
  CHECK(of("bc") == "verge");
  CHECK(of("fm") == "outline rim");
  CHECK(of("el") == "outline finial");  // of Fennimarque the finial is not known
  for (const auto& others : apart.notTold) CHECK(others.empty());
}

TEST_CASE("no list of features is shorter, and none as short is quicker") {
  const Records guide(kTwelve);
  const auto shapes = guide.all(Kind::shape);
  Looks looks(guide.collection);
  std::vector<Row> rows;
  for (const auto one : shapes) rows.push_back(looks.rowOf(one));
  const auto features = guide.all(Kind::feature);
  const auto tells = [&](unsigned set) {
    for (std::size_t i = 0; i < rows.size(); ++i)
      for (std::size_t j = i + 1; j < rows.size(); ++j) {
        bool told = false;
        for (std::size_t f = 0; f < features.size(); ++f) {
          const Recorded* one = find(rows[i], features[f]);
          const Recorded* other = find(rows[j], features[f]);
          told |= (set >> f & 1) != 0 && one != nullptr && other != nullptr &&
                  disjoint(one->values, other->values);
        }
        if (!told) return false;
      }
    return true;
  };
  std::pair<int, std::int64_t> best{99, 99};
  for (unsigned set = 0; set < 1u << features.size(); ++set) {
    if (!tells(set)) continue;
    std::pair<int, std::int64_t> size{0, 0};
    for (std::size_t f = 0; f < features.size(); ++f)
      if ((set >> f & 1) != 0) ++size.first, size.second += effortOf(guide.collection, features[f]);
    best = std::min(best, size);
  }
  const TellApart apart = tellApart(guide.collection, shapes);
  std::pair<int, std::int64_t> size{0, 0};
  for (const Trait& one : apart.shortest)
    ++size.first, size.second += effortOf(guide.collection, one.feature);
  CHECK(size == best);
}

TEST_CASE("what nothing tells apart is said, and does not stand in the way of the rest") {
  const Records guide(shape("a", "outline: round, rim: yes") + shape("b", "outline: round") +
                      shape("c", "outline: square") + "- {shape: d}\n" + kFeatures);
  const TellApart apart = tellApart(guide.collection, guide.all(Kind::shape));
  CHECK(words(guide, apart.shortest) == "outline");
  CHECK(apart.notTold == std::vector<std::vector<std::size_t>>{{1, 3}, {0, 3}, {3}, {0, 1, 2}});
  CHECK(words(guide, apart.ofEach[3]).empty());
}

TEST_CASE("treatments are told by their shape and their motif before anything else") {
  const Records guide(
      "- {shape: s}\n- {shape: t}\n- {motif: m}\n- {motif: n}\n"
      "- {feature: edge, effort: 1, values: {gold: g, none: no}}\n"
      "- {treatment: a, shape: s, motif: m, look: {edge: gold}}\n"
      "- {treatment: b, shape: s, motif: n, look: {edge: gold}}\n"
      "- {treatment: c, shape: s, motif: n, look: {edge: none}}\n"
      "- {treatment: d, shape: [s, t], motif: none, look: {edge: none}}\n"
      "- {treatment: e, shape: t, motif: unknown, look: {edge: none}}\n");
  const TellApart apart = tellApart(guide.collection, guide.all(Kind::treatment));
  CHECK(words(guide, apart.shortest) == "SHAPE MOTIF edge");
  CHECK(words(guide, apart.ofEach[0]) == "SHAPE MOTIF");
  CHECK(apart.notTold[3] == std::vector<std::size_t>{4});
}

TEST_CASE("a great many at once are not compared one by one") {
  std::string records;
  for (std::size_t i = 0; i <= kMostCompared; ++i)
    records += shape("s" + std::to_string(i), i % 2 == 0 ? "outline: round" : "outline: square");
  const Records guide(records + kFeatures);
  const TellApart apart = tellApart(guide.collection, guide.all(Kind::shape));
  CHECK(apart.tooMany);
  CHECK(words(guide, apart.traits) == "outline");
  // As many as are compared, of forty features each recorded or not, end in time.
  std::mt19937 random(5);
  std::string hard;
  for (std::size_t i = 0; i < kMostCompared; ++i) {
    std::string look = "outline: round";
    for (int f = 0; f < 40; ++f)
      if (random() % 4 != 0) look += ", f" + std::to_string(f) + (random() % 2 == 0 ? ": yes" : ": no");
    hard += shape("s" + std::to_string(i), look);
  }
  for (int f = 0; f < 40; ++f) hard += "- {feature: f" + std::to_string(f) + ", values: {yes: y, no: n}}\n";
  const Records tangle(hard + kFeatures);
  const TellApart rough = tellApart(tangle.collection, tangle.all(Kind::shape));
  CHECK_FALSE(rough.shortest.empty());
  CHECK(rough.ofEach.size() == kMostCompared);
}
