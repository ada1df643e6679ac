#include <algorithm>

#include "base/text.h"
#include "choosing/claim_test_run.h"

// Whether two records have the same in one field. What is open on one side alone leaves it open; lists are the same if
// they have the same members, which is known only of lists that leave nothing out.
namespace saggar::choosing {

using records::Value;
using records::ValueType;
using State = Reached::State;

namespace {

struct Side {
  std::vector<Reached> reached;  // values and records, none among them
  bool open = false;             // something is not recorded, not known or not all listed
};

bool isNone(const Reached& one) {
  return one.state == State::none;
}

Side sideOf(const Path& path, RecordIndex record, const Collection& collection) {
  Side side;
  for (const Reached& one : path.from(record, collection)) {
    const bool unclear = one.state == State::absent || one.state == State::unknown ||
                         (one.state == State::value && one.value->type == ValueType::reference &&
                          one.value->target() == records::kNoRecord);
    side.open |= unclear || (one.inList && !one.complete);
    if (!unclear) side.reached.push_back(one);
  }
  return side;
}

RecordIndex recordOf(const Reached& one) {
  if (one.state == State::record) return one.record;
  return one.state == State::value && one.value->type == ValueType::reference ? one.value->target()
                                                                              : records::kNoRecord;
}

class Alike {
 public:
  Alike(const Collection& collection, const Bounds& bounds) : all_(collection), bounds_(bounds) {}

  Answer of(const Reached& a, const Reached& b) const {
    if (isNone(a) || isNone(b)) return yesIf(isNone(a) && isNone(b));
    if (recordOf(a) != records::kNoRecord || recordOf(b) != records::kNoRecord)
      return yesIf(recordOf(a) == recordOf(b));
    if (a.value == nullptr || b.value == nullptr) return Answer::maybe;
    if (a.value->date() != nullptr && b.value->date() != nullptr) return dates(a, b);
    if (a.value->measure() != nullptr && b.value->measure() != nullptr)
      return yesIf(MeasureRange{*a.value->measure(), *a.value->measure(), true}.has(*b.value->measure()));
    if (a.value->type == ValueType::number && b.value->type == ValueType::number)
      return yesIf(a.value->number() == b.value->number());
    return yesIf(base::folded(a.value->text) == base::folded(b.value->text));
  }

 private:
  static Answer yesIf(bool is) { return is ? Answer::yes : Answer::no; }

  // Two dates that read alike are alike; others differ if they have no day in common.
  Answer dates(const Reached& a, const Reached& b) const {
    if (base::folded(a.value->text) == base::folded(b.value->text)) return Answer::yes;
    const dates::Bounds one = daysOf(a);
    const dates::Bounds other = daysOf(b);
    return one.latest < other.earliest || other.latest < one.earliest ? Answer::no : Answer::maybe;
  }

  dates::Bounds daysOf(const Reached& one) const {
    const bool event = one.whole && !one.inStructure && one.spec != nullptr &&
                       one.spec->has(records::kDated) && one.spec->type == records::FieldType::moment;
    if (event) return bounds_.of(one.record, one.spec->field, Bounds::End::moment);
    return one.value->date()->bounds(bounds_.reading(), all_.settings().dates).opened();
  }

  const Collection& all_;
  const Bounds& bounds_;
};

// Every member of the one side is among the other's.
Answer allAmong(const Side& one, const Side& other, const Alike& alike) {
  Answer all = Answer::yes;
  for (const Reached& member : one.reached) {
    Answer found = other.open ? Answer::maybe : Answer::no;
    for (const Reached& candidate : other.reached) found = either(found, alike.of(member, candidate));
    all = both(all, found);
  }
  return all;
}

}  // namespace

void TestRunner::compare(const ClaimTest& test, TestResult& result) {
  const Alike alike(all_, bounds_);
  const Side sides[2] = {sideOf(test.paths[0], test.records[0], all_),
                         sideOf(test.paths[1], test.records[1], all_)};
  Answer same = both(allAmong(sides[0], sides[1], alike), allAmong(sides[1], sides[0], alike));
  if (same == Answer::yes && (sides[0].open || sides[1].open)) same = Answer::maybe;
  if (sides[0].reached.empty() || sides[1].reached.empty()) same = Answer::maybe;
  if (test.way == ClaimTest::Way::differ) same = opposite(same);
  result.outcome = same == Answer::yes  ? Outcome::holds
                   : same == Answer::no ? Outcome::broken
                                        : Outcome::open;
  result.firm = result.outcome == Outcome::broken;
  for (std::size_t i = 0; i < 2; ++i) {
    const bool open = result.outcome == Outcome::open;
    std::vector<Ground> grounds;
    for (const Reached& one : test.paths[i].from(test.records[i], all_)) {
      const bool list = open && one.inList && !one.complete && one.openList.value != nullptr;
      Ground ground = list ? openListGround(test.paths[i].steps(), one.openList)
                           : groundOf(test.paths[i].steps(), one, test.records[i]);
      ground.missing = open;
      if (std::find(grounds.begin(), grounds.end(), ground) == grounds.end())
        grounds.push_back(std::move(ground));
      if (grounds.size() == Told::kMostGrounds) break;
    }
    for (const Ground& ground : grounds) result.firm = result.firm && facts_.isFirm(ground);
    if (!open || sides[i].open || !(sides[1 - i].open))
      result.records.push_back({test.records[i], facts_.of({Answer::yes, true, std::move(grounds)})});
  }
}

}  // namespace saggar::choosing
