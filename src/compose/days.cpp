#include "compose/days.h"

#include <algorithm>

#include "compose/phrases.h"
#include "dates/binding.h"
#include "dates/print.h"

namespace saggar::compose {

using chronology::BoundsOf;
using chronology::EventEnd;
using chronology::FactId;
using chronology::Node;
using dates::Bounds;
using dates::Day;
using dates::End;
using records::Field;
using records::Value;

namespace {

constexpr Bounds kOpen{Day::minusInfinity(), Day::plusInfinity()};

bool isOpen(const Bounds& days) {
  return !days.earliest.isFinite() && !days.latest.isFinite();
}

bool otherYear(Day one, Day other) {
  return !other.isFinite() || one.civil().year != other.civil().year;
}

// Those ends of `days` that are narrower than `known`; if `byYear`, only where the year is another.
Bounds narrower(const Bounds& days, const Bounds& known, bool byYear) {
  Bounds out = kOpen;
  if (days.earliest > known.earliest && (!byYear || otherYear(days.earliest, known.earliest)))
    out.earliest = days.earliest;
  if (days.latest < known.latest && (!byYear || otherYear(days.latest, known.latest)))
    out.latest = days.latest;
  return out;
}

constexpr std::pair<Field, Field> kLives[] = {
    {"introduced"_f, "withdrawn"_f}, {"founded"_f, "closed"_f}, {"born"_f, "died"_f}};

// The other end of the life that the event begins or ends; the field itself where there is none.
Field otherEnd(Field field) {
  for (const auto& [begin, end] : kLives)
    if (field == begin || field == end) return field == begin ? end : begin;
  return field;
}

bool beginsLife(Field field) {
  return std::any_of(std::begin(kLives), std::end(kLives),
                     [&](const auto& life) { return life.first == field; });
}

class Known {
 public:
  Known(const Words& words, const PublishedRecord& record, Field field, EventEnd end, Room room)
      : words_(words),
        chronology_(words.materials().chronology),
        record_(record),
        node_(chronology_.events().nodeOf(record.index(), field, end)),
        field_(field),
        end_(end),
        room_(room) {
    if (node_ == chronology::kNoNode) return;
    proven_ = chronology_.bounds(node_, BoundsOf::proven);
    likely_ = chronology_.bounds(node_, BoundsOf::likely);
    const Bounds typed = typedDays();
    if (isOpen(typed) || !canBeReliedOn()) {
      besideNothing();
    } else {
      proven_ = narrower(proven_, typed, room == Room::row);
      forgetSighting();
      if (!isOpen(proven_)) likely_ = kOpen;
    }
    if (!isOpen(typed)) {
      likely_ = narrower(likely_, typed, true);
      // That nobody made it before there was a firm, or after, need not be said.
      if (!typed.earliest.isFinite()) likely_.earliest = Day::minusInfinity();
      if (!typed.latest.isFinite()) likely_.latest = Day::plusInfinity();
    }
  }

  void narrowTo(const Bounds& known) {
    proven_ = narrower(proven_, known, true);
    likely_ = narrower(likely_, known, true);
    forgetLoose();
  }

  Inlines inWords() const {
    Inlines out;
    if (!isOpen(proven_)) {
      const std::string days = dates::describeBounds(proven_);
      put(out, evidenceLast() ? "proven " + days : days + ", proven");
      if (room_ != Room::row) putWitnesses(out);
    }
    const bool decided = proven_.earliest.isFinite() && proven_.latest.isFinite();
    if (!isOpen(likely_) && (room_ != Room::row || !decided))
      put(out, (out.empty() ? "likely " : "; likely ") + dates::describeBounds(likely_));
    return out;
  }

 private:
  bool evidenceLast() const { return room_ == Room::lectern && end_ == EventEnd::moment; }

  // The days that the date typed allows; open where none is.
  Bounds typedDays() const {
    const Value* value = record_.find(field_);
    const dates::Expression* date = value == nullptr ? nullptr : value->date();
    if (date == nullptr) return kOpen;
    const dates::Options& options = words_.materials().records.settings().dates;
    if (end_ == EventEnd::moment)
      return dates::momentDays(*date, dates::Reading::Plain, options, dates::Doubted::AtItsWord);
    const dates::SpanDays days =
        dates::spanDays(*date, dates::Reading::Plain, options, dates::Doubted::AtItsWord);
    return end_ == EventEnd::from ? days.begin : days.end;
  }

  bool canBeReliedOn() const {
    const evidence::Weighed weighed =
        words_.materials().weights.weigh(record_.index(), *record_.find(field_));
    return !weighed.disputed && !weighed.doubted;
  }

  // All that is known, but for what the other end of its life says as well: that it ended after it began.
  void besideNothing() {
    forgetSighting();
    const Field other = otherEnd(field_);
    if (other != field_ || end_ != EventEnd::moment) {
      const bool begins = end_ == EventEnd::from || (end_ == EventEnd::moment && beginsLife(field_));
      const Node opposite = end_ == EventEnd::moment
                                ? chronology_.events().nodeOf(record_.index(), other)
                                : chronology_.events().nodeOf(record_.index(), field_,
                                                              begins ? EventEnd::until : EventEnd::from);
      for (auto [days, which] : {std::pair{&proven_, BoundsOf::proven}, {&likely_, BoundsOf::likely}}) {
        const Bounds theirs = chronology_.bounds(opposite, which);
        if (begins && days->latest == theirs.latest) days->latest = Day::plusInfinity();
        if (!begins && days->earliest == theirs.earliest) days->earliest = Day::minusInfinity();
      }
    }
    likely_ = narrower(likely_, proven_, true);
    forgetLoose();
  }

  // That a thing was there when somebody saw it tells a reader nothing.
  void forgetSighting() {
    if (!proven_.latest.isFinite()) return;
    const std::vector<FactId> chain = chronology_.because(node_, BoundsOf::proven, End::Latest);
    if (!chain.empty() && chronology_.fact(chain.front()).says == chronology::Says::seen)
      proven_.latest = Day::plusInfinity();
  }

  // Likely days that are open at one end say little: mostly that there was a firm then.
  void forgetLoose() {
    const bool two = (likely_.earliest.isFinite() || proven_.earliest.isFinite()) &&
                     (likely_.latest.isFinite() || proven_.latest.isFinite());
    if (!two) likely_ = kOpen;
  }

  // What is cited for the date itself, at the same place, stands beside it already.
  bool standsBeside(const records::Citation& cited, Field field) const {
    const Value* value = record_.find(field);
    if (value == nullptr || value->evidence == nullptr) return false;
    const auto& all = value->evidence->cite;
    return std::any_of(all.begin(), all.end(), [&](const records::Citation& one) {
      return one.target == cited.target && one.at == cited.at;
    });
  }

  void putWitnesses(Inlines& out) const {
    std::vector<Inlines> names;
    std::vector<std::string> told;
    for (const End end : {End::Earliest, End::Latest}) {
      if (!proven_.at(end).isFinite()) continue;
      const std::vector<FactId> chain = chronology_.because(node_, BoundsOf::proven, end);
      const FactId witness = witnessIn(chronology_, chain);
      if (witness == chronology::kNoFact) continue;
      const chronology::Fact& start = chronology_.fact(witness);
      const bool date = !start.cites() && start.says == chronology::Says::date;
      const bool beside =
          start.cites() ? standsBeside(*start.citation, field_) : date && start.record == record_.index();
      if (beside && room_ == Room::entry) continue;
      Inlines name = beside && date ? words_.ownEvidence(*start.value, true)
                                    : witnessOf(words_, witness, record_.index());
      if (name.empty()) continue;
      std::string plain = document::plainText(name);
      if (std::find(told.begin(), told.end(), plain) != told.end()) continue;
      told.push_back(std::move(plain));
      names.push_back(std::move(name));
    }
    if (names.empty()) return;
    put(out, evidenceLast() ? ": " : " by ");
    put(out, evidenceLast() ? separated(std::move(names), "; ") : listed(std::move(names)));
  }

  const Words& words_;
  const chronology::Chronology& chronology_;
  const PublishedRecord& record_;
  Node node_;
  Field field_;
  EventEnd end_;
  Room room_;
  Bounds proven_ = kOpen;
  Bounds likely_ = kOpen;
};

}  // namespace

FactId witnessIn(const chronology::Chronology& chronology, const std::vector<FactId>& chain) {
  if (chain.empty()) return chronology::kNoFact;
  const bool cited = chain.size() > 1 && chronology.fact(chain[1]).cites() &&
                     chronology.fact(chain[1]).citation->kind == Kind::source &&
                     chronology.fact(chain[1]).citation->target == chronology.fact(chain[0]).record;
  return chain[cited ? 1 : 0];
}

Inlines witnessOf(const Words& words, FactId fact, RecordIndex own) {
  using chronology::Says;
  const chronology::Fact& one = words.materials().chronology.fact(fact);
  if (one.cites()) return words.citation(*one.citation, true);
  if (one.record != own) return words.name(one.record);
  switch (one.says) {
    case Says::look: {
      const RecordIndex feature = words.materials().chronology.otherOf(fact);
      return words.linked(feature, {document::text("its " + words.plainFeature(feature))});
    }
    case Says::dateCode: return {document::text("its date code")};
    case Says::worksInUse: return {document::text("the works in its date code")};
    case Says::inUse: {
      const bool dated = one.field == "date-code"_f;
      return {document::text(dated ? "the years of such date codes" : "the years of such numbers")};
    }
    case Says::number:
    case Says::table: return {document::text("its number")};
    default: return words.name(one.record);
  }
}

Inlines daysBeside(const Words& words, const PublishedRecord& record, Field field, Room room) {
  const records::FieldSpec* spec = records::specOf(record.kind(), field);
  if (spec == nullptr) return {};
  if (spec->type != records::FieldType::span)
    return Known(words, record, field, EventEnd::moment, room).inWords();
  std::vector<Inlines> parts;
  for (const EventEnd end : {EventEnd::from, EventEnd::until}) {
    Inlines days = Known(words, record, field, end, room).inWords();
    if (days.empty()) continue;
    Inlines part;
    put(part, end == EventEnd::from ? "begun " : "ended ");
    put(part, std::move(days));
    parts.push_back(std::move(part));
  }
  return separated(std::move(parts), "; ");
}

Inlines daysOfMaking(const Words& words, const PublishedRecord& specimen) {
  const Value* code = specimen.find("date-code"_f);
  if (specimen.find("made"_f) != nullptr && specimen.find("made"_f)->said()) return {};
  if (code != nullptr && code->said() && !words.materials().weights.weigh(specimen.index(), *code).disputed &&
      (code->evidence == nullptr || code->evidence->doubted().empty()))
    return {};
  const chronology::Chronology& chronology = words.materials().chronology;
  Bounds life = kOpen;
  for (const Field field : {"treatment"_f, "shape"_f}) {
    const Value* ware = specimen.find(field);
    if (ware == nullptr || ware->target() == records::kNoRecord) continue;
    const chronology::Events& events = chronology.events();
    life = {chronology.bounds(events.nodeOf(ware->target(), "introduced"_f), BoundsOf::likely).earliest,
            chronology.bounds(events.nodeOf(ware->target(), "withdrawn"_f), BoundsOf::likely).latest};
    break;
  }
  Known known(words, specimen, "made"_f, EventEnd::moment, Room::entry);
  known.narrowTo(life);
  return known.inWords();
}

}  // namespace saggar::compose
