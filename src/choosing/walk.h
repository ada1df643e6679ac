#pragma once
#include <algorithm>
#include <span>
#include <vector>

#include "base/text.h"
#include "choosing/made_in.h"
#include "choosing/path.h"
#include "choosing/reach.h"
#include "choosing/shown.h"

// Takes the steps of a path and shows what stands at its end, one by one and without keeping it. Not for other rooms.
namespace saggar::choosing {

// Where a walk begins: at a record, within a value of one (a mapping, a look), or where something is missing.
struct Origin {
  Reached::State state = Reached::State::record;
  RecordIndex record = records::kNoRecord;
  const records::Value* value = nullptr;     // State::value
  const records::FieldSpec* spec = nullptr;  // … and what it is
};

// `visit(const Reached&)` gives false to stop. Shows at least one, unless stopped.
template <class Visit>
class Walker {
 public:
  // `keepMappings`: a path that ends in a mapping shows the mapping, not its first field. With `shown` also what pieces
  // show; with `view` everything as that one piece has it.
  Walker(const Collection& collection, std::span<const Step> steps, bool keepMappings, Visit& visit,
         const Shown* shown = nullptr, const PieceView* view = nullptr)
      : collection_(collection),
        steps_(steps),
        keepMappings_(keepMappings),
        visit_(visit),
        shown_(shown),
        view_(view) {}

  void from(const Origin& origin) {
    switch (origin.state) {
      case Reached::State::record: record(origin.record, 0, {}); break;
      case Reached::State::value: value(*origin.value, *origin.spec, origin.record, 0, {}); break;
      default:
        show({.state = origin.state, .record = origin.record, .value = origin.value, .whole = false});
        if (isLook(origin.spec) && origin.record != records::kNoRecord) looksOfPieces(origin.record, 0, {});
    }
    if (showing_ == 0 && going_)
      show({.state = Reached::State::absent, .record = origin.record, .whole = false});
  }

 private:
  using Value = records::Value;
  using ValueType = records::ValueType;
  using FieldSpec = records::FieldSpec;
  using FieldType = records::FieldType;
  using State = Reached::State;

  static constexpr std::size_t kMostShown = 10'000;
  static constexpr std::size_t kMostWork = 200'000;

  // What has been passed on the way.
  struct Way {
    bool inList = false;
    bool complete = true;
    bool inStructure = false;
    std::string_view key;
    std::size_t step = 0;
    bool perhaps = false;
    RecordIndex shownBy = records::kNoRecord;
    Reached::OpenList openList;

    void pass(bool leavesNothingOut) {
      inList = true;
      complete = complete && leavesNothingOut;
    }
    void pass(const Value& list, bool leavesNothingOut, RecordIndex at, std::size_t i) {
      pass(leavesNothingOut);
      if (!leavesNothingOut && openList.value == nullptr) openList = {&list, at, step, i};
    }
  };

  void show(Reached reached) {
    if (!going_) return;
    ++showing_;
    if (showing_ >= kMostShown || work_ >= kMostWork) {
      reached = {.state = State::unknown, .whole = false};
      visit_(reached);
      going_ = false;
      return;
    }
    going_ = visit_(reached);
  }

  void show(State state, RecordIndex at, const Value* value, const FieldSpec* spec, const Way& way,
            bool whole) {
    show({.state = state,
          .record = at,
          .value = value,
          .spec = spec,
          .inList = way.inList,
          .complete = way.inList && way.complete,
          .whole = whole,
          .inStructure = way.inStructure,
          .key = way.key,
          .shownBy = way.shownBy,
          .perhaps = way.perhaps,
          .step = way.step,
          .openList = way.openList});
  }

  bool last(std::size_t i) const { return i >= steps_.size(); }
  bool working() {
    if (++work_ >= kMostWork && going_) show({});
    return going_;
  }

  void record(RecordIndex index, std::size_t i, Way way) {
    if (!working()) return;
    way.inStructure = false;
    way.key = {};
    way.step = i;
    if (last(i)) return show(State::record, index, nullptr, nullptr, way, true);
    const Step& step = steps_[i];
    switch (step.type) {
      case Step::Type::itself: return show(State::record, index, nullptr, nullptr, way, true);
      case Step::Type::backwards: return backwards(index, step.kind, i, way);
      case Step::Type::heading: return ownKey(index, step.key, i, way);
      case Step::Type::feature:
      case Step::Type::spanEnd: return;
      case Step::Type::field: break;
    }
    const records::Record& one = collection_[index];
    if (one.kind == Kind::form && step.field == field::kMadeIn) return shapesOf(index, i, way);
    if (one.kind == Kind::shape && step.field == field::kForms) return formsOf(index, i, way);
    const FieldSpec* spec = records::specOf(one.kind, step.field);
    const Value* found = spec != nullptr ? one.find(step.field) : nullptr;
    if (found == nullptr && one.kind == Kind::specimen && throughTreatment(step.field))
      return ofTreatment(index, i, way);
    if (spec == nullptr) return show(State::none, index, nullptr, nullptr, way, false);
    if (found != nullptr) {
      value(*found, *spec, index, i + 1, way);
    } else if (!(view_ != nullptr && isLook(spec) && lookOfView(index, i + 1, way, nullptr))) {
      leftOut(index, *spec, last(i + 1), way);
      if (isLook(spec)) looksOfPieces(index, i + 1, way);
    }
    const bool complete = found != nullptr && found->evidence != nullptr && found->evidence->complete();
    if ((one.kind == Kind::treatment && step.field == field::kForms) ||
        (one.kind == Kind::mark && step.field == field::kShapes))
      linksOfPieces(index, complete, i, way);
  }

  static bool isLook(const FieldSpec* spec) { return spec != nullptr && spec->type == FieldType::look; }

  // The forms or shapes that pieces show.
  void linksOfPieces(RecordIndex index, bool complete, std::size_t i, Way way) {
    if (shown_ == nullptr) return;
    way.pass(complete);
    for (const Shown::Link& link : shown_->links(index)) {
      if (!going_) return;
      way.shownBy = link.piece;
      record(link.to, i + 1, way);
    }
  }

  // What pieces show of a feature. What they may vary between nobody has seen.
  void looksOfPieces(RecordIndex index, std::size_t i, Way way) {
    if (shown_ == nullptr || last(i) || (view_ != nullptr && !view_->newsOnly)) return;
    way.inStructure = true;
    way.key = steps_[i].key;
    way.pass(true);
    for (const Shown::Look& look : shown_->looks(index)) {
      if (!going_) return;
      if (look.feature != steps_[i].key) continue;
      way.perhaps = look.value->each().size() > 1;
      way.shownBy = look.piece;
      value(*look.value, featureValueSpec(), look.piece, i + 1, way);
    }
  }

  // One piece by itself: its own look; else its ware's, of which it may be any. False if it shows nothing of the feature,
  // or no news.
  bool lookOfView(RecordIndex index, std::size_t i, Way way, const Value* own) {
    if (last(i) || !view_->ware.has(index)) return false;
    const Value* look = collection_[view_->piece].find(field::kLook);
    if (look == nullptr) return false;
    for (const records::Entry& entry : look->entries()) {
      if (entry.key != steps_[i].key || !Shown::isOf(collection_, entry.feature, collection_[index].kind) ||
          entry.value.type == ValueType::unknown || entry.value.type == ValueType::unfit)
        continue;
      if (view_->newsOnly && own != nullptr && says(*own, entry.value)) return false;
      way.inStructure = true;
      way.key = steps_[i].key;
      way.perhaps = entry.value.each().size() > 1;
      way.shownBy = view_->piece;
      value(entry.value, featureValueSpec(), view_->piece, i + 1, way);
      return true;
    }
    return false;
  }

  static const Value& saidBy(const Value& member) {
    const Value* is = member.find(field::kIs);
    return is != nullptr ? *is : member;
  }
  static bool says(const Value& own, const Value& shown) {
    for (const Value& member : own.each())
      for (const Value& one : saidBy(member).each())
        for (const Value& seen : shown.each())
          if (one.type == seen.type && base::folded(one.text) == base::folded(seen.text)) return true;
    return false;
  }

  // A field that is not there, of a record or of a mapping in it.
  void leftOut(RecordIndex index, const FieldSpec& spec, bool whole, const Way& way) {
    const Value* word = whole ? wordWhenLeftOut(spec) : nullptr;
    if (word == nullptr) return show(State::absent, index, nullptr, &spec, way, whole);
    show({.state = State::value,
          .record = index,
          .value = word,
          .spec = &spec,
          .inList = way.inList,
          .complete = way.inList && way.complete,
          .inStructure = way.inStructure,
          .assumed = true,
          .key = way.key,
          .step = way.step,
          .openList = way.openList});
  }

  void ofTreatment(RecordIndex specimen, std::size_t i, const Way& way) {
    const Value* treatment = collection_[specimen].find(field::kTreatment);
    const FieldSpec* spec = records::specOf(Kind::treatment, steps_[i].field);
    if (treatment == nullptr) return show(State::absent, specimen, nullptr, spec, way, last(i + 1));
    if (treatment->target() != records::kNoRecord) return record(treatment->target(), i, way);
    show(treatment->type == ValueType::none ? State::none : State::unknown, specimen, treatment, spec, way,
         last(i + 1));
  }

  void ownKey(RecordIndex index, std::string_view key, std::size_t i, const Way& way) {
    for (const records::Entry& entry : collection_[index].fields)
      if (!entry.known && entry.key == key) return value(entry.value, headingSpec(), index, i + 1, way);
    show(State::absent, index, nullptr, &headingSpec(), way, last(i + 1));
  }

  void backwards(RecordIndex index, Kind kind, std::size_t i, Way way) {
    way.pass(true);
    const bool pieces = kind == Kind::specimen &&
                        (collection_[index].kind == Kind::shape || collection_[index].kind == Kind::motif);
    std::vector<RecordIndex> found;
    auto gather = [&](RecordIndex target, Kind wanted, auto&& take) {
      RecordIndex before = records::kNoRecord;
      for (const linking::BackReference& back : collection_.referredBy(target)) {
        if (!working()) return;
        if (back.from == before || collection_[back.from].kind != wanted ||
            !countsBackwards(wanted, back.field))
          continue;
        before = back.from;
        take(back);
      }
    };
    gather(index, kind, [&](const linking::BackReference& back) { found.push_back(back.from); });
    if (pieces) {
      gather(index, Kind::treatment, [&](const linking::BackReference& back) {
        if (!throughTreatment(back.field)) return;
        gather(back.from, kind, [&](const linking::BackReference& piece) {
          // A piece that states its own shape or motif is not of the treatment's.
          const bool own = collection_[piece.from].find(back.field) != nullptr;
          if (piece.field == field::kTreatment && !own) found.push_back(piece.from);
        });
      });
      std::sort(found.begin(), found.end());
    }
    found.erase(std::unique(found.begin(), found.end()), found.end());
    if (found.empty()) return show(State::none, index, nullptr, nullptr, way, last(i + 1));
    for (RecordIndex one : found) {
      if (!going_) return;
      record(one, i + 1, way);
    }
  }

  // `made-in` of a form, with the shapes that list the form.
  void shapesOf(RecordIndex form, std::size_t i, Way way) {
    const FieldSpec& spec = *records::specOf(Kind::form, field::kMadeIn);
    const Value* said = collection_[form].find(field::kMadeIn);
    const bool allOf = said != nullptr && (said->type == ValueType::all || said->type == ValueType::mapping);
    std::vector<Shown::Link> others;
    if (allOf) {
      for (RecordIndex shape : collection_.ofKind(Kind::shape)) {
        if (!working()) return;
        if (madeIn(collection_, form, shape) == Answer::yes) others.push_back({.to = shape});
      }
    } else {
      for (const linking::BackReference& back : collection_.referredBy(form)) {
        if (!working()) return;
        if (collection_[back.from].kind == Kind::shape && back.field == field::kForms &&
            formSays(collection_, form, back.from) != Answer::yes)
          others.push_back({.to = back.from});
      }
    }
    addShown(form, others);
    eitherSide(allOf ? nullptr : said, others, allOf, form, spec, i, way);
  }

  // `forms` of a shape, with the forms that were made in it.
  void formsOf(RecordIndex shape, std::size_t i, Way way) {
    const FieldSpec& spec = *records::specOf(Kind::shape, field::kForms);
    std::vector<Shown::Link> others;
    for (RecordIndex form : collection_.ofKind(Kind::form)) {
      if (!working()) return;
      const Value* own = collection_[form].find(field::kMadeIn);
      if (own != nullptr && formSays(collection_, form, shape) == Answer::yes &&
          shapeSays(collection_, shape, form) != Answer::yes)
        others.push_back({.to = form});
    }
    addShown(shape, others);
    eitherSide(collection_[shape].find(field::kForms), others, false, shape, spec, i, way);
  }

  void addShown(RecordIndex of, std::vector<Shown::Link>& others) {
    if (shown_ == nullptr) return;
    const auto links = shown_->links(of);
    others.insert(others.end(), links.begin(), links.end());
  }

  // What one side states as typed, then what only the other does.
  void eitherSide(const Value* said, const std::vector<Shown::Link>& others, bool leavesNothingOut,
                  RecordIndex at, const FieldSpec& spec, std::size_t i, Way way) {
    if (said == nullptr && others.empty())
      return show(leavesNothingOut ? State::none : State::absent, at, nullptr, &spec, way, last(i + 1));
    const bool nothing = said != nullptr && said->type == ValueType::none;
    if (said != nullptr && !(nothing && !others.empty())) value(*said, spec, at, i + 1, way);
    way.pass(leavesNothingOut ||
             (said != nullptr && said->evidence != nullptr && said->evidence->complete()));
    for (const Shown::Link& one : others) {
      if (!going_) return;
      way.shownBy = one.piece;
      record(one.to, i + 1, way);
    }
  }

  void value(const Value& one, const FieldSpec& spec, RecordIndex at, std::size_t i, Way way,
             bool member = false) {
    if (!working()) return;
    const bool varies = &spec == &featureValueSpec() || &spec == &lookValueSpec();
    switch (one.type) {
      case ValueType::unknown:
      case ValueType::unfit: return show(State::unknown, at, &one, &spec, way, last(i));
      case ValueType::none: return show(State::none, at, &one, &spec, way, last(i));
      case ValueType::list: {
        if (spec.type == FieldType::citations || records::isKeptAsTyped(spec.type))
          return show(State::value, at, &one, &spec, way, last(i));
        way.pass(one, varies || (one.evidence != nullptr && one.evidence->complete()), at, i);
        if (one.count() == 0)
          return show(way.complete ? State::none : State::absent, at, &one, &spec, way, last(i));
        for (const Value& item : one.items()) {
          if (!going_) return;
          value(item, spec, at, i, way, true);
        }
        return;
      }
      default: break;
    }
    const bool listOfOne = !member && spec.has(records::kInventory) && one.type != ValueType::all;
    if (listOfOne) way.pass(one, one.evidence != nullptr && one.evidence->complete(), at, i);
    switch (spec.type) {
      case FieldType::structure: return structure(one, spec, at, i, way);
      case FieldType::structureMap: return keys(one, spec, at, i, way);
      case FieldType::look: return look(one, at, i, way, spec);
      case FieldType::headings: return headings(one, spec, at, i, way);
      case FieldType::reference:
      case FieldType::madeIn:
        if (last(i)) return show(State::value, at, &one, &spec, way, true);
        if (one.target() == records::kNoRecord) return show(State::unknown, at, &one, &spec, way, false);
        return record(one.target(), i, way);
      case FieldType::span:
        if (!last(i) && steps_[i].type == Step::Type::spanEnd) return spanEnd(one, spec, at, i, way);
        return show(State::value, at, &one, &spec, way, last(i));
      default: return show(State::value, at, &one, &spec, way, last(i));
    }
  }

  void spanEnd(const Value& one, const FieldSpec& spec, RecordIndex at, std::size_t i, const Way& way) {
    const SpanEnd end = steps_[i].key == "from" ? SpanEnd::from : SpanEnd::until;
    show({.state = stateOfEnd(one, end),
          .record = at,
          .value = &one,
          .spec = &spec,
          .inList = way.inList,
          .complete = way.inList && way.complete,
          .whole = last(i + 1),
          .inStructure = way.inStructure,
          .end = end,
          .key = way.key,
          .step = way.step,
          .openList = way.openList});
  }

  void structure(const Value& one, const FieldSpec& spec, RecordIndex at, std::size_t i, Way way) {
    const FieldSpec* inner = &spec.inner[0];
    if (last(i)) {
      if (keepMappings_ && &spec != &lookValueSpec()) return show(State::value, at, &one, &spec, way, true);
    } else {
      inner = nullptr;
      for (const FieldSpec& part : spec.inner)
        if (part.field == steps_[i].field && steps_[i].type == Step::Type::field) inner = &part;
      if (inner == nullptr) return show(State::absent, at, nullptr, nullptr, way, false);
      ++i;
    }
    way.inStructure = true;
    if (const Value* found = one.find(inner->field)) return value(*found, *inner, at, i, way);
    leftOut(at, *inner, last(i), way);
  }

  void keys(const Value& one, const FieldSpec& spec, RecordIndex at, std::size_t i, Way way) {
    if (last(i) && keepMappings_) return show(State::value, at, &one, &spec, way, true);
    const FieldSpec& member = memberSpec(spec);
    if (!last(i) && steps_[i].type == Step::Type::heading) {
      for (const records::Entry& entry : one.entries()) {
        if (entry.key != steps_[i].key) continue;
        way.key = entry.key;
        return value(entry.value, member, at, i + 1, way);
      }
      return show(State::absent, at, nullptr, nullptr, way, last(i + 1));
    }
    way.pass(true);
    for (const records::Entry& entry : one.entries()) {
      if (!going_) return;
      way.key = entry.key;
      value(entry.value, member, at, i, way);
    }
  }

  void look(const Value& one, RecordIndex at, std::size_t i, Way way, const FieldSpec& spec) {
    if (last(i)) return show(State::value, at, &one, &spec, way, true);
    way.inStructure = true;
    way.key = steps_[i].key;
    for (const records::Entry& entry : one.entries()) {
      if (entry.key != steps_[i].key) continue;
      if (view_ != nullptr && lookOfView(at, i, way, &entry.value)) return;
      const auto members = entry.value.each();
      way.perhaps = view_ != nullptr && !view_->newsOnly && view_->ware.has(at) && members.size() > 1;
      const bool dated = std::any_of(members.begin(), members.end(),
                                     [](const Value& v) { return v.type == ValueType::mapping; });
      value(entry.value, dated ? lookValueSpec() : featureValueSpec(), at, i + 1, way);
      return looksOfPieces(at, i, way);
    }
    if (view_ != nullptr && lookOfView(at, i, way, nullptr)) return;
    show(State::absent, at, nullptr, &featureValueSpec(), way, last(i + 1));
    looksOfPieces(at, i, way);
  }

  void headings(const Value& one, const FieldSpec& spec, RecordIndex at, std::size_t i, Way way) {
    if (last(i)) return show(State::value, at, &one, &spec, way, true);
    way.inStructure = true;
    const std::string wanted = base::folded(steps_[i].key);
    for (const records::Entry& entry : one.entries()) {
      if (base::folded(entry.key) != wanted) continue;
      way.key = entry.key;
      return value(entry.value, headingSpec(), at, i + 1, way);
    }
    show(State::absent, at, nullptr, &headingSpec(), way, last(i + 1));
  }

  const Collection& collection_;
  std::span<const Step> steps_;
  bool keepMappings_;
  Visit& visit_;
  const Shown* shown_;
  const PieceView* view_;
  std::size_t showing_ = 0;
  std::size_t work_ = 0;
  bool going_ = true;
};

}  // namespace saggar::choosing
