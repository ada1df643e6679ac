// A treatment on one of several shapes: it is not older than the oldest of them, and was not offered after the last was.
// What that day rests on is each shape's own day, with its reasons. All data is invented.
#include "compared.h"

using namespace saggar;
using namespace saggar::chronology;

namespace {

std::string shape(const std::string& id, const std::string& introduced, const std::string& cite = "books") {
  return "- shape: " + id + "\n  introduced: " + introduced + (cite.empty() ? "" : "\n  cite: " + cite) +
         '\n';
}
std::string plate(const std::string& of, const std::string& made) {
  return "- {specimen: " + of + "-plate, shape: " + of + ", made: " + made +
         ", seen: {on: 2019, how: in-hand}}\n";
}
const std::string kOnBoth = "- {treatment: t, shape: [a, b], cite: books}\n";
const std::string kBooks = "- {source: books, title: Order books, type: trade-notice}\n";

class Treatment : public Reasoned {
 public:
  explicit Treatment(const std::string& records) : Reasoned(kBooks + records) {}
  std::string earliest(BoundsOf which) const {
    return chronology.bounds(introduced(), which).earliest.toString();
  }
  std::string reasonsOf(BoundsOf which) const { return because(introduced(), which, dates::End::Earliest); }
  std::string disputed() const {
    std::string out;
    for (const FactId fact : chronology.disputed()) out += reasons.says(fact) + "; ";
    return out;
  }

 private:
  Node introduced() const { return node("treatment:t", "introduced"_f); }
};

// Where nothing clashes: the days by some statements, with those of several shapes set from what the shapes' days are,
// again and again until they stay.
std::optional<std::vector<spelled::Days>> daysBy(const invented::Stated& stated, const std::set<long>* places,
                                                 std::uint8_t use) {
  spelled::Told told = stated.told;
  for (int round = 0; round < 40; ++round) {
    std::vector<const spelled::Statement*> some;
    for (const spelled::Statement& one : told.statements)
      if (places != nullptr ? places->contains(one.place) : use == spelled::kPlain || one.proves())
        some.push_back(&one);
    auto days = spelled::daysBy(told, some, use);
    if (!days) return std::nullopt;
    bool moved = false;
    for (const auto& several : stated.oneOf) {
      std::optional<long> first, last;
      bool begun = true, ended = true;
      for (const auto& [introduced, withdrawn] : several.shapes) {
        const auto from = (*days)[static_cast<std::size_t>(introduced)].first;
        const auto until = (*days)[static_cast<std::size_t>(withdrawn)].last;
        begun &= from.has_value();
        ended &= until.has_value();
        if (from) first = std::min(first.value_or(*from), *from);
        if (until) last = std::max(last.value_or(*until), *until);
      }
      for (spelled::Statement& one : told.statements) {
        if (one.place != several.place) continue;
        std::vector<spelled::Step> steps;
        if (begun) steps.push_back({several.introduced, 0, -*first, spelled::kBoth});
        if (ended) steps.push_back({0, several.withdrawn, *last, spelled::kBoth});
        const auto same = [](const spelled::Step& a, const spelled::Step& b) {
          return a.days == b.days && a.to == b.to;
        };
        moved |= !std::equal(steps.begin(), steps.end(), one.steps.begin(), one.steps.end(), same);
        one.steps = std::move(steps);
      }
    }
    if (!moved) return days;
  }
  FAIL("the days do not come to rest");
  return std::nullopt;
}

}  // namespace

TEST_CASE("the chain names the day of every shape") {
  const Treatment guide(shape("a", "1932") + shape("b", "1935") + kOnBoth);
  CHECK(guide.earliest(BoundsOf::proven) == "1932-01-01");
  for (const BoundsOf which : {BoundsOf::proven, BoundsOf::likely})
    CHECK(guide.reasonsOf(which) ==
          "`a` was introduced in 1932 (documented); `b` was introduced in 1935 (documented); `t` is on one "
          "of `a` "
          "or `b` (documented)");
  // Of a shape without a date anything may be true.
  CHECK(Treatment(shape("a", "1932") + shape("b", "by 1935") + kOnBoth).earliest(BoundsOf::proven) == "-inf");
}

TEST_CASE("shapes that are dated by what is on them do not go round for ever") {
  const Treatment guide(shape("a", "1932") +
                        "- {shape: b, introduced: 1931, after: treatment:t, cite: books}\n" + kOnBoth);
  CHECK(guide.earliest(BoundsOf::proven) >= "1931-01-01");
  CHECK(guide.earliest(BoundsOf::proven) <= "1932-01-01");
  CHECK(guide.reasonsOf(BoundsOf::proven).find("`t` is on one of `a` or `b`") != std::string::npos);
}

TEST_CASE("a day that is open for the shape is open for what is on it") {
  const Treatment guide(shape("a", "1932") + plate("a", "1930") + shape("b", "1935") + kOnBoth);
  CHECK(guide.earliest(BoundsOf::proven) == "-inf");
  CHECK(guide.earliest(BoundsOf::likely) == "1932-01-01");
}

TEST_CASE("a day that gave way makes nothing likely") {
  const Treatment guide(shape("a", "1932", "") + plate("a", "1930") + shape("b", "1935") + kOnBoth);
  CHECK(guide.disputed() == "`a` was introduced in 1932; ");
  CHECK(guide.earliest(BoundsOf::likely) == "-inf");
  CHECK(guide.earliest(BoundsOf::tests) == "-inf");
  // What was ruled out by that day alone is not in dispute.
  const Treatment dated(shape("a", "1932", "") + plate("a", "1930") + shape("b", "1935") +
                        "- {treatment: t, introduced: 1931, shape: [a, b]}\n");
  CHECK(dated.disputed() == "`a` was introduced in 1932; ");
  CHECK(dated.earliest(BoundsOf::likely) == "1931-01-01");
}

TEST_CASE("a clash with all shapes is a clash of their days as well") {
  const Treatment guide(shape("a", "1932") + shape("b", "1935") +
                        "- {treatment: t, introduced: 1930, shape: [a, b], cite: books}\n");
  REQUIRE(guide.chronology.clashes().size() == 1);
  CHECK(guide.chronology.clashes()[0].facts.size() == 4);
  CHECK(guide.chronology.clashes()[0].shortBy == 366);
  CHECK(guide.disputed() ==
        "`a` was introduced in 1932; `b` was introduced in 1935; `t` was introduced in 1930; `t` is on one "
        "of `a` or "
        "`b`; ");
  CHECK(guide.earliest(BoundsOf::proven) == "1930-01-01");
  CHECK(guide.days(guide.node("shape:a", "introduced"_f), BoundsOf::proven) == "-inf … 1932-12-31");
}

TEST_CASE("random guides at peace: days of several shapes, and their chains") {
  invented::Guide guide(1889);
  std::mt19937 random(3);
  std::size_t compared = 0, carried = 0;
  for (int round = 0; round < 600; ++round) {
    invented::Guide trial = guide;
    for (int edits = 0; edits < 3; ++edits) trial.edit();
    for (invented::Record& record : trial.records)
      for (invented::Field& field : record.fields) {
        // No shape is dated by what is on it.
        if (field.name == "after" && (record.kind == "shape" || record.kind == "maker")) field.value.reset();
        if (field.name == "shape" && field.value && random() % 2 == 0)
          field.value->orTo = *trial.shapeBut(*field.value->to);
      }
    const std::string text = trial.yaml();
    const invented::Stated stated = invented::statedBy(trial);
    const auto proven = daysBy(stated, nullptr, spelled::kWide);
    const auto likely = daysBy(stated, nullptr, spelled::kPlain);
    if (!proven || !likely) {
      if (const auto answer = spelled::spelledOut(stated.told)) trial.settle(*answer);
      guide = trial;
      continue;
    }
    guide = trial;
    const Reasoned program(text);
    INFO(text);
    REQUIRE(program.chronology.clashes().empty());
    for (std::size_t point = 1; point < stated.points.size(); ++point) {
      const auto node = nodeOf(program, stated.points[point]);
      if (!node) continue;
      CAPTURE(stated.points[point]);
      for (const BoundsOf which : {BoundsOf::proven, BoundsOf::likely}) {
        const auto days = daysOf(program.chronology.bounds(*node, which));
        REQUIRE(days == (which == BoundsOf::proven ? *proven : *likely)[point]);
        for (const dates::End end : {dates::End::Earliest, dates::End::Latest}) {
          std::set<long> places;
          for (const FactId fact : program.chronology.because(*node, which, end))
            places.insert(placeOf(program, fact));
          const bool several = std::any_of(stated.oneOf.begin(), stated.oneOf.end(),
                                           [&](const auto& one) { return places.contains(one.place); });
          if (!several) continue;
          INFO(program.because(*node, which, end));
          const auto alone =
              daysBy(stated, &places, which == BoundsOf::proven ? spelled::kWide : spelled::kPlain);
          REQUIRE(alone);
          const bool early = end == dates::End::Earliest;
          REQUIRE((early ? (*alone)[point].first : (*alone)[point].last) == (early ? days.first : days.last));
          ++carried;
        }
      }
    }
    ++compared;
  }
  CHECK(compared > 200);
  CHECK(carried > 300);
}
