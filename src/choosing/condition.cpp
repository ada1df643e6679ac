#include "choosing/condition.h"

#include "base/text.h"
#include "choosing/asker.h"
#include "dates/compare.h"

namespace saggar::choosing {

using records::FieldSpec;
using records::FieldType;
using records::Value;
using records::ValueType;
using Node = Condition::Node;

namespace {

Answer from(dates::Certainty certainty) {
  switch (certainty) {
    case dates::Certainty::Impossible: return Answer::no;
    case dates::Certainty::Possible: return Answer::maybe;
    case dates::Certainty::Certain: return Answer::yes;
  }
  return Answer::maybe;
}

Answer yesIf(bool is) {
  return is ? Answer::yes : Answer::no;
}

bool sameFolded(std::string_view text, std::string_view folded) {
  if (text == folded) return true;
  for (char c : text)
    if (static_cast<unsigned char>(c) >= 0x80) return base::folded(text) == folded;
  return text.size() == folded.size() &&
         std::equal(text.begin(), text.end(), folded.begin(), [](char a, char b) {
           return (base::isUpper(a) ? static_cast<char>(a - 'A' + 'a') : a) == b;
         });
}

bool isOpen(const dates::Bounds& bounds) {
  return !bounds.earliest.isFinite() && !bounds.latest.isFinite();
}

Answer withinDays(const dates::Bounds& day, const WantedDays& wanted) {
  if (isOpen(day)) return Answer::maybe;
  Answer answer = Answer::no;
  for (const dates::Bounds& one : wanted) answer = either(answer, from(dates::within(day, one)));
  return answer;
}

Answer overlapsDays(const dates::SpanBounds& span, const WantedDays& wanted) {
  Answer answer = Answer::no;
  for (const dates::Bounds& one : wanted) answer = either(answer, from(dates::overlaps(span, one)));
  return answer;
}

Origin behind(const Reached& reached) {
  if (reached.state != Reached::State::value)
    return {reached.state, reached.record, reached.value, reached.spec};
  if (reached.value->type == ValueType::reference) {
    if (reached.value->target() == records::kNoRecord)
      return {.state = Reached::State::unknown, .record = reached.record, .value = reached.value};
    return {.record = reached.value->target()};
  }
  if (reached.value->type == ValueType::mapping)
    return {reached.state, reached.record, reached.value, reached.spec};
  return {.state = Reached::State::absent, .record = reached.record};
}

// `"none"` in quotes is a feature's own word.
Answer noneIsMeant(const Node& node, const Reached& reached) {
  if (reached.value == nullptr || node.path.feature() == records::kNoRecord) return Answer::no;
  for (const Wanted& wanted : node.wanted)
    if (const auto* text = std::get_if<WantedText>(&wanted); text != nullptr && text->folded == "none")
      return Answer::yes;
  return Answer::no;
}

}  // namespace

Answer Asker::ask(const Node& node, const Origin& origin) const {
  switch (node.type) {
    case Node::Type::allOf:
    case Node::Type::notAll: {
      Answer answer = Answer::yes;
      for (const Node& one : node.nodes) {
        answer = both(answer, ask(one, origin));
        if (answer == Answer::no) break;
      }
      return node.type == Node::Type::allOf ? answer : opposite(answer);
    }
    case Node::Type::anyOf: {
      Answer answer = Answer::no;
      for (const Node& one : node.nodes) {
        answer = either(answer, ask(one, origin));
        if (answer == Answer::yes) break;
      }
      return answer;
    }
    case Node::Type::test: return test(node, origin, nullptr);
  }
  return Answer::maybe;
}

Answer Asker::test(const Node& node, const Origin& origin, Notes* notes) const {
  Answer answer = Answer::no;
  for (const Node& one : node.within) {
    answer = either(answer, within(node.path, one, origin, notes));
    if (answer == Answer::yes) return answer;
  }
  if (!node.words.empty()) answer = either(answer, words(node, origin, notes));
  if (answer == Answer::yes || (node.wanted.empty() && node.days.empty())) return answer;
  if (node.path.endsInMadeIn()) return either(answer, madeInTest(node, origin, notes));
  return either(answer, values(node, origin, node.path.steps(), notes));
}

// A condition on the records or mappings that a path reaches: one that fits is enough.
Answer Asker::within(const Path& path, const Node& inner, const Origin& origin, Notes* notes) const {
  Answer answer = Answer::no;
  bool unlisted = false;
  auto visit = [&](const Reached& reached) {
    unlisted |= reached.inList && !reached.complete;
    if (notes == nullptr) {
      answer = either(answer, ask(inner, behind(reached)));
      return answer != Answer::yes;
    }
    notes->all.push_back(tell(inner, behind(reached), notes->firmness));
    answer = either(answer, notes->all.back().answer);
    return true;
  };
  walk(path.steps(), true, origin, visit);
  if (answer != Answer::no || !unlisted || inner.crisp()) return answer;
  if (notes != nullptr) noteList(*notes, path.steps());
  return Answer::maybe;
}

// `none unknown known absent`: never maybe, unless what a code says is asked.
Answer Asker::words(const Node& node, const Origin& origin, Notes* notes) const {
  bool anySaid = false, anyNone = false, anyUnknown = false, anyOpen = false, onlyAbsent = true;
  auto visit = [&](const Reached& reached) {
    switch (reached.state) {
      case Reached::State::record: anySaid = true; break;
      case Reached::State::value: anySaid = true; break;
      case Reached::State::absent: anyOpen = true; break;
      case Reached::State::none: anyNone |= reached.value != nullptr || reached.whole; break;
      case Reached::State::unknown:
        anyUnknown |= reached.value == nullptr || reached.value->type == ValueType::unknown ||
                      reached.end != SpanEnd::whole;
        anyOpen = true;
        break;
    }
    const bool nobody = reached.state == Reached::State::none && reached.value == nullptr;
    onlyAbsent &= reached.state == Reached::State::absent || reached.assumed || nobody;
    return true;
  };
  walk(node.path.steps(), false, origin, visit);
  const auto answer = [&] {
    for (Word word : node.words) {
      if (word == Word::known && anySaid) return Answer::yes;
      if (word == Word::none && anyNone) return Answer::yes;
      if (word == Word::unknown && anyUnknown) return Answer::yes;
      if (word == Word::absent && onlyAbsent) return Answer::yes;
    }
    const bool asksNone = std::find(node.words.begin(), node.words.end(), Word::none) != node.words.end();
    return mayBeNone_ && asksNone && anyOpen ? Answer::maybe : Answer::no;
  }();
  if (notes != nullptr) noteWords(*notes, node, answer);
  return answer;
}

Answer Asker::values(const Node& node, const Origin& origin, std::span<const Step> steps,
                     Notes* notes) const {
  Answer answer = Answer::no;
  bool unlisted = false;
  auto visit = [&](const Reached& reached) {
    unlisted |= reached.inList && !reached.complete;
    Answer one = fits(node, reached);
    if (reached.perhaps && one == Answer::yes) one = Answer::maybe;
    answer = either(answer, one);
    if (notes != nullptr) note(*notes, steps, node, reached, one);
    return notes != nullptr || answer != Answer::yes;
  };
  walk(steps, false, origin, visit);
  if (answer != Answer::no || !unlisted) return answer;
  if (notes != nullptr) noteList(*notes, steps);
  return Answer::maybe;
}

Answer Asker::fits(const Node& node, const Reached& reached) const {
  if (!node.days.empty()) {
    const Answer days = fitsDays(node.days, reached);
    if (days != Answer::no || node.wanted.empty()) return days;
  }
  switch (reached.state) {
    case Reached::State::absent:
    case Reached::State::unknown: return Answer::maybe;
    case Reached::State::none: return noneIsMeant(node, reached);
    case Reached::State::record:
      for (const Wanted& wanted : node.wanted)
        if (const auto* record = std::get_if<WantedRecord>(&wanted);
            record != nullptr && record->record == reached.record)
          return Answer::yes;
      return Answer::no;
    case Reached::State::value: break;
  }
  const Value& value = *reached.value;
  if (value.type == ValueType::reference && value.target() == records::kNoRecord) return Answer::maybe;
  for (const Wanted& wanted : node.wanted)
    if (equal(wanted, value, reached, node.path.endSpec()->type == FieldType::structureMap))
      return Answer::yes;
  return Answer::no;
}

bool Asker::equal(const Wanted& wanted, const Value& value, const Reached& reached, bool byKey) const {
  if (const auto* text = std::get_if<WantedText>(&wanted)) {
    if (sameFolded(value.text, text->folded)) return true;
    // The keys of `values` are what an author thinks of as the values.
    return byKey && sameFolded(reached.key, text->folded);
  }
  if (const auto* record = std::get_if<WantedRecord>(&wanted)) return value.target() == record->record;
  if (const auto* event = std::get_if<WantedEvent>(&wanted))
    return value.target() == event->record && value.eventField == event->field &&
           endOfEvent(value, collection_[event->record].kind) == event->end;
  if (const auto* range = std::get_if<Range>(&wanted))
    return (value.type == ValueType::number || value.type == ValueType::yes) && range->has(value.number());
  if (const auto* range = std::get_if<MeasureRange>(&wanted))
    return value.measure() != nullptr && range->has(*value.measure());
  return value.type == ValueType::all;
}

bool Asker::isEventOfRecord(const Reached& reached) {
  return reached.whole && !reached.inStructure && reached.record != records::kNoRecord &&
         reached.spec != nullptr && reached.spec->has(records::kDated);
}

Answer Asker::fitsDays(const WantedDays& wanted, const Reached& reached) const {
  if (reached.state == Reached::State::none) return Answer::no;
  const bool ofRecord = isEventOfRecord(reached);
  const dates::Expression* date = reached.value != nullptr ? reached.value->date() : nullptr;
  const dates::Options& options = collection_.settings().dates;
  if (reached.end != SpanEnd::whole) return endFits(wanted, reached, ofRecord);
  if (ofRecord && reached.spec->type == FieldType::span) {
    dates::SpanBounds span;
    if (date != nullptr) span = dates::spanOf(*date, bounds_.reading(), options);
    span.begin = bounds_.of(reached.record, reached.spec->field, Bounds::End::from);
    span.end = bounds_.of(reached.record, reached.spec->field, Bounds::End::until);
    if (date == nullptr && isOpen(span.begin) && isOpen(span.end)) return Answer::maybe;
    return overlapsDays(span, wanted);
  }
  if (date != nullptr && reached.spec != nullptr && reached.spec->type == FieldType::span)
    return overlapsDays(dates::spanOf(*date, bounds_.reading(), options), wanted);
  Answer answer = Answer::maybe;
  if (ofRecord)
    answer = withinDays(bounds_.of(reached.record, reached.spec->field, Bounds::End::moment), wanted);
  else if (date != nullptr)
    answer = withinDays(date->bounds(bounds_.reading(), options).opened(), wanted);
  // Of a set each member is a day of its own: 1932 or 1934 is not 1933.
  if (answer == Answer::maybe && date != nullptr && date->size() > 1) {
    bool all = true, none = true;
    for (const dates::Bounds& member : date->memberBounds(bounds_.reading(), options)) {
      const Answer one = withinDays(member.opened(), wanted);
      all &= one == Answer::yes;
      none &= one == Answer::no;
    }
    if (all) return Answer::yes;
    if (none) return Answer::no;
  }
  return answer;
}

// `used.from`, `used.until`: a day, as a moment is.
Answer Asker::endFits(const WantedDays& wanted, const Reached& reached, bool ofRecord) const {
  const bool from = reached.end == SpanEnd::from;
  if (ofRecord)
    return withinDays(
        bounds_.of(reached.record, reached.spec->field, from ? Bounds::End::from : Bounds::End::until),
        wanted);
  const dates::Expression* date = reached.value->date();
  if (date == nullptr) return Answer::maybe;
  const dates::SpanBounds span = dates::spanOf(*date, bounds_.reading(), collection_.settings().dates);
  return withinDays((from ? span.begin : span.end).opened(), wanted);
}

// `made-in` and `forms`: the two sides of one relation, asked of each form or shape before the last step.
Answer Asker::madeInTest(const Node& node, const Origin& origin, Notes* notes) const {
  const auto steps = std::span(node.path.steps());
  const auto lastStep = steps.subspan(steps.size() - 1);
  Answer answer = Answer::no;
  bool unlisted = false;
  auto visit = [&](const Reached& reached) {
    unlisted |= reached.inList && !reached.complete;
    RecordIndex owner = records::kNoRecord;
    if (reached.state == Reached::State::record) owner = reached.record;
    if (reached.state == Reached::State::value) owner = reached.value->target();
    Answer one = reached.state == Reached::State::none ? Answer::no : Answer::maybe;
    if (owner != records::kNoRecord) {
      one = madeInOf(owner, node, lastStep, notes);
    } else if (notes != nullptr) {
      note(*notes, steps, node, reached, one);
    }
    answer = either(answer, one);
    return notes != nullptr || answer != Answer::yes;
  };
  walk(steps.first(steps.size() - 1), true, origin, visit);
  if (answer != Answer::no || !unlisted) return answer;
  if (notes != nullptr) noteList(*notes, steps);
  return Answer::maybe;
}

// A piece that shows that the form came in the shape.
const Shown::Link* Asker::shownIn(RecordIndex form, RecordIndex shape) const {
  if (shown_ == nullptr) return nullptr;
  const auto links = shown_->links(form);
  const auto found =
      std::lower_bound(links.begin(), links.end(), shape,
                       [](const Shown::Link& one, RecordIndex wanted) { return one.to < wanted; });
  return found != links.end() && found->to == shape ? &*found : nullptr;
}

Answer Asker::madeInOf(RecordIndex owner, const Node& node, std::span<const Step> lastStep,
                       Notes* notes) const {
  const Kind kind = collection_[owner].kind;
  const records::Field field = lastStep[0].field;
  const bool ofForm = kind == Kind::form && field == "made-in"_f;
  if (!ofForm && !(kind == Kind::shape && field == "forms"_f))
    return values(node, {.record = owner}, lastStep, notes);
  Answer answer = Answer::no;
  for (const Wanted& wanted : node.wanted) {
    Answer one = Answer::no;
    if (const auto* record = std::get_if<WantedRecord>(&wanted)) {
      const RecordIndex form = ofForm ? owner : record->record;
      const RecordIndex shape = ofForm ? record->record : owner;
      one = madeIn(collection_, form, shape);
      const Shown::Link* piece = one == Answer::yes ? nullptr : shownIn(form, shape);
      if (piece != nullptr) one = Answer::yes;
      if (notes != nullptr && piece != nullptr) noteField(*notes, piece->piece, "form"_f, one);
      if (notes != nullptr && piece == nullptr) noteMadeIn(*notes, form, shape, one);
    } else if (std::holds_alternative<WantedAll>(wanted)) {
      const Value* said = collection_[owner].find(field);
      one = said == nullptr || said->type == ValueType::unknown ? Answer::maybe
                                                                : yesIf(said->type == ValueType::all);
      if (notes != nullptr) noteField(*notes, owner, field, one);
    }
    answer = either(answer, one);
  }
  return answer;
}

Answer Condition::of(RecordIndex record, const Collection& collection, const Bounds& bounds,
                     const Shown* shown, const PieceView* view) const {
  if (root_ == nullptr) return Answer::yes;
  return Asker(collection, bounds, false, shown, view).ask(*root_, {.record = record});
}

Answer Condition::agrees(RecordIndex record, const Collection& collection, const Bounds& bounds) const {
  if (root_ == nullptr) return Answer::yes;
  return Asker(collection, bounds, true).ask(*root_, {.record = record});
}

}  // namespace saggar::choosing
