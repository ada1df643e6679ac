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

// The days under every way to take one shape for the first day of each treatment and one for its last: from the first of
// any to the last of any. Nothing if none of them can be true.
class EveryWay {
 public:
  EveryWay(const invented::Stated& stated, const std::set<long>* places, std::uint8_t use)
      : told_(stated.told), use_(use) {
    const auto wanted = [&](const spelled::Statement& one) {
      return places != nullptr ? places->contains(one.place) : use == spelled::kPlain || one.proves();
    };
    for (const auto& several : stated.oneOf)
      for (spelled::Statement& one : told_.statements)
        if (one.place == several.place && wanted(one)) choices_.push_back({&several, &one});
    for (const spelled::Statement& one : told_.statements)
      if (wanted(one)) some_.push_back(&one);
  }

  std::optional<std::vector<spelled::Days>> days() {
    take(0);
    return std::move(hull_);
  }
  bool any() {
    one_ = true;
    take(0);
    return hull_.has_value();
  }

 private:
  struct Choice {
    const invented::Stated::OneOf* of;
    spelled::Statement* fact;
  };

  void take(std::size_t i) {
    if (i == choices_.size()) return join();
    const auto& [of, fact] = choices_[i];
    for (const auto& [introduced, first] : of->shapes)
      for (const auto& [last, withdrawn] : of->shapes) {
        fact->steps = {{of->introduced, introduced, 0, spelled::kBoth},
                       {withdrawn, of->withdrawn, 0, spelled::kBoth}};
        take(i + 1);
        if (one_ && hull_) return;
      }
  }

  void join() {
    const auto days = spelled::daysBy(told_, some_, use_);
    if (!days) return;
    if (!hull_) {
      hull_ = days;
      return;
    }
    for (std::size_t i = 0; i < days->size(); ++i) {
      spelled::Days& all = (*hull_)[i];
      const spelled::Days& one = (*days)[i];
      all.first = all.first && one.first ? std::min(all.first, one.first) : std::nullopt;
      all.last = all.last && one.last ? std::max(all.last, one.last) : std::nullopt;
    }
  }

  spelled::Told told_;
  std::uint8_t use_;
  bool one_ = false;  // the first way will do
  std::vector<Choice> choices_;
  std::vector<const spelled::Statement*> some_;
  std::optional<std::vector<spelled::Days>> hull_;
};

// Whether all days of the one are days of the other.
bool within(const spelled::Days& inner, const spelled::Days& outer) {
  return (!outer.first || (inner.first && *inner.first >= *outer.first)) &&
         (!outer.last || (inner.last && *inner.last <= *outer.last));
}

// Facts taken one by one, the best known first: those that were left out.
template <class Wanted>
std::vector<const spelled::Statement*> oneByOne(const invented::Stated& stated, Wanted wanted,
                                                std::uint8_t use) {
  std::vector<const spelled::Statement*> line, leftOut;
  for (const spelled::Statement& one : stated.told.statements)
    if (wanted(one)) line.push_back(&one);
  const auto turn = [](const spelled::Statement* one) {
    return std::pair(one->offered ? 7 : one->doubted ? 6 : one->standing, one->place);
  };
  std::sort(line.begin(), line.end(), [&](const auto* a, const auto* b) { return turn(a) < turn(b); });
  std::set<long> taken;
  for (const spelled::Statement* one : line) {
    taken.insert(one->place);
    if (EveryWay(stated, &taken, use).any()) continue;
    taken.erase(one->place);
    leftOut.push_back(one);
  }
  return leftOut;
}

std::string inWords(const invented::Stated& stated, const std::set<long>& places) {
  std::string words;
  for (const spelled::Statement& one : stated.told.statements)
    if (places.contains(one.place)) words += one.what + "; ";
  return words;
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

TEST_CASE("where one shape alone is left it was there when the treatment was") {
  const std::string early = "- {treatment: t, introduced: by 1930, shape: [a, b], cite: books}\n";
  const Treatment guide("- {shape: a, cite: books}\n" + shape("b", "1935") + early);
  const Node a = guide.node("shape:a", "introduced"_f);
  for (const BoundsOf which : {BoundsOf::proven, BoundsOf::likely}) {
    CHECK(guide.days(a, which) == "-inf … 1930-12-31");
    CHECK(guide.because(a, which, dates::End::Latest) ==
          "`t` was introduced by the end of 1930 (documented); `b` was introduced in 1935 (documented); `t` "
          "is on one of "
          "`a` or `b` (documented)");
  }
  // At the end likewise.
  const Treatment late(
      "- {shape: a, cite: books}\n- {shape: b, withdrawn: 1935, cite: books}\n"
      "- {treatment: t, withdrawn: from 1938, shape: [a, b], cite: books}\n");
  CHECK(late.days(late.node("shape:a", "withdrawn"_f), BoundsOf::proven) == "1938-01-01 … +inf");
  // Hearsay rules nothing out.
  const Treatment unsure("- {shape: a, cite: books}\n" + shape("b", "1935", "") + early);
  CHECK(unsure.days(unsure.node("shape:a", "introduced"_f), BoundsOf::proven) == "-inf … +inf");
  // What is known of the shape that is left gives way to documents.
  const Treatment clash(shape("a", "1932", "") + shape("b", "1935") + early);
  CHECK(clash.disputed() == "`a` was introduced in 1932; ");
  CHECK(clash.days(clash.node("shape:a", "introduced"_f), BoundsOf::likely) == "-inf … 1930-12-31");
  REQUIRE(clash.chronology.clashes().size() == 1);
  CHECK(clash.chronology.clashes()[0].facts.size() == 4);
}

TEST_CASE("a treatment cannot have come before all of its shapes") {
  const Treatment guide(
      "- {shape: a, after: treatment:t, cite: books}\n- {shape: b, after: treatment:t, cite: books}\n" +
      kOnBoth);
  REQUIRE(guide.chronology.clashes().size() == 1);
  CHECK(guide.chronology.clashes()[0].facts.size() == 3);
}

TEST_CASE("a shape that came after what is on it is not the one that was there first") {
  const auto guide = [&](const std::string& introduced) {
    return Treatment(shape("a", "1932") + "- {shape: b, introduced: " + introduced +
                     ", after: treatment:t, cite: books}\n" + kOnBoth);
  };
  CHECK(guide("from 1931").earliest(BoundsOf::proven) == "1932-01-01");
  CHECK(guide("from 1931").reasonsOf(BoundsOf::proven) ==
        "`a` was introduced in 1932 (documented); `b` came after `t` was introduced (documented); `t` is on "
        "one "
        "of `a` or `b` (documented)");
  // Before both of them it cannot have been.
  CHECK(guide("1931").chronology.clashes().size() == 1);
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
  std::size_t compared = 0, carried = 0, bounds = 0, wider = 0;
  for (int round = 0; round < 600; ++round) {
    invented::Guide trial = guide;
    for (int edits = 0; edits < 3; ++edits) trial.edit();
    for (invented::Record& record : trial.records)
      for (invented::Field& field : record.fields) {
        // In half of them no shape is dated by what is on it.
        if (round % 2 == 0 && field.name == "after" && (record.kind == "shape" || record.kind == "maker"))
          field.value.reset();
        if (field.name == "shape" && field.value && random() % 2 == 0)
          field.value->orTo = *trial.shapeBut(*field.value->to);
      }
    const std::string text = trial.yaml();
    const invented::Stated stated = invented::statedBy(trial);
    const auto proven = EveryWay(stated, nullptr, spelled::kWide).days();
    const auto likely = EveryWay(stated, nullptr, spelled::kPlain).days();
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
        const spelled::Days& tightest = (which == BoundsOf::proven ? *proven : *likely)[point];
        CAPTURE(which == BoundsOf::proven);
        REQUIRE(within(tightest, days));
        ++bounds;
        wider += tightest != days;
        for (const dates::End end : {dates::End::Earliest, dates::End::Latest}) {
          std::set<long> places;
          for (const FactId fact : program.chronology.because(*node, which, end))
            places.insert(placeOf(program, fact));
          const bool several = std::any_of(stated.oneOf.begin(), stated.oneOf.end(),
                                           [&](const auto& one) { return places.contains(one.place); });
          if (!several) continue;
          INFO(program.because(*node, which, end));
          const auto alone =
              EveryWay(stated, &places, which == BoundsOf::proven ? spelled::kWide : spelled::kPlain).days();
          REQUIRE(alone);
          // What the chain names is enough for the bound.
          const spelled::Days& by = (*alone)[point];
          const bool early = end == dates::End::Earliest;
          REQUIRE(within(by, early ? spelled::Days{days.first, {}} : spelled::Days{{}, days.last}));
          ++carried;
        }
      }
    }
    ++compared;
  }
  CHECK(compared > 200);
  CHECK(carried > 300);
  // What follows from one shape as well as from another, though from neither alone, is not looked for.
  CHECK(wider * 100 < bounds);
}

TEST_CASE("random guides in dispute: what gives way where shapes are several") {
  invented::Guide guide(1907);
  std::mt19937 random(5);
  std::size_t compared = 0, gaveWay = 0, missed = 0;
  for (int round = 0; round < 500; ++round) {
    guide.edit();
    invented::Guide trial = guide;
    std::size_t several = 0;
    for (invented::Record& record : trial.records)
      for (invented::Field& field : record.fields)
        if (field.name == "shape" && field.value && random() % 3 != 0) {
          field.value->orTo = *trial.shapeBut(*field.value->to);
          ++several;
        }
    const std::string text = trial.yaml();
    const invented::Stated stated = invented::statedBy(trial);
    // What is documented is at peace, so that all disputes are about what gave way.
    if (several == 0 || !EveryWay(stated, nullptr, spelled::kWide).any()) {
      if (const auto answer = spelled::spelledOut(stated.told)) guide.settle(*answer);
      continue;
    }
    std::set<long> expected;
    const auto leftOut = oneByOne(
        stated, [](const auto& one) { return !one.doubted && !one.offered; }, spelled::kWide);
    for (const spelled::Statement* one : leftOut) expected.insert(one->place);
    for (const spelled::Statement* one : oneByOne(
             stated, [](const auto&) { return true; }, spelled::kPlain))
      if (!one->doubted && !one->offered) expected.insert(one->place);
    const Reasoned program(text);
    INFO(text);
    std::set<long> found;
    for (const FactId fact : program.chronology.disputed()) found.insert(placeOf(program, fact));
    // That each shape came after a treatment is seen where it is documented, or where their days say it.
    for (const auto& one : stated.oneOf) {
      missed += expected.contains(one.place) && !found.contains(one.place);
      if (!found.contains(one.place)) expected.erase(one.place);
    }
    INFO(inWords(stated, expected));
    INFO(inWords(stated, found));
    REQUIRE(found == expected);
    gaveWay += expected.size();
    ++compared;
  }
  CHECK(compared > 200);
  CHECK(gaveWay > 200);
  CHECK(missed * 5 < compared);
}
