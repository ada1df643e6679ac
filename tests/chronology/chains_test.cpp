// A chain of reasons carries its bound. On the same random guides as in guide_edits_test.cpp:
// - the facts of the chain alone give the bound; without any one of them they give less; and no way with fewer facts
//   gives it (SEMANTICS: "the one with the fewest facts among those that give the tightest bound");
// - what is not in the chain may go. Where nothing clashes, taking any other fact away, or one end of its date, leaves the
//   bound as it was, proven and likely. Where something does, a proven bound is never less tight afterwards: what is left
//   has no smallest set of clashing facts that was not there before, so that no bound is newly open; it may be tighter,
//   as what was open may bind again. Of likely bounds nothing is said there: another fact may give way.
#include "compared.h"

using namespace saggar;
using namespace saggar::chronology;

using spelled::Statement;

namespace {

// One end of an event's days.
struct Bound {
  Node event = 0;
  BoundsOf which = BoundsOf::proven;
  dates::End end = dates::End::Earliest;
};

std::optional<long> at(const spelled::Days& days, dates::End end) {
  return end == dates::End::Earliest ? days.first : days.last;
}
std::optional<long> at(const Reasoned& program, const Bound& bound) {
  return at(daysOf(program.chronology.bounds(bound.event, bound.which)), bound.end);
}

std::vector<Bound> boundsOf(const Reasoned& program) {
  std::vector<Bound> all;
  for (Node node = 1; node < program.chronology.events().count(); ++node)
    for (const BoundsOf which : {BoundsOf::proven, BoundsOf::likely})
      for (const dates::End end : {dates::End::Earliest, dates::End::Latest})
        if (at(program, {node, which, end})) all.push_back({node, which, end});
  return all;
}

std::set<long> placesOf(const Reasoned& program, const Bound& bound) {
  std::set<long> places;
  for (const FactId fact : program.chronology.because(bound.event, bound.which, bound.end))
    places.insert(placeOf(program, fact));
  return places;
}

class Checking {
 public:
  Checking(const Reasoned& program, const invented::Stated& stated, const spelled::Answer& answer)
      : program_(program), stated_(stated), answer_(answer) {}

  void check(const Bound& bound) const {
    const std::string event =
        program_.chronology.events().text(*program_.chronology.events().eventOf(bound.event));
    const auto place = std::find(stated_.points.begin(), stated_.points.end(), event);
    REQUIRE(place != stated_.points.end());
    const auto point = static_cast<std::size_t>(place - stated_.points.begin());
    const bool proven = bound.which == BoundsOf::proven;
    const auto& stands = proven ? answer_.proving : answer_.taken;
    const std::uint8_t use = proven ? spelled::kWide : spelled::kPlain;
    const std::set<long> places = placesOf(program_, bound);
    CAPTURE(event);
    CAPTURE(proven);
    INFO(program_.because(bound.event, bound.which, bound.end));
    std::vector<const Statement*> chain;
    for (const Statement& one : stands)
      if (places.contains(one.place)) chain.push_back(&one);
    REQUIRE(chain.size() == places.size());
    const auto by = [&](const std::vector<const Statement*>& some) {
      const auto days = spelled::daysBy(stated_.told, some, use);
      REQUIRE(days);
      return at((*days)[point], bound.end);
    };
    const auto whole = at(program_, bound);
    REQUIRE(by(chain) == whole);
    for (std::size_t i = 0; i < chain.size(); ++i) {
      auto less = chain;
      less.erase(less.begin() + static_cast<std::ptrdiff_t>(i));
      REQUIRE(by(less) != whole);
    }
    REQUIRE(chain.size() <= fewest(stands, use, static_cast<int>(point), bound.end, *whole));
  }

 private:
  // The tightest day by ways with ever more steps of facts, until it is the bound.
  std::size_t fewest(const std::vector<Statement>& stands, std::uint8_t use, int point, dates::End end,
                     long bound) const {
    constexpr long kFar = 1'000'000'000;
    const bool latest = end == dates::End::Latest;
    const auto n = static_cast<std::size_t>(stated_.told.points);
    std::vector<long> days(n, kFar);
    days[0] = 0;
    auto step = [&](const spelled::Step& one, const std::vector<long>& before, std::vector<long>& after) {
      const auto from = static_cast<std::size_t>(latest ? one.from : one.to);
      const auto to = static_cast<std::size_t>(latest ? one.to : one.from);
      if (before[from] == kFar || before[from] + one.days >= after[to]) return false;
      after[to] = before[from] + one.days;
      return true;
    };
    for (std::size_t facts = 0;; ++facts) {
      for (bool changed = true; changed;) {
        changed = false;
        for (const spelled::Step& one : stated_.told.always) changed |= step(one, days, days);
      }
      if (days[static_cast<std::size_t>(point)] == (latest ? bound : -bound)) return facts;
      REQUIRE(facts < n);
      const std::vector<long> before = days;
      for (const Statement& statement : stands)
        for (const spelled::Step& one : statement.steps)
          if ((one.use & use) != 0) step(one, before, days);
    }
  }

  const Reasoned& program_;
  const invented::Stated& stated_;
  const spelled::Answer& answer_;
};

// Every step that a fact states, with what it is worth.
std::set<std::string> stepsOf(const invented::Stated& stated) {
  std::set<std::string> steps;
  for (const Statement& one : stated.told.statements)
    for (const spelled::Step& step : one.steps)
      steps.insert(one.what + ' ' + std::to_string(one.place % 100) + ' ' + std::to_string(one.standing) +
                   (one.doubted ? " doubted " : " ") + stated.points[static_cast<std::size_t>(step.from)] +
                   ' ' + stated.points[static_cast<std::size_t>(step.to)] + ' ' + std::to_string(step.days) +
                   ' ' + std::to_string(step.use));
  return steps;
}

// Some fields of a record that none of the lines stands in, with the citations they have of their own.
std::vector<invented::Field*> fieldsOutside(invented::Guide& guide, const std::set<long>& places) {
  std::set<long> lines;
  for (const long place : places) lines.insert(place / 100);
  std::vector<invented::Field*> fields;
  for (invented::Record& record : guide.records)
    for (invented::Field& field : record.fields) {
      // A number that goes changes who is next to whom; a piece is worth what it was seen for.
      const bool apart =
          record.kind == "source" || field.name == "codes" || field.name == "code" || field.name == "seen";
      if (apart || !field.value || lines.contains(field.value->line)) continue;
      const auto& cite = field.value->evidence.cite;
      if (std::none_of(cite.begin(), cite.end(), [&](const auto& one) { return lines.contains(one.line); }))
        fields.push_back(&field);
    }
  return fields;
}

// One end of a year goes, or the whole field.
void loosen(invented::Field& field, bool oneEnd) {
  const std::string year = field.value->date.text;
  if (!oneEnd || year.size() != 4 || field.value->is != year) return field.value.reset();
  const spelled::Days days = field.value->date.plain;
  const spelled::Days left =
      std::stoi(year) % 2 == 0 ? spelled::Days{days.first, {}} : spelled::Days{{}, days.last};
  field.value->is = (left.first ? "from " : "by ") + year;
  field.value->date = {field.value->is, left, left};
}

}  // namespace

TEST_CASE("the facts of a chain alone give its bound, and none of them is idle") {
  invented::Guide guide(1762);
  std::optional<spelled::Answer> answer;
  std::size_t checked = 0, longest = 0;
  for (int round = 0; round < 150; ++round) {
    if (answer && !answer->clashing.empty() && round % 3 != 0) guide.settle(*answer);
    guide.edit();
    const std::string text = guide.yaml();
    const invented::Stated stated = invented::statedBy(guide);
    answer = spelled::spelledOut(stated.told);
    REQUIRE(answer);
    const Reasoned program(text);
    INFO(text);
    for (const Bound& bound : boundsOf(program)) {
      Checking(program, stated, *answer).check(bound);
      ++checked;
      longest = std::max(longest, placesOf(program, bound).size());
    }
  }
  CHECK(checked > 8000);
  CHECK(longest >= 6);
}

TEST_CASE("what is not in the chain may go: the bound stays") {
  invented::Guide guide(1984);
  std::mt19937 random(7);
  std::optional<spelled::Answer> answer;
  std::size_t atPeace = 0, amidClashes = 0, tighter = 0;
  for (int round = 0; round < 1200; ++round) {
    if (answer && !answer->clashing.empty() && round % 2 == 0) guide.settle(*answer);
    guide.edit();
    const std::string text = guide.yaml();
    const invented::Stated stated = invented::statedBy(guide);
    answer = spelled::spelledOut(stated.told);
    REQUIRE(answer);
    const Reasoned program(text);
    const auto bounds = boundsOf(program);
    const Bound bound = bounds[random() % bounds.size()];
    if (!answer->clashing.empty() && bound.which == BoundsOf::likely) continue;

    invented::Guide less = guide;
    auto fields = fieldsOutside(less, placesOf(program, bound));
    // What clashes is the most likely to matter.
    const auto calm = std::stable_partition(fields.begin(), fields.end(), [&](const invented::Field* field) {
      const auto place = answer->clashing.lower_bound(invented::placeOf(field->value->line, 0));
      return place != answer->clashing.end() && *place / 100 == field->value->line;
    });
    if (calm != fields.begin() && round % 2 == 0) fields.erase(calm, fields.end());
    if (fields.empty()) continue;
    loosen(*fields[random() % fields.size()], answer->clashing.empty() && random() % 2 == 0);
    const std::string lessText = less.yaml();
    // A date that goes can make a citation count that was too early for it: then something was added as well.
    const auto before = stepsOf(stated);
    const auto after = stepsOf(invented::statedBy(less));
    if (!std::includes(before.begin(), before.end(), after.begin(), after.end())) continue;

    const Reasoned left(lessText);
    INFO(text);
    INFO("-----------\n" << lessText);
    INFO(program.because(bound.event, bound.which, bound.end));
    const auto was = at(program, bound);
    const auto is = at(left, bound);
    REQUIRE(is);
    if (answer->clashing.empty()) {
      REQUIRE(*is == *was);
      ++atPeace;
    } else {
      REQUIRE((bound.end == dates::End::Earliest ? *is >= *was : *is <= *was));
      ++amidClashes;
      tighter += *is != *was;
    }
  }
  CHECK(atPeace > 500);
  CHECK(amidClashes > 100);
  CHECK(tighter > 0);
}
