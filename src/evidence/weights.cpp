#include <algorithm>
#include <array>
#include <bit>

#include "evidence/evidence.h"

namespace saggar::evidence {

using dates::Day;
using dates::End;
using records::Evidence;
using records::Kind;
using records::Says;
using records::ValueType;

namespace {

constexpr std::uint32_t kNoSource = 0xFFFFFFFF;
constexpr std::size_t kMostWitnesses = 24;

// A source's own word on what it is worth goes before its type's.
Worth gradeOf(const Record& source, const SourceType* type) {
  Worth worth;
  const Value* typed = source.find("type"_f);
  if (type != nullptr) {
    worth.form = type->form;
    worth.information = type->information;
    worth.shows = type->shows;
  } else if (typed != nullptr && typed->is(ValueType::unfit)) {
    worth.known = false;
  }
  const std::string_view form = source.text("record"_f);
  for (Form one : {Form::original, Form::derivative, Form::authored})
    if (word(one) == form) worth.form = one;
  const std::string_view information = source.text("information"_f);
  for (Information one : {Information::primary, Information::secondary, Information::undetermined})
    if (word(one) == information) worth.information = one;
  return worth;
}

// A date with its own doubts: none for a value that is none, or that the author doubts.
const dates::Expression* datedBy(const Value* value) {
  return value == nullptr || value->isDoubted() ? nullptr : value->date();
}

Day lastDay(const dates::Expression* date, const dates::Options& options) {
  if (date == nullptr || date->isDoubted(End::Latest)) return Day::plusInfinity();
  const Day day = date->wide(options).latest;
  return day.isUnknown() ? Day::plusInfinity() : day;
}

// The first day a fact can be of. An end that is an event gives none.
Day firstDay(const Value& value, const dates::Options& options) {
  const Value& from = value.is(ValueType::between) && value.count() != 0 ? value.items()[0] : value;
  const dates::Expression* date = from.date();
  if (date == nullptr || date->isDoubted(End::Earliest)) return Day::minusInfinity();
  const Day day = date->wide(options).earliest;
  return day.isUnknown() ? Day::minusInfinity() : day;
}

bool isDate(const Value& value) {
  return value.is(ValueType::date) || value.is(ValueType::between) || value.is(ValueType::event);
}

// The standing that a citation gives by itself.
Standing standingBy(const Worth& worth, bool date) {
  const bool primary = worth.information == Information::primary;
  if (worth.form == Form::original)
    return primary && worth.direct && !(date && worth.laterWords()) ? Standing::documented
                                                                    : Standing::supported;
  return worth.form == Form::derivative && primary ? Standing::supported : Standing::suggested;
}

}  // namespace

std::string_view word(Standing standing) {
  constexpr std::string_view kWords[] = {"documented", "supported", "suggested", "judged", "uncited"};
  return kWords[static_cast<std::size_t>(standing)];
}

Weights::Weights(const Collection& collection)
    : collection_(collection), witnesses_(collection), sourceOf_(collection.size(), kNoSource) {
  const auto sources = collection.ofKind(Kind::source);
  sources_.reserve(sources.size());
  for (RecordIndex index : sources) {
    const Record& record = collection[index];
    const SourceType* type = sourceTypeNamed(record.text("type"_f));
    sourceOf_[index] = static_cast<std::uint32_t>(sources_.size());
    sources_.push_back({lastDay(datedBy(record.find("date"_f)), collection.settings().dates),
                        gradeOf(record, type), type != nullptr && type->wantsLocator});
  }
}

Worth Weights::worthOf(RecordIndex thing) const {
  constexpr Worth kPicture{Form::original, Information::primary, Shows::existed};
  if (sourceOf_[thing] != kNoSource) return sources_[sourceOf_[thing]].worth;
  const Record& record = collection_[thing];
  if (record.kind != Kind::specimen) return kPicture;
  Worth worth = kPicture;
  switch (bestSeen(record.find("seen"_f))) {
    case Seen::inHand: return worth;
    case Seen::pictured: worth.direct = false; return worth;
    case Seen::reported:
    case Seen::notSeen: break;
  }
  return Worth();
}

Worth Weights::worthOf(const Citation& citation) const {
  Worth worth;
  if (citation.target == records::kNoRecord) {
    worth.known = false;
    return worth;
  }
  worth = worthOf(citation.target);
  worth.direct &= citation.says == Says::direct;
  return worth;
}

bool Weights::wantsLocator(RecordIndex source) const {
  return sourceOf_[source] != kNoSource && sources_[sourceOf_[source]].wantsLocator;
}

const dates::Expression* Weights::dateOf(const Citation& citation) const {
  if (citation.dated != nullptr) return citation.dated;
  if (citation.target == records::kNoRecord) return nullptr;
  const Record& record = collection_[citation.target];
  return datedBy(record.find(record.kind == Kind::source ? "date"_f : "made"_f));
}

Day Weights::lastDayOf(const Citation& citation) const {
  if (citation.dated == nullptr && citation.target != records::kNoRecord &&
      sourceOf_[citation.target] != kNoSource)
    return sources_[sourceOf_[citation.target]].last;
  return lastDay(dateOf(citation), collection_.settings().dates);
}

Counts Weights::counts(const Citation& citation, const Value& value, const Backing& backing) const {
  if (citation.says == Says::notFound && !value.is(ValueType::unknown) && !value.is(ValueType::none))
    return Counts::notFound;
  if (!isDate(value) || backing.doubted) return Counts::yes;
  const Day first = firstDay(value, collection_.settings().dates);
  if (!first.isFinite()) return Counts::yes;
  return lastDayOf(citation) < first ? Counts::tooEarly : Counts::yes;
}

bool Weights::independent(const Citation& one, const Citation& other) const {
  if (one.target == records::kNoRecord || other.target == records::kNoRecord)
    return one.kind != other.kind || one.id != other.id;
  return witnesses_.independent(one.target, other.target);
}

Backing Weights::recordBacking(RecordIndex record) const {
  return {.evidence = collection_[record].evidence};
}

Backing Weights::inner(const Value& value, const Backing& outer) const {
  Backing backing = outer;
  if (!disputes_.empty()) backing.disputed |= disputes_.contains(&value);
  const Evidence* own = value.evidence;
  if (own == nullptr) return backing;
  if (!own->cite.empty() || !own->judged().empty()) {
    backing.evidence = own;
    backing.own = true;
  }
  backing.doubted |= !own->doubted().empty();
  backing.disputed |= std::any_of(own->but().begin(), own->but().end(),
                                  [](const records::Alternative& one) { return one.setAside.empty(); });
  return backing;
}

Weighed Weights::weighed(const Value& value, const Backing& backing) const {
  Weighed out;
  out.evidence = backing.evidence;
  if (backing.evidence == nullptr) return out;
  const bool date = isDate(value);
  std::array<const Citation*, kMostWitnesses> witnesses{};
  std::size_t different = 0;
  for (const Citation& citation : backing.evidence->cite) {
    const Counts count = counts(citation, value, backing);
    if (count == Counts::notFound && out.notFound == nullptr) out.notFound = &citation;
    if (count == Counts::tooEarly && out.tooEarly == nullptr) out.tooEarly = &citation;
    if (count != Counts::yes) continue;
    ++out.counting;
    const Worth worth = worthOf(citation);
    out.lost |= !worth.known;
    const Standing standing = standingBy(worth, date);
    if (standing < out.standing) {
      out.standing = standing;
      out.best = &citation;
    }
    if (standing != Standing::suggested || different == kMostWitnesses) continue;
    if (std::none_of(witnesses.begin(), witnesses.begin() + different, [&](const Citation* one) {
          return one->target == citation.target && one->id == citation.id && one->kind == citation.kind;
        }))
      witnesses[different++] = &citation;
  }
  if (!backing.evidence->judged().empty()) {
    out.standing = Standing::judged;
    return out;
  }
  if (out.standing != Standing::suggested || out.counting < 2) return out;
  for (std::size_t i = 0; i < different; ++i)
    for (std::size_t j = i + 1; j < different; ++j)
      if (independent(*witnesses[i], *witnesses[j])) {
        out.standing = Standing::supported;
        out.best = witnesses[i];
        out.second = witnesses[j];
        return out;
      }
  out.countedTwice = !out.lost;
  return out;
}

Weighed Weights::weighPart(const Value& value, const Backing& backing, Memo& memo) const {
  const bool plain = !isDate(value) && !value.is(ValueType::unknown) && !value.is(ValueType::none);
  Weighed out;
  if (plain && backing.evidence != nullptr && backing.evidence == memo.evidence) {
    out = memo.weighed;
  } else {
    out = weighed(value, backing);
    if (plain) memo = {backing.evidence, out};
  }
  out.own = backing.own;
  out.disputed = backing.disputed;
  out.doubted = backing.doubted;
  return out;
}

void Weights::weighWhole(const Value& value, const Backing& backing, Memo& memo,
                         std::optional<Weighed>& whole) const {
  if (value.count() != 0 && !value.is(ValueType::between)) {
    for (const Value& item : value.items()) weighWhole(item, inner(item, backing), memo, whole);
    for (const Entry& entry : value.entries())
      weighWhole(entry.value, inner(entry.value, backing), memo, whole);
    return;
  }
  if (value.is(ValueType::unknown) && whole) return;
  Weighed part = weighPart(value, backing, memo);
  if (!whole) {
    whole = part;
    return;
  }
  const bool disputed = part.disputed || whole->disputed;
  const bool lost = part.lost || whole->lost;
  const bool doubted = part.doubted || whole->doubted;
  if (part.standing > whole->standing) whole = part;
  whole->disputed = disputed;
  whole->lost = lost;
  whole->doubted = doubted;
}

bool Weights::find(const Value& wanted, const Value& in, const Backing& outer, Backing& found) const {
  const Backing backing = inner(in, outer);
  if (&in == &wanted) {
    found = backing;
    return true;
  }
  const auto look = [&](const Value& part) {
    return (&part == &wanted || part.count() != 0) && find(wanted, part, backing, found);
  };
  return std::any_of(in.items().begin(), in.items().end(), look) ||
         std::any_of(in.entries().begin(), in.entries().end(),
                     [&](const Entry& entry) { return look(entry.value); });
}

Backing Weights::backingOf(RecordIndex record, const Value& value) const {
  const Backing own = recordBacking(record);
  for (const Entry& field : collection_[record].fields)
    if (&field.value == &value) return inner(value, own);
  Backing found = inner(value, own);
  for (const Entry& field : collection_[record].fields)
    if (find(value, field.value, own, found)) break;
  return found;
}

Weighed Weights::weigh(RecordIndex record, const Value& value) const {
  Memo memo;
  std::optional<Weighed> whole;
  weighWhole(value, backingOf(record, value), memo, whole);
  return whole.value_or(Weighed());
}

void Weights::dispute(const Value& value) {
  disputes_.insert(&value);
}

std::size_t Weights::independentCitations(const Value& value, const Backing& backing) const {
  if (backing.evidence == nullptr) return 0;
  std::vector<const Citation*> all;
  for (const Citation& citation : backing.evidence->cite)
    if (all.size() < kMostWitnesses && counts(citation, value, backing) == Counts::yes &&
        std::none_of(all.begin(), all.end(), [&](const Citation* one) {
          return one->target == citation.target && one->id == citation.id && one->kind == citation.kind;
        }))
      all.push_back(&citation);
  std::array<std::uint32_t, kMostWitnesses> clashes{};
  for (std::size_t i = 0; i < all.size(); ++i)
    for (std::size_t j = i + 1; j < all.size(); ++j)
      if (!independent(*all[i], *all[j])) {
        clashes[i] |= 1U << j;
        clashes[j] |= 1U << i;
      }
  // The most of them of which no two clash. One that clashes with one other at most can be taken at once; else the one
  // that clashes with most is tried both ways.
  const auto most = [&](auto&& self, std::uint32_t left) -> std::size_t {
    std::size_t worst = 0;
    int clashing = -1;
    for (std::size_t i = 0; i < all.size(); ++i) {
      if ((left >> i & 1) == 0) continue;
      const int with = std::popcount(clashes[i] & left);
      if (with <= 1) return 1 + self(self, left & ~(clashes[i] | 1U << i));
      if (with > clashing) {
        clashing = with;
        worst = i;
      }
    }
    if (clashing < 0) return 0;
    return std::max(self(self, left & ~(1U << worst)),
                    1 + self(self, left & ~(clashes[worst] | 1U << worst)));
  };
  return most(most, all.empty() ? 0 : (1U << all.size()) - 1);
}

}  // namespace saggar::evidence
