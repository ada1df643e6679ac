#include "choosing/claim_test_run.h"

#include <algorithm>

#include "base/text.h"

// The problem: a claim is asked of tens of thousands of records, and its author wants to know which of them speaks
// against it and how well that is known. The choice: one pass that only answers; then, of the few records that decide,
// each answer once more with what it rests on.
namespace saggar::choosing {

using chronology::WhichFirst;
using records::Value;
using Way = ClaimTest::Way;

namespace {

constexpr std::size_t kMostRecords = 10;  // kept of a result
constexpr std::size_t kMostTold = 200;    // of which the best known are kept

}  // namespace

TestResult TestRunner::run(const ClaimTest& test) {
  TestResult result;
  result.way = test.way;
  result.kind = test.kind;
  result.makes = test.makes;
  switch (test.way) {
    case Way::every:
    case Way::no:
    case Way::some:
    case Way::count: overKind(test, result); break;
    case Way::before: before(test, result); break;
    case Way::same:
    case Way::differ: compare(test, result); break;
  }
  return result;
}

void TestRunner::overKind(const ClaimTest& test, TestResult& result) {
  std::vector<Speaker> sure, against, open;
  for (const RecordIndex record : all_.ofKind(test.kind)) {
    const Answer where = test.where.of(record, all_, bounds_, &shown_);
    if (where == Answer::no) continue;
    const Answer has = test.has.of(record, all_, bounds_, &shown_);
    const Answer is = both(where, has);
    result.looked += where == Answer::yes ? 1 : 0;
    result.most += is != Answer::no ? 1 : 0;
    if (is == Answer::yes) {
      sure.push_back({record});
    } else if (where == Answer::yes && has == Answer::no) {
      against.push_back({record});
    } else if (test.way == Way::every ? has != Answer::yes : is == Answer::maybe) {
      open.push_back({record});
    }
    if (test.way == Way::every && (where != Answer::yes || has != Answer::no))
      piecesAgainst(test, record, against);
  }
  result.fitting = sure.size();
  const std::vector<Speaker>* speaking = &sure;
  const auto decide = [&](bool broken, const std::vector<Speaker>& breaking, bool holds) {
    result.outcome = broken ? Outcome::broken : holds ? Outcome::holds : Outcome::open;
    speaking = broken ? &breaking : holds ? &sure : &open;
  };
  switch (test.way) {
    case Way::every: decide(!against.empty(), against, open.empty()); break;
    case Way::no: decide(!sure.empty(), sure, open.empty()); break;
    case Way::some: decide(result.most == 0, against, !sure.empty()); break;
    default: {
      const auto least = static_cast<std::int64_t>(sure.size());
      const auto most = static_cast<std::int64_t>(result.most);
      decide(least > test.makes.high || most < test.makes.low, sure,
             test.makes.low <= least && most <= test.makes.high);
    }
  }
  // Of a guide of which part could not be read nothing may be concluded from what is not there.
  const bool few = test.way == Way::some ||
                   (test.way == Way::count && static_cast<std::int64_t>(result.most) < test.makes.low);
  if (result.outcome == Outcome::broken && few && (all_.read().lostFiles || !all_.read().lostIds.empty())) {
    result.outcome = Outcome::untested;
    return;
  }
  if (result.outcome == Outcome::broken) result.firm = brokenFirmly(test, result, *speaking);
  keep(test, *speaking, result);
}

// Pieces that show something else than is recorded of their ware, and that make the difference.
void TestRunner::piecesAgainst(const ClaimTest& test, RecordIndex record,
                               std::vector<Speaker>& against) const {
  for (const RecordIndex piece : shown_.pieces(record)) {
    PieceView view{piece, Shown::wareOf(all_, piece), true};
    if (test.has.of(record, all_, bounds_, &shown_, &view) != Answer::no) continue;
    view.newsOnly = false;
    if (test.where.of(record, all_, bounds_, &shown_, &view) == Answer::yes)
      against.push_back({record, piece});
  }
}

TestRunner::Both TestRunner::tell(const ClaimTest& test, const Speaker& speaker) const {
  if (speaker.piece == records::kNoRecord)
    return {test.where.tell(speaker.record, all_, bounds_, facts_, &shown_),
            test.has.tell(speaker.record, all_, bounds_, facts_, &shown_)};
  const Shown::Ware ware = Shown::wareOf(all_, speaker.piece);
  const PieceView whole{speaker.piece, ware, false};
  const PieceView news{speaker.piece, ware, true};
  return {test.where.tell(speaker.record, all_, bounds_, facts_, &shown_, &whole),
          test.has.tell(speaker.record, all_, bounds_, facts_, &shown_, &news)};
}

// It would be broken too if everything were left out that is neither documented nor supported.
bool TestRunner::brokenFirmly(const ClaimTest& test, const TestResult& result,
                              const std::vector<Speaker>& speaking) const {
  const auto firm = [&](const Speaker& speaker) { return tell(test, speaker).firm(); };
  const auto firmlyNo = [&](RecordIndex record) { return tell(test, {record}).firmlyNo(); };
  const auto kind = all_.ofKind(test.kind);
  if (test.way == Way::every || test.way == Way::no)
    return std::any_of(speaking.begin(), speaking.end(), firm);
  if (test.way == Way::some) return !kind.empty() && std::all_of(kind.begin(), kind.end(), firmlyNo);
  if (static_cast<std::int64_t>(result.fitting) > test.makes.high)
    return std::count_if(speaking.begin(), speaking.end(), firm) > test.makes.high;
  const auto no = std::count_if(kind.begin(), kind.end(), firmlyNo);
  return no > 0 && static_cast<std::int64_t>(kind.size()) - no < test.makes.low;
}

// The records that decide, those that are best known first.
void TestRunner::keep(const ClaimTest& test, const std::vector<Speaker>& speaking, TestResult& result) const {
  struct Spoken {
    RecordIndex record;  // or the piece
    Both told;
  };
  std::vector<Spoken> told;
  for (const Speaker& speaker : speaking) {
    if (told.size() == kMostTold) break;
    told.push_back({speaker.named(), tell(test, speaker)});
  }
  if (result.outcome == Outcome::broken)
    std::stable_sort(told.begin(), told.end(),
                     [](const Spoken& a, const Spoken& b) { return a.told.firm() > b.told.firm(); });
  for (Spoken& one : told) {
    if (result.records.size() == kMostRecords) break;
    // What keeps it open is what is not known; else what it has, then why it was looked at.
    const bool open = result.outcome == Outcome::open;
    std::vector<TestFact> facts;
    for (const Told* part : {&one.told.has, &one.told.where})
      if (!open || part->answer == Answer::maybe)
        for (TestFact& fact : facts_.of(*part)) facts.push_back(std::move(fact));
    result.records.push_back({one.record, std::move(facts)});
  }
  result.more = speaking.size() - result.records.size();
}

void TestRunner::before(const ClaimTest& test, TestResult& result) {
  if (!precedences_) precedences_.emplace(chronology_);
  const chronology::Events& events = chronology_.events();
  const chronology::Node nodes[2] = {events.named(*test.events[0]), events.named(*test.events[1])};
  if (nodes[0] == chronology::kNoNode || nodes[1] == chronology::kNoNode) return;
  const chronology::Precedence found = precedences_->of(nodes[0], nodes[1]);
  result.outcome = found.answer == WhichFirst::first ? Outcome::holds
                   : found.notFirst                  ? Outcome::broken
                                                     : Outcome::open;
  result.firm = result.outcome == Outcome::broken;  // only documented facts prove
  result.unlikely = result.outcome == Outcome::open && found.likely == WhichFirst::second;
  const bool clash = found.answer == WhichFirst::contradiction;
  if (result.outcome != Outcome::open || clash) {
    TestedRecord& told = result.records.emplace_back(TestedRecord{test.events[0]->target(), {}});
    for (const chronology::FactId fact : result.firm ? found.whyNotFirst : found.because)
      told.facts.push_back(facts_.of(fact));
    return;
  }
  for (const chronology::Node node : nodes) result.records.push_back(eventOf(*events.eventOf(node)));
}

// What is on record of an event that is still open.
TestedRecord TestRunner::eventOf(const chronology::Event& event) const {
  const records::Record& record = all_[event.record];
  const Value* value = record.find(event.field);
  const std::string text = chronology_.events().text(event);
  TestFact fact;
  fact.record = event.record;
  fact.field = text.substr(record.reference().size() + 1);
  fact.missing = true;
  fact.span = value == nullptr ? record.span() : record.span(value->place);
  fact.typed = value;
  if (value != nullptr) fact.value = typedOf(*value);
  return {event.record, {std::move(fact)}};
}

RecordIndex replacementOf(const Collection& collection, RecordIndex claim) {
  for (const linking::BackReference& back : collection.referredBy(claim))
    if (back.field == "replaces"_f && back.from != claim) return back.from;
  return records::kNoRecord;
}

bool isRetired(const Collection& collection, RecordIndex claim) {
  return collection[claim].text("status"_f) == "withdrawn" ||
         replacementOf(collection, claim) != records::kNoRecord;
}

ClaimResults ClaimResults::of(const Collection& collection, const evidence::Weights& weights,
                              const chronology::Chronology& chronology) {
  ClaimResults out;
  TestRunner runner(collection, weights, chronology);
  for (const RecordIndex index : collection.ofKind(Kind::claim)) {
    const records::Record& claim = collection[index];
    const Value* tests = claim.find("test"_f);
    if (tests == nullptr || isRetired(collection, index)) continue;
    ClaimResult result{.outcome = Outcome::holds, .tests = {}};
    for (const Value& typed : tests->each()) {
      diagnostics::Findings told;  // by checkConditions
      const auto test = compileTest(typed, collection, claim.file, told);
      result.tests.push_back(test ? runner.run(*test) : TestResult());
      result.tests.back().span = claim.span(test ? test->at->place : typed.place);
    }
    const auto any = [&](Outcome outcome) {
      return std::any_of(result.tests.begin(), result.tests.end(),
                         [&](const TestResult& one) { return one.outcome == outcome; });
    };
    for (const Outcome outcome : {Outcome::untested, Outcome::open, Outcome::broken})
      if (any(outcome)) result.outcome = outcome;
    out.results_.emplace(index, std::move(result));
  }
  return out;
}

}  // namespace saggar::choosing
