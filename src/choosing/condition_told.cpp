#include <algorithm>

#include "choosing/asker.h"

// Why a condition is answered as it is: the values that decide, of a maybe those that would have to be known.
namespace saggar::choosing {

using records::Value;

namespace {

constexpr std::size_t kMostNotes = 1000;  // of one path

std::string_view nameOf(const Step& step) {
  switch (step.type) {
    case Step::Type::field: return step.field.name();
    case Step::Type::backwards: return records::name(step.kind);
    case Step::Type::itself: return "id";
    default: return step.key;
  }
}

std::string textOf(std::span<const Step> steps) {
  std::string text;
  for (const Step& step : steps) text += (text.empty() ? "" : ".") + std::string(nameOf(step));
  return text;
}

// The field within which a value stands: what is asked of a mapping has a way that begins there.
std::string_view fieldAround(const records::Record& record, const Value* value) {
  if (value != nullptr)
    for (const records::Entry& entry : record.fields)
      if (entry.value.place.begin <= value->place.begin && value->place.end <= entry.value.place.end)
        return entry.key;
  return {};
}

void join(Told& out, const Told& more) {
  out.firm = out.firm && more.firm;
  for (const Ground& ground : more.grounds)
    if (out.grounds.size() < Told::kMostGrounds &&
        std::find(out.grounds.begin(), out.grounds.end(), ground) == out.grounds.end())
      out.grounds.push_back(ground);
}

// Of all that were told those with this answer: every one where all are needed for it; else one, a firm one if there is.
Told chosen(const std::vector<Told>& all, Answer answer, bool allNeeded) {
  Told out{answer, true, {}};
  const Told* best = nullptr;
  for (const Told& one : all) {
    if (one.answer != answer) continue;
    if (allNeeded || answer == Answer::maybe) {
      join(out, one);
    } else if (best == nullptr || (one.firm && !best->firm)) {
      best = &one;
    }
  }
  return best != nullptr ? *best : out;
}

}  // namespace

Told Asker::tell(const Node& node, const Origin& origin, const Firmness& firmness) const {
  if (node.type == Node::Type::test) {
    Notes notes{firmness, origin, {}};
    const Answer answer = test(node, origin, &notes);
    Told out = chosen(notes.all, answer, answer == Answer::no);
    addLink(out, notes, node.path.steps());
    return out;
  }
  std::vector<Told> all;
  const bool any = node.type == Node::Type::anyOf;
  Answer answer = any ? Answer::no : Answer::yes;
  for (const Node& one : node.nodes) {
    all.push_back(tell(one, origin, firmness));
    answer = any ? either(answer, all.back().answer) : both(answer, all.back().answer);
  }
  Told out = chosen(all, answer, answer == (any ? Answer::no : Answer::yes));
  if (node.type == Node::Type::notAll) out.answer = opposite(out.answer);
  return out;
}

Ground groundOf(std::span<const Step> steps, const Reached& reached, RecordIndex from) {
  Ground ground;
  ground.record = reached.record != records::kNoRecord ? reached.record : from;
  ground.value = reached.assumed ? nullptr : reached.value;
  ground.assumed = reached.assumed;
  ground.shown = reached.shownBy != records::kNoRecord;
  ground.field = textOf(steps.subspan(std::min(reached.step, steps.size())));
  return ground;
}

// The piece, with its form or its marks.
Ground Asker::shownGround(const Reached& reached) const {
  const records::Field field = collection_[reached.record].kind == Kind::form ? field::kForm : field::kMarks;
  Ground ground;
  ground.record = reached.shownBy;
  ground.value = collection_[reached.shownBy].find(field);
  ground.field = std::string(field.name());
  ground.shown = true;
  return ground;
}

Ground Asker::groundOf(const Notes& notes, std::span<const Step> steps, const Reached& reached) const {
  if (reached.state == Reached::State::record && reached.shownBy != records::kNoRecord)
    return shownGround(reached);
  Ground ground = choosing::groundOf(steps, reached, notes.origin.record);
  if (notes.origin.state == Reached::State::record || reached.step != 0) return ground;
  std::string_view around;
  if (ground.shown) {
    around = field::kLook.name();
  } else if (ground.record == notes.origin.record && ground.record != records::kNoRecord) {
    around = fieldAround(collection_[ground.record], notes.origin.value);
  }
  if (!around.empty()) ground.field = std::string(around) + '.' + ground.field;
  return ground;
}

void Asker::add(Notes& notes, Ground ground, Answer answer) {
  ground.missing = answer == Answer::maybe;
  const bool firm = notes.firmness.isFirm(ground);
  notes.all.push_back({answer, firm, {std::move(ground)}});
}

void Asker::note(Notes& notes, std::span<const Step> steps, const Node& node, const Reached& reached,
                 Answer answer) const {
  if (notes.all.size() >= kMostNotes) return;
  Ground ground = groundOf(notes, steps, reached);
  if (!node.days.empty() && isEventOfRecord(reached)) decideDays(ground, node.days, reached);
  add(notes, std::move(ground), answer);
}

// Which ends of a date keep it within what is asked, or out of it.
void Asker::decideDays(Ground& ground, const WantedDays& wanted, const Reached& reached) const {
  ground.days = true;
  ground.event = reached.spec->field;
  ground.end = reached.end == SpanEnd::from    ? Bounds::End::from
               : reached.end == SpanEnd::until ? Bounds::End::until
                                               : Bounds::End::moment;
  const dates::Bounds days = bounds_.of(reached.record, ground.event, ground.end);
  const bool before = days.latest < wanted.front().earliest;
  const bool after = days.earliest > wanted.back().latest;
  ground.earliest = !before;
  ground.latest = !after;
}

void Asker::noteWords(Notes& notes, const Node& node, Answer answer) const {
  Told all{answer, true, {}};
  auto visit = [&](const Reached& reached) {
    Ground ground = groundOf(notes, node.path.steps(), reached);
    ground.missing = answer == Answer::maybe;
    join(all, {answer, notes.firmness.isFirm(ground), {ground}});
    return all.grounds.size() < Told::kMostGrounds;
  };
  walk(node.path.steps(), false, notes.origin, visit);
  notes.all.push_back(std::move(all));
}

Ground openListGround(std::span<const Step> steps, const Reached::OpenList& list) {
  Ground ground;
  ground.record = list.record;
  ground.value = list.value;
  ground.field = textOf(steps.subspan(list.step, list.end - list.step));
  ground.leavesOut = list.value != nullptr;
  return ground;
}

// The list that a member was reached in; where only pieces show members, that nothing is typed.
Ground Asker::listGround(const Notes& notes, std::span<const Step> steps, const Reached& reached) const {
  if (reached.openList.value == nullptr) {
    Ground ground = groundOf(notes, steps, reached);
    ground.value = nullptr;
    return ground;
  }
  Ground ground = openListGround(steps, reached.openList);
  if (reached.openList.step == 0 && notes.origin.state != Reached::State::record &&
      ground.record == notes.origin.record) {
    const std::string_view around = fieldAround(collection_[ground.record], notes.origin.value);
    if (ground.field.empty())
      ground.field = around;
    else if (!around.empty())
      ground.field = std::string(around) + '.' + ground.field;
  }
  return ground;
}

// A list that does not say whether it leaves anything out: what it holds does not settle the matter.
void Asker::noteList(Notes& notes, std::span<const Step> steps) const {
  auto visit = [&](const Reached& reached) {
    if (!reached.inList || reached.complete) return true;
    add(notes, listGround(notes, steps, reached), Answer::maybe);
    return false;
  };
  walk(steps, true, notes.origin, visit);
}

void Asker::noteMadeIn(Notes& notes, RecordIndex form, RecordIndex shape, Answer answer) const {
  Told both{answer, true, {}};
  for (const auto& [record, field, says] :
       {std::tuple{form, "made-in"_f, formSays(collection_, form, shape)},
        std::tuple{shape, "forms"_f, shapeSays(collection_, shape, form)}}) {
    if (says != answer && answer != Answer::maybe) continue;
    Ground ground{.record = record,
                  .value = collection_[record].find(field),
                  .field = std::string(field.name()),
                  .missing = answer == Answer::maybe,
                  .leavesOut = answer == Answer::maybe && isOpenList(collection_[record].find(field))};
    join(both, {answer, notes.firmness.isFirm(ground), {ground}});
  }
  notes.all.push_back(std::move(both));
}

void Asker::noteField(Notes& notes, RecordIndex record, records::Field field, Answer answer) const {
  Ground ground;
  ground.record = record;
  ground.value = collection_[record].find(field);
  ground.field = std::string(field.name());
  ground.shown = collection_[record].kind == Kind::specimen;
  add(notes, std::move(ground), answer);
}

// The record's own word that leads to what decides: a treatment is of the maker whose shape it is on.
void Asker::addLink(Told& out, const Notes& notes, std::span<const Step> steps) const {
  const RecordIndex from = notes.origin.record;
  if (notes.origin.state != Reached::State::record || from == records::kNoRecord ||
      steps[0].type != Step::Type::field)
    return;
  if (std::none_of(out.grounds.begin(), out.grounds.end(),
                   [&](const Ground& one) { return one.record != from && !one.shown; }))
    return;
  const records::Record& record = collection_[from];
  const Value* value = record.find(steps[0].field);
  std::string_view field = steps[0].field.name();
  if (value == nullptr && record.kind == Kind::specimen && throughTreatment(steps[0].field)) {
    value = record.find(field::kTreatment);
    field = field::kTreatment.name();
  }
  if (value == nullptr) return;
  const Ground link{.record = from, .value = value, .field = std::string(field)};
  if (std::any_of(out.grounds.begin(), out.grounds.end(),
                  [&](const Ground& one) { return one.record == from && one.field == link.field; }))
    return;
  out.firm = out.firm && notes.firmness.isFirm(link);
  out.grounds.insert(out.grounds.begin(), link);
}

Told Condition::tell(RecordIndex record, const Collection& collection, const Bounds& bounds,
                     const Firmness& firmness, const Shown* shown, const PieceView* view) const {
  if (root_ == nullptr) return {Answer::yes, true, {}};
  return Asker(collection, bounds, false, shown, view).tell(*root_, {.record = record}, firmness);
}

}  // namespace saggar::choosing
